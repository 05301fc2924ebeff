package charging_test

import (
	"fmt"

	"daybreak/internal/charging"
	"daybreak/internal/unit"
)

// A 32 A unit on a 30 A breaker: the circuit is the limit.
func Example() {
	rate, err := charging.Power(charging.Limits{
		Supply:     240,
		Breaker:    charging.At[unit.Amps](30),
		Receptacle: charging.None[unit.Amps](),
		Setting:    charging.At[unit.Amps](32),
		Cable:      charging.At[unit.Amps](32),
		Managed:    charging.None[unit.Amps](),
		OnboardKW:  charging.At[unit.Kilowatts](11.5),
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	miles, err := charging.MilesPerHour(rate.Wall, 27, rate.Level.DistanceFactor(), nil)
	fmt.Printf("%.2f kW by the %s, %.0f miles an hour %v\n", rate.Wall, rate.Binding.Word(), miles, err)
	// Output: 5.76 kW by the circuit, 21 miles an hour <nil>
}
