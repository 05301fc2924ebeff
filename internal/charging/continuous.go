package charging

import (
	"errors"
	"fmt"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Continuous gives the largest setting a breaker may feed for hours, 80 % of
// it, and the power of that at a supply of 100 to 300 V.
//
// Source: NEC 625.41, 625.42
func Continuous(breaker unit.Amps, supply unit.Volts) (unit.Amps, unit.Kilowatts, error) {
	err := errors.Join(above("breaker_amps", breaker, 0, 400, "A"), within("supply_volts", supply, 100, 300, "V"))
	if err != nil {
		return 0, 0, err
	}
	setting := unit.Amps(continuousShare * float64(breaker))
	return setting, kilowatts(float64(setting), supply), nil
}

// deviceSizes are the standard ratings that home charging meets.
//
// Source: NEC 240.6(A)
var deviceSizes = [...]unit.Amps{15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100}

// BreakerFor is the smallest standard device that is at least 125 % of a
// setting of 1 to 80 A. The design of a circuit asks room edition; this is the
// rule of thumb by itself.
//
// Source: NEC 625.41, 240.6(A)
func BreakerFor(setting unit.Amps) (unit.Amps, error) {
	if err := within("setting_amps", setting, 1, 80, "A"); err != nil {
		return 0, err
	}
	for _, size := range deviceSizes {
		if float64(size)*continuousShare >= float64(setting)*(1-tie) {
			return size, nil
		}
	}
	return 0, fault.Invalid("setting_amps", float64(setting), fmt.Sprintf("at most %v A", deviceSizes[len(deviceSizes)-1]*continuousShare))
}
