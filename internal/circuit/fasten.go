package circuit

import (
	"math"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Fasteners counts what a straight run needs: one at the greatest distance
// from each end and equal spaces between, none wider than allowed.
//
// Source: NEC 334.30, 358.30, 352.30 as the edition answers them.
func Fasteners(s edition.Supports, run unit.Feet) (int, error) {
	if !(run >= 0 && run <= 10000) {
		return 0, fault.Invalid("feet", float64(run), "0 to 10000 ft")
	}
	if !(s.Spacing > 0) || !(s.FromBox >= 0) {
		return 0, fault.Invalid("spacing_feet", float64(s.Spacing), "more than 0 ft")
	}
	between := float64(run) - 2*float64(s.FromBox)/12
	if between <= 0 {
		if run == 0 {
			return 0, nil
		}
		return 1, nil
	}
	return int(math.Ceil(between/float64(s.Spacing)-hair)) + 1, nil
}
