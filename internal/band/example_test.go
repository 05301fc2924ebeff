package band_test

import (
	"fmt"

	"daybreak/internal/band"
	"daybreak/internal/facts"
	"daybreak/internal/unit"
)

// Three facts make a ballpark, with what was taken for the rest. The more is
// told, the firmer it stands.
func ExampleQuote() {
	books, err := books()
	if err != nil {
		fmt.Println(err)
		return
	}
	var told facts.Facts
	told.Place.PostalCode = facts.Tell("00010")
	told.Vehicle.Model = facts.Tell("mid-sedan-long")
	told.Driving.WeekdayMiles = facts.Tell(unit.Miles(35))
	q, err := band.Quote(books, told, unit.Date{Year: 2026, Month: 11, Day: 25})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(q.Standing.Word(), "over", q.Band.Draws, "homes that match")
	fmt.Println(q.Band.P10 < q.Band.P50 && q.Band.P50 < q.Band.P90)
	// Output:
	// ballpark over 64 homes that match
	// true
}
