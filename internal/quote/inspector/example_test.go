package inspector_test

import (
	"fmt"

	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/quote/inspector"
)

// A setting of 40 A that slipped onto a 40 A breaker is found, by rule and
// section.
func ExampleInspect() {
	q := quote.Quote{
		Edition: "NEC 2023",
		Options: []quote.Option{{ID: "new-hardwired-40", Way: quote.Hardwired, Setting: 40, Breaker: 40, Volts: 240}},
	}
	for _, v := range inspector.Inspect(&q, &facts.Facts{}) {
		if v.Rule == "setting-within-breaker" {
			fmt.Printf("%s: saw %s; allowed: %s (%s)\n", v.Option, v.Saw, v.Allowed, v.Section)
		}
	}
	// Output:
	// new-hardwired-40: saw 40.0 A set on 40.0 A; allowed: at most 32.0 A (625.41, 210.20(A))
}
