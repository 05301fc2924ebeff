package panel_test

import (
	"encoding/binary"
	"math"
	"testing"

	"daybreak/internal/panel"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

// tape feeds numbers from fuzzed bytes: any float, any small word.
type tape struct{ b []byte }

func (t *tape) byte() uint8 {
	if len(t.b) == 0 {
		return 0
	}
	x := t.b[0]
	t.b = t.b[1:]
	return x
}

// num is a number of the range most of the time, and any bits at all otherwise.
func (t *tape) num(low, high float64) float64 {
	kind := t.byte()
	if kind%32 == 31 {
		var raw [8]byte
		for i := range raw {
			raw[i] = t.byte()
		}
		return math.Float64frombits(binary.LittleEndian.Uint64(raw[:]))
	}
	return low + (high-low)*float64(uint16(t.byte())<<8|uint16(t.byte()))/65535
}

// whole is an integer of the range most of the time.
func (t *tape) whole(low, high int) int {
	x := int(int8(t.byte()))
	if x == -1 {
		return int(int8(t.byte()))
	}
	return low + (x+128)%(high-low+1)
}

func (t *tape) word(last int) uint8 { return uint8(t.whole(0, last)) }

func (t *tape) input(b *panel.Book) panel.Input {
	r, _ := b.Rules(b.Editions()[int(t.byte())%4])
	in := panel.Input{
		Rules: r, Dwelling: panel.Dwelling(t.word(4)), Stage: panel.Stage(t.word(1)), Carries: panel.Carries(t.word(2)),
		Volts: 240, FloorArea: unit.SquareFeet(t.num(100, 6000)), SmallCirc: t.whole(2, 6), LaundryCir: t.whole(0, 3),
		Heat: panel.Heat{Kind: panel.HeatKind(t.word(4)), VA: unit.VoltAmps(t.num(0, 40000)), Units: t.whole(0, 12),
			Compressor: unit.VoltAmps(t.num(0, 12000)), Interlock: panel.Interlock(t.word(1))},
		Cooling: unit.VoltAmps(t.num(0, 12000)), Change: panel.Change(t.word(1)),
		Supply: panel.Ratings{Service: unit.Amps(t.num(15, 400)), Main: unit.Amps(t.num(15, 400)), Bus: unit.Amps(t.num(15, 400)),
			Conductors: unit.Amps(t.num(15, 400)), Meter: unit.Amps(t.num(15, 400))},
		Protection: panel.Protection(t.word(2)),
		Management: panel.Management{Kind: panel.ManagementKind(t.word(1)), Setpoint: unit.Amps(t.num(0, 300)), FailSafe: unit.Amps(t.num(0, 48))},
		Measured: panel.Measured{Record: panel.Record(t.word(2)), Peak: unit.Kilowatts(t.num(0.1, 60)), IntervalMin: 15 * t.whole(1, 2),
			Generation: panel.Generation(t.word(2)), Added: panel.Added(t.word(1))},
		Source: panel.Backfeed{Kind: panel.SourceKind(t.word(3)), Output: unit.Amps(t.num(0, 100)), Place: panel.Place(t.word(2)),
			Accepted: panel.BusRule(t.word(3)), LoadBreakers: unit.Amps(t.num(0, 400))},
		Spaces: panel.Spaces{Seen: panel.Seen(t.word(1)), Free: t.whole(0, 8), Tandem: panel.Tandem(t.word(2))},
	}
	if t.byte()%8 == 7 {
		in.Volts = unit.Volts(t.num(100, 300))
	}
	for range t.whole(0, 6) {
		in.Loads = append(in.Loads, panel.Load{Kind: panel.LoadKind(t.word(int(panel.OtherLoad))), VA: unit.VoltAmps(t.num(0, 20000)), Count: t.whole(1, 4)})
	}
	for range t.whole(0, 4) {
		in.Chargers = append(in.Chargers, panel.Charger{Plate: panel.Plate(t.word(1)), Setting: unit.Amps(t.num(1, 80)), Volts: in.Volts, Circuit: panel.Circuit(t.word(1))})
	}
	return in
}

// Whatever is put in, the answer is a refusal by name or sound numbers.
func FuzzCalculate(f *testing.F) {
	b := book(f)
	f.Add([]byte{})
	for step := 1; step < 40; step += 4 {
		raw := make([]byte, 400)
		for i := range raw {
			raw[i] = byte(i * step % 30)
		}
		f.Add(raw)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		in := (&tape{raw}).input(b)
		var sheet working.Sheet
		res, err := panel.Calculate(in, &sheet)
		if err != nil {
			return
		}
		for _, o := range res.Methods {
			require.GreaterOrEqual(t, float64(o.Base), 0.0)
			for r := range o.VA {
				require.True(t, unit.Finite(o.Amps[r]) && o.Amps[r] >= 0)
			}
		}
		require.True(t, unit.Finite(res.Spare) && unit.Finite(res.Total))
		for _, s := range sheet.Steps {
			require.True(t, unit.Finite(s.Out.Value) && s.Out.Value >= 0, s.Rule)
			for _, x := range s.In {
				require.True(t, unit.Finite(x.Value), s.Rule)
			}
		}
		for _, m := range res.Measures {
			require.True(t, unit.Finite(m.Total) && m.Total >= 0 && m.Setting >= 0)
		}
	})
}

// Any file either opens or is refused with its name.
func FuzzOpenBook(f *testing.F) {
	f.Add([]byte("publication: NEC\neditions: [2017]\n"))
	f.Add([]byte("editions: {2017: 1}\n"))
	f.Add([]byte("general_lighting: {va_per_sqft: {2026: 2, 2017: 3}}\n"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		if _, err := panel.OpenBook(with(t, "methods.yaml", raw)); err != nil {
			require.ErrorContains(t, err, "methods.yaml")
		}
	})
}
