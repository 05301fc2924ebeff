package circuit_test

import (
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// Any bytes make a job or a feeder: it is designed, or refused by name, and
// nothing panics.
func FuzzDesign(f *testing.F) {
	b := book(f, 2023)
	f.Add(48.0, 240.0, 30.0, 150.0, 10.0, uint64(0x0102030405060708))
	f.Add(80.0, 208.0, 60.0, 0.0, 0.0, uint64(0))
	f.Add(6.0, 120.0, -40.0, 2000.0, 100.0, ^uint64(0))
	f.Fuzz(func(t *testing.T, setting, volts, ambient, feet, drop float64, bits uint64) {
		at := func(i, n int) uint8 { return uint8(bits>>(4*i)) % uint8(n) }
		route := circuit.Route{PanelDrop: unit.Feet(drop), DeviceDrop: unit.Feet(drop)}
		for i := range at(0, 8) {
			route.Segments = append(route.Segments, circuit.Segment{Kind: circuit.SegmentKind(at(int(i)+1, 9)), Feet: unit.Feet(feet),
				Over: edition.Burial(at(int(i)+2, 8)), Ground: circuit.Ground(at(int(i)+3, 7)), DeepestCover: unit.Inches(drop)})
		}
		job := circuit.Job{Setting: unit.Amps(setting), Volts: unit.Volts(volts), Ambient: unit.Celsius(ambient), Route: route,
			Means: edition.SettingMeans(at(8, 4)), Fastening: edition.Fastening(at(9, 3)), Connection: circuit.Connection(at(10, 4)),
			Place: edition.Place(at(11, 4)), Terminals: edition.Marking(at(12, 3)), Structure: circuit.Structure(at(13, 4)),
			Methods: circuit.MethodSet(bits >> 40), OtherCurrentCarrying: int(at(14, 12)), Whip: unit.Feet(drop), OverRoof: bits&1 == 1}
		r, err := circuit.Design(b, job, nil)
		if err == nil && r.Outcome == 0 {
			t.Fatal("no outcome")
		}
		feeder, err := circuit.DesignFeeder(b, circuit.FeederJob{Charger: job.Setting, Other: unit.Amps(feet), Volts: job.Volts, Detached: bits&2 == 2,
			OldRuns: int(at(7, 10)), Place: job.Place, Route: route, Terminals: job.Terminals, Aluminium: bits&4 == 4, Ambient: job.Ambient,
			Methods: job.Methods, DropPercent: drop}, nil)
		if err == nil && feeder.Outcome == 0 {
			t.Fatal("no outcome of the feeder")
		}
	})
}
