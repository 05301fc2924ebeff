package outlet_test

import (
	"fmt"
	"strings"
	"testing"

	"daybreak/internal/circuit/outlet"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// The households whose outlet decides: facts and expectations from the
// project's own scenarios, code sections beside each.
func TestHouseholdsWithAnOutlet(t *testing.T) {
	set := func(words ...string) outlet.Reading[outlet.ConditionSet] {
		c, err := outlet.Conditions(words...)
		require.NoError(t, err)
		return outlet.Read(c)
	}
	for _, c := range []struct {
		name     string
		given    func(e *outlet.Existing)
		verdict  string
		now      unit.Amps
		findings string
		ways     []string // kind setting/breaker receptacle: work
	}{
		{"V02 light driver on the outlet he has", // 210.21(B)(2)
			func(e *outlet.Existing) {
				e.Book, e.Year, e.Receptacle, e.Breaker, e.Sharing, e.Supply = openBook(t, 2020), 2020, "5-15 GFCI", outlet.Read[unit.Amps](20), "general_idle", 120
				e.Conductor, e.Grade = outlet.Conductor{Size: "12", Material: "cu", Method: "nm"}, outlet.Unknown
			}, "use", 12, "", []string{"as_it_is 12/20 5-15 GFCI: "}},
		{"V03 10-30 shared with the dryer", // 250.140, 625.40
			func(e *outlet.Existing) {
				e.Book, e.Year, e.Receptacle, e.Breaker, e.Sharing = openBook(t, 2020), 2020, "10-30", outlet.Read[unit.Amps](30), "dryer"
				e.Conductor, e.GFCI = outlet.Conductor{Size: "10", Material: "cu", Method: "nm"}, outlet.No
			}, "needs_work", 0, "D-205 D-501 D-213", []string{"put_right 24/30 14-30: ground_conductor gfci_breaker new_receptacle sharing_switch"}},
		{"V04 14-50 on 30 A, 10 AWG, 40 A unit locked down", // 210.21(B)(1), 625.42(B)
			func(e *outlet.Existing) {
				e.Breaker, e.Conductor, e.GFCI, e.Grade = outlet.Read[unit.Amps](30), outlet.Conductor{Size: "10", Material: "cu", Method: "nm"}, outlet.Unknown, outlet.Unknown
				e.Equipment = outlet.Equipment{Max: outlet.Read[unit.Amps](40), Setting: "locked", Kind: "portable"}
			}, "needs_work", 0, "D-209 D-212", []string{
				"set_down 24/30 14-50: lock_setting",
				"put_right 24/30 14-30: gfci_breaker new_receptacle",
				"wired_in 24/30 : gfci_breaker hardwire"}},
		{"V05 6-50 of a welder, 10 AWG behind 50 A", // 630.12, 240.4(D)
			func(e *outlet.Existing) {
				e.Book, e.Year, e.Receptacle, e.Conductor, e.GFCI = openBook(t, 2020), 2020, "6-50", outlet.Conductor{Size: "10", Material: "cu", Method: "nm"}, outlet.Unknown
			}, "stop", 0, "D-303", []string{
				"put_right 24/30 6-30: inspect gfci_breaker new_receptacle",
				"wired_in 24/30 : inspect new_breaker hardwire"}}, // 210.8(F) of 2020 stops at outdoors
		{"V14 renter, outdoor outlet nothing else uses", // 625.40 as of 2020
			func(e *outlet.Existing) {
				e.Book, e.Year, e.Receptacle, e.Breaker, e.Sharing, e.Supply, e.Location = openBook(t, 2020), 2020, "5-20", outlet.Read[unit.Amps](20), "general_idle", 120, "outdoor"
				e.Conductor = outlet.Conductor{Size: "12", Material: "cu", Method: "nm"}
			}, "use", 12, "", []string{"as_it_is 12/20 5-20: "}},
		{"V15 hot plug, one slot brown", // 110.14
			func(e *outlet.Existing) { e.Condition, e.GFCI = set("hot", "burnt"), outlet.No },
			"stop", 0, "D-201 D-213", []string{
				"put_right 40/50 14-50: inspect gfci_breaker new_receptacle",
				"wired_in 40/50 : inspect gfci_breaker hardwire"}},
		{"14-30 on 50 A with 6 AWG: the face is what is wrong", // 210.21(B)(1)
			func(e *outlet.Existing) { e.Receptacle = "14-30" },
			"stop", 0, "D-208", []string{
				"put_right 40/50 14-50: inspect new_receptacle",
				"wired_in 40/50 : inspect hardwire"}},
		{"14-30 on 50 A, wire not read: the breaker comes down", // 210.21(B)(1)
			func(e *outlet.Existing) {
				e.Receptacle, e.Conductor.Size = "14-30", outlet.Unknown
			}, "stop", 0, "D-208", []string{
				"put_right 24/30 14-30: inspect gfci_breaker",
				"wired_in 24/30 : inspect gfci_breaker hardwire"}},
		{"2026: a 50 A face on 40 A is wired in", // 625.44 (2026)
			func(e *outlet.Existing) {
				e.Book, e.Year, e.Breaker, e.Conductor, e.Grade = openBook(t, 2026), 2026, outlet.Read[unit.Amps](40), outlet.Conductor{Size: "8", Material: "cu", Method: "nm"}, "ev_listed"
			}, "needs_work", 0, "", []string{"wired_in 32/40 : hardwire"}},
		{"two-prong outlet: nothing comes of it", // 406.4(D)(2)
			func(e *outlet.Existing) { e.Receptacle, e.Breaker, e.Supply = "1-15", outlet.Read[unit.Amps](15), 120 },
			"needs_work", 0, "D-206", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			e := sound(t)
			c.given(&e)
			v, err := outlet.Judge(e, nil)
			require.NoError(t, err)
			require.Equal(t, c.verdict, v.Word.String())
			require.Equal(t, c.now, v.Now)
			require.Equal(t, c.findings, strings.Join(v.Findings(), " "))
			var ways []string
			for _, w := range v.Ways {
				var work []string
				for _, k := range w.Work {
					work = append(work, string(k.Kind))
				}
				ways = append(ways, fmt.Sprintf("%s %v/%v %s: %s", w.Kind, w.Setting, w.Breaker, w.Receptacle, strings.Join(work, " ")))
			}
			require.Equal(t, c.ways, ways)
		})
	}
}
