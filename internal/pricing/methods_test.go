package pricing_test

import (
	"fmt"
	"testing"

	"daybreak/internal/pricing"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func feederSet(size, ground, material string) []pricing.Conductors {
	return []pricing.Conductors{{Size: size, Count: 3, Material: material}, {Size: ground, Count: 1, Material: material}}
}

// feederWirings are ways a feeder may go indoors.
var feederWirings = []pricing.Wiring{
	{Method: pricing.SER, Cable: pricing.Cable{Size: "2", Conductors: 3}, Connectors: 2},
	{Method: pricing.MC, Cable: pricing.Cable{Size: "6", Conductors: 3}, Connectors: 2},
	{Method: pricing.NMB, Cable: pricing.Cable{Size: "6", Conductors: 3}, Connectors: 2},
	{Method: pricing.EMT, TradeSize: "1-1/4", Conductors: feederSet("2", "4", "AL"), QuarterBends: 2, Bushings: 2},
	{Method: pricing.RMC, TradeSize: "1-1/4", Conductors: feederSet("4", "8", ""), QuarterBends: 2},
	{Method: pricing.PVC80, TradeSize: "1-1/4", Conductors: feederSet("4", "8", ""), QuarterBends: 2},
}

// What a wiring takes, counted by hand: a run of 40 ft, drops 5 and 4 ft, tails
// 4 and 1.5 ft, slack and waste 10 % on cable, 5 % on raceway and wire.
func TestMethodsAreCountedAsAnEstimatorWould(t *testing.T) {
	book := demo(t)
	place := demoPlace(t, book, "00010")
	for _, c := range []struct {
		name   string
		wiring pricing.Wiring
		kind   pricing.SegmentKind
		feet   unit.Feet
		want   map[string]string // quantity by code
	}{
		// NFPA 70 330.30: every 6 ft. ⌈54.5 × 1.1⌉ = 60; ⌈49 ÷ 6⌉ + 1 = 10.
		{"MC on a wall", pricing.Wiring{Method: pricing.MC, Cable: pricing.Cable{Size: "8", Conductors: 2}, Connectors: 2}, pricing.Surface, 40,
			map[string]string{"mc-8-2": "60", "mc-strap-8-6": "10", "mc-connector-8-6": "2", "lab.mc_surface": "4.9"}},
		// Fished cable is held by the wall: only the drops are strapped. ⌈9 ÷ 6⌉ + 1 = 3.
		{"MC fished", pricing.Wiring{Method: pricing.MC, Cable: pricing.Cable{Size: "8", Conductors: 2}}, pricing.Fished, 40,
			map[string]string{"mc-8-2": "60", "mc-strap-8-6": "3", "lab.nm_fish": "4.9"}},
		// 340.10(4): as NM where above ground, with its own connectors; a sleeve over the drops, ⌈9 × 1.05⌉ = 10 ft.
		{"UF with its sleeve", pricing.Wiring{Method: pricing.UFB, Cable: pricing.Cable{Size: "10", Conductors: 2}, TradeSize: "3/4", Exposed: pricing.PVC80, Connectors: 2}, pricing.TrenchLawn, 40,
			map[string]string{"uf-b-10-2": "60", "pvc80-3-4": "1", "uf-connector-12-10": "2", "lab.uf_trench": "4", "lab.pvc_exposed": "0.9", "lab.trench_machine_soil": "40", "warning-tape": "40", "restore-lawn": "40"}},
		// Without a sleeve what is above ground is stapled: ⌈9 ÷ 4.5⌉ + 1 = 3.
		{"UF, drops on the framing", pricing.Wiring{Method: pricing.UFB, Cable: pricing.Cable{Size: "6", Conductors: 3}}, pricing.TrenchBed, 40,
			map[string]string{"uf-b-6-3": "60", "nm-staple-large": "3", "lab.uf_trench": "4", "lab.nm_open": "0.9", "restore-bed": "40"}},
		// 338.10(B)(4): as NM. ⌈49 ÷ 4.5⌉ + 1 = 12. Aluminium ends take joint compound.
		{"SER indoors", pricing.Wiring{Method: pricing.SER, Cable: pricing.Cable{Size: "2", Conductors: 3}, Connectors: 2}, pricing.Open, 40,
			map[string]string{"ser-al-2-2-2-4": "60", "ser-strap": "12", "ser-connector-2in": "2", "al-antioxidant": "1", "lab.nm_open": "4.9"}},
		{"feeder cable in the ground", pricing.Wiring{Method: pricing.MHF, Cable: pricing.Cable{Size: "2", Conductors: 3}, TradeSize: "1-1/2", Exposed: pricing.PVC80}, pricing.TrenchGravel, 40,
			map[string]string{"mhf-al-2-2-4-6": "60", "pvc80-1-1-2": "1", "al-antioxidant": "1", "restore-gravel": "40", "lab.trench_gravel": "40"}},
		// 344.30: every 10 ft. ⌈49 × 1.05⌉ = 52 ft, 6 sticks; ⌈49 ÷ 10⌉ + 1 = 6.
		{"RMC", pricing.Wiring{Method: pricing.RMC, TradeSize: "1", QuarterBends: 5, Conductors: sixAndTen()}, pricing.Surface, 40,
			map[string]string{"rmc-1": "6", "rmc-1-coupling": "5", "rmc-1-elbow90": "5", "rmc-1-hub": "2", "rmc-1-strap": "6", "rmc-1-body-lb": "1", "lab.rmc": "4.9"}},
		// 350.30: every 4 1/2 ft and at both ends. 6 + 9 ft: ⌈15 × 1.05⌉ = 16 ft; ⌈15 ÷ 4.5⌉ + 1 = 5.
		{"liquidtight whip", pricing.Wiring{Method: pricing.LFMC, TradeSize: "3/4", Conductors: sixAndTen()}, pricing.Surface, 6,
			map[string]string{"lfmc-3-4": "16", "lfmc-3-4-connector-straight": "2", "lfmc-3-4-strap": "5", "lab.lfmc": "3"}},
		{"aluminium in tubing", pricing.Wiring{Method: pricing.EMT, TradeSize: "1-1/4", Conductors: feederSet("2", "4", "AL"), Bushings: 2}, pricing.Open, 40,
			map[string]string{"xhhw-al-2": "174", "xhhw-al-4": "58", "emt-1-1-4-bushing-insulated": "2", "al-antioxidant": "1", "lab.emt_1q_2": "4.9"}},
		{"concrete over PVC", pricing.Wiring{Method: pricing.PVC40, Exposed: pricing.PVC80, TradeSize: "1", Conductors: sixAndTen()}, pricing.TrenchConcrete, 40,
			map[string]string{"restore-concrete": "40", "lab.saw_concrete": "40", "pvc40-1": "5", "pvc80-1": "1"}},
		{"asphalt over PVC", pricing.Wiring{Method: pricing.PVC40, TradeSize: "1", Conductors: sixAndTen()}, pricing.TrenchAsphalt, 40,
			map[string]string{"restore-asphalt": "40", "lab.saw_asphalt": "40"}},
		{"pavers over PVC", pricing.Wiring{Method: pricing.PVC40, TradeSize: "1", Conductors: sixAndTen()}, pricing.TrenchPavers, 40,
			map[string]string{"restore-pavers": "40", "lab.trench_hand_soil": "40"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			bill, err := pricing.Price(book, job(standard60(), c.wiring, pricing.Segment{Kind: c.kind, Feet: c.feet}), place, nil)
			require.NoError(t, err)
			got := map[string]string{}
			for _, l := range bill.Lines {
				if _, ok := c.want[l.Code]; ok {
					got[l.Code] = l.Quantity.String()
				}
			}
			require.Equal(t, c.want, got, fmt.Sprint(codesOf(bill)))
		})
	}
}

// Cable that is not made for the ground is refused there by name.
func TestIndoorCableIsNotBuried(t *testing.T) {
	book := demo(t)
	for _, m := range []pricing.Wiring{nm("6", 2), {Method: pricing.SER, Cable: pricing.Cable{Size: "2", Conductors: 3}}, {Method: pricing.MC, Cable: pricing.Cable{Size: "6", Conductors: 2}}} {
		_, err := pricing.Price(book, job(standard60(), m, pricing.Segment{Kind: pricing.TrenchLawn, Feet: 20}), demoPlace(t, book, "00010"), nil)
		f := requireFault(t, err)
		require.Equal(t, "design.wiring", f.Field)
		require.Contains(t, f.Accepted, "UF-B")
	}
}

// buriedWirings are ways to lie in the ground.
var buriedWirings = []pricing.Wiring{
	{Method: pricing.UFB, Cable: pricing.Cable{Size: "8", Conductors: 2}, TradeSize: "3/4", Exposed: pricing.PVC80},
	{Method: pricing.UFB, Cable: pricing.Cable{Size: "10", Conductors: 3}},
	{Method: pricing.MHF, Cable: pricing.Cable{Size: "2", Conductors: 3}, TradeSize: "1-1/2", Exposed: pricing.PVC80},
	{Method: pricing.PVC40, Exposed: pricing.PVC80, TradeSize: "1", QuarterBends: 2, Conductors: sixAndTen()},
	{Method: pricing.RMC, TradeSize: "1", QuarterBends: 2, Conductors: sixAndTen()},
}

func TestALongerTrenchNeverCostsLess(t *testing.T) {
	book := demo(t)
	rapid.Check(t, func(t *rapid.T) {
		place := drawPlace(t, book)
		kind := pricing.SegmentKind(rapid.IntRange(int(pricing.TrenchLawn), int(pricing.TrenchPavers)).Draw(t, "ground"))
		feet := unit.Feet(rapid.IntRange(0, 1200).Draw(t, "quarter feet")) / 4
		more := unit.Feet(rapid.IntRange(1, 80).Draw(t, "quarter feet more")) / 4
		wiring := rapid.SampledFrom(buriedWirings).Draw(t, "wiring")
		price := func(feet unit.Feet) pricing.Triple {
			f, err := pricing.Estimate(book, job(standard60(), wiring, pricing.Segment{Kind: kind, Feet: feet}), place)
			require.NoError(t, err)
			return f.Total
		}
		short, long := price(feet), price(feet+more)
		for s := range short {
			require.GreaterOrEqual(t, long[s], short[s])
		}
	})
}
