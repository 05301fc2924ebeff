package pricing_test

import (
	"fmt"
	"strings"
	"testing"

	"daybreak/internal/pricing"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

type vectorDesign struct {
	EVSE        string   `json:"evse"`
	Mount       string   `json:"mount"`
	Breaker     string   `json:"breaker"`
	Method      string   `json:"method"`
	Cable       string   `json:"cable"`
	Conductors  [][2]any `json:"conductors"`
	Termination string   `json:"termination"`
	Disconnect  string   `json:"disconnect"`
	LMD         bool     `json:"lmd"`
	Svc         bool     `json:"svc"`
}

type vectorBill struct {
	ID     string        `json:"id"`
	Title  string        `json:"title"`
	Book   string        `json:"book"`
	Design *vectorDesign `json:"design"`
	Route  struct {
		Segments []struct {
			Kind string    `json:"kind"`
			Feet unit.Feet `json:"ft"`
		} `json:"segments"`
		PanelDrop   unit.Feet `json:"panel_drop_ft"`
		DeviceDrop  unit.Feet `json:"device_drop_ft"`
		Bends       int       `json:"bends90"`
		Expansion   int       `json:"expansion"`
		Firestops   int       `json:"firestops"`
		AccessHoles int       `json:"access_holes"`
	} `json:"route"`
	Policy   vectorPolicy `json:"policy"`
	Tax      vectorTax    `json:"tax"`
	Permit   vectorPermit `json:"permit"`
	Factors  []string     `json:"factors"`
	Visits   *int         `json:"visits"`
	BillBy   string       `json:"bill_by"`
	Discount struct {
		Amount int64    `json:"amount"`
		Over   []string `json:"over"`
	} `json:"discount"`
	Expected struct {
		Lines    []vectorLine `json:"lines"`
		Purchase []struct {
			Code               string
			Used, Pack, Bought int64
		} `json:"purchase"`
		Subtotal, Permit, Tax, Total pricing.Triple
		TaxableBase                  pricing.Triple                                  `json:"taxable_base"`
		TotalText                    [3]string                                       `json:"total_text"`
		Spread                       map[string]struct{ Mean, SD, P10, P90 float64 } `json:"spread_before_permit_and_tax"`
	} `json:"expected"`
}

type vectorLine struct {
	Code      string
	Qty       string
	Unit      string
	Hours     []string
	UnitPrice pricing.Triple `json:"unit_price"`
	Amount    pricing.Triple
	TaxClass  string `json:"tax_class"`
	Trade     string
}

var equipmentOf = map[string]pricing.Equipment{
	"EV40P": {Output: 40, Plug: "14-50"}, "EV48H": {Output: 48}, "EV80H": {Output: 80}, "EV12L": {Output: 12, Plug: "5-15"},
}

var breakerOf = map[string]pricing.Breaker{
	"BRK50G": {Amps: 50, Poles: 2, Protection: pricing.GroundFault}, "BRK60": {Amps: 60, Poles: 2, Protection: pricing.Standard},
	"BRK100": {Amps: 100, Poles: 2, Protection: pricing.Standard}, "BRK20G": {Amps: 20, Poles: 1, Protection: pricing.GroundFault},
	"BRK70": {Amps: 70, Poles: 2, Protection: pricing.Standard},
}

var cableOf = map[string]pricing.Cable{"NM63": {Size: "6", Conductors: 3}, "NM122": {Size: "12", Conductors: 2}}

var wireOf = map[string]string{"TH6": "6", "TH10": "10", "TH3": "3", "TH8": "8"}

var racewayOf = map[string]pricing.Wiring{
	"NM": {Method: pricing.NMB}, "EMT34": {Method: pricing.EMT, TradeSize: "3/4"}, "EMT1": {Method: pricing.EMT, TradeSize: "1"},
	"PVC1": {Method: pricing.PVC40, TradeSize: "1"},
}

var kindOf = map[string]pricing.SegmentKind{
	"open": pricing.Open, "attic": pricing.Attic, "fish": pricing.Fished, "surface": pricing.Surface,
	"trench_lawn": pricing.TrenchLawn, "trench_hand": pricing.TrenchHand, "trench_concrete": pricing.TrenchConcrete,
}

var mountOf = map[string]pricing.Mount{"plug": pricing.MountPlug, "hard": pricing.MountHardwired}

var terminationOf = map[string]pricing.Termination{
	"R1450": {Receptacle: "14-50", Box: pricing.NewWork}, "R520": {Receptacle: "5-20", Box: pricing.NewWork},
	"swap1450": {Receptacle: "14-50", Extent: pricing.NewReceptacle},
}

var classOf = map[string]pricing.Class{
	"equipment": pricing.ClassEquipment, "material": pricing.ClassMaterial, "civil": pricing.ClassCivil, "labour": pricing.ClassLabour,
}

// work says a check bill's design and route as the engine hears them.
func (v *vectorBill) work() pricing.Work {
	w := pricing.Work{Visits: 1}
	if v.Visits != nil {
		w.Visits = *v.Visits
	}
	if d := v.Design; d != nil {
		w.Design = v.design()
	}
	for _, s := range v.Route.Segments {
		w.Route.Segments = append(w.Route.Segments, pricing.Segment{Kind: kindOf[s.Kind], Feet: s.Feet})
	}
	w.Route.PanelDrop, w.Route.DeviceDrop = v.Route.PanelDrop, v.Route.DeviceDrop
	w.Route.Firestops = v.Route.Firestops
	w.Route.AccessHoles, w.Route.Patches, w.Route.Surface = v.Route.AccessHoles, v.Route.AccessHoles, "gypsum"
	for _, f := range v.Factors {
		c := pricing.Condition(conditionNames[f])
		switch strings.Split(f, ".")[0] {
		case "house":
			w.Conditions.House = c
		case "attic":
			w.Conditions.Attic = c
		case "masonry":
			w.Conditions.Masonry = c
		}
	}
	if v.Permit.Kind != "none" {
		w.Permits = pricing.PermitCircuit
	}
	w.Discount.Minor = v.Discount.Amount
	for _, c := range v.Discount.Over {
		w.Discount.Over |= pricing.Classes(classOf[c])
	}
	return w
}

func (v *vectorBill) design() (d pricing.Design) {
	s := v.Design
	if s.EVSE != "" {
		d.Equipment = equipmentOf[s.EVSE]
		d.Equipment.Supply = pricing.ShopSupplies
	}
	d.Equipment.Mount = mountOf[s.Mount]
	d.Breaker = breakerOf[s.Breaker]
	d.Termination = terminationOf[s.Termination]
	if s.Method != "" || s.Termination != "" {
		d.Labels = pricing.LabelCircuit | pricing.LabelSetting
	}
	if s.Method != "" {
		w := racewayOf[s.Method]
		w.Cable = cableOf[s.Cable]
		w.QuarterBends, w.Expansions = v.Route.Bends, v.Route.Expansion
		for _, c := range s.Conductors {
			w.Conductors = append(w.Conductors, pricing.Conductors{Size: wireOf[c[0].(string)], Count: int(c[1].(float64))})
		}
		d.Wiring = []pricing.Wiring{w}
	}
	switch s.Disconnect {
	case "DISC60":
		d.Disconnect.Amps = 60
	case "DISC100":
		d.Disconnect.Amps = 100
	}
	if s.LMD {
		d.Management = pricing.Management{Method: "load_shed", Amps: 60}
	}
	if s.Svc {
		d.Service = pricing.Service{From: 100, To: 200, Feed: "oh"}
	}
	return d
}

func (v *vectorBill) terms(meaning string) bookTerms {
	return bookTerms{Policy: v.Policy, Tax: v.Tax, Permit: v.Permit, BillBy: v.BillBy, Meaning: meaning}
}

// ourCode spells a line's code of the check cases as the engine does.
func ourCode(code string) string {
	switch name, labour := strings.CutPrefix(code, "lab."); {
	case labour:
		return taskNames[name][0]
	case code == "TRIP":
		return "trip"
	case code == "MIN":
		return "minimum"
	}
	return code
}

func TestVectorBills(t *testing.T) {
	v := readBills(t)
	for _, c := range v.Bills {
		t.Run(c.ID, func(t *testing.T) {
			book, place := bookOf(t, v.Books[c.Book], c.terms("p10_p90"))
			var sheet working.Sheet
			bill, err := pricing.Price(book, c.work(), place, &sheet)
			require.NoError(t, err)
			e := c.Expected
			require.Len(t, bill.Lines, len(e.Lines))
			for i, want := range e.Lines {
				requireLine(t, want, bill.Lines[i])
			}
			var bought []string
			for _, l := range bill.Lines {
				if p := l.Purchase; p != nil {
					bought = append(bought, fmt.Sprint(l.Code, p.Used, p.Pack, p.Bought))
				}
			}
			var wanted []string
			for _, p := range e.Purchase {
				wanted = append(wanted, fmt.Sprint(p.Code, p.Used, p.Pack, p.Bought))
			}
			require.Equal(t, wanted, bought)
			require.Equal(t, e.Subtotal, bill.Subtotal)
			require.Equal(t, e.Permit, bill.Permit)
			require.Equal(t, e.TaxableBase, bill.Taxable)
			require.Equal(t, e.Tax, bill.Tax)
			require.Equal(t, e.Total, bill.Total)
			for s, text := range e.TotalText {
				f := strings.Fields(bill.Money(bill.Total[s]).String())
				require.Equal(t, text, f[1]+" "+f[0])
			}
			figures, err := pricing.Estimate(book, c.work(), place)
			require.NoError(t, err)
			require.Equal(t, bill.Figures, figures, "the short way gives the same figures")
			require.NotEmpty(t, sheet.Steps)
		})
	}
}

func requireLine(t *testing.T, want vectorLine, got pricing.Line) {
	t.Helper()
	require.Equal(t, ourCode(want.Code), got.Code)
	require.Equal(t, want.Qty, got.Quantity.String(), want.Code)
	require.Equal(t, want.Unit, got.Unit, want.Code)
	require.Equal(t, want.UnitPrice, got.UnitPrice, want.Code)
	require.Equal(t, want.Amount, got.Amount, want.Code)
	require.Equal(t, want.TaxClass, got.Class.String(), want.Code)
	require.Equal(t, want.Trade, got.Trade, want.Code)
	if got.Hours == nil {
		require.Empty(t, want.Hours, want.Code)
		return
	}
	for s, h := range want.Hours {
		require.Equal(t, h, got.Hours[s].String(), want.Code)
	}
}

func TestVectorSpreads(t *testing.T) {
	v := readBills(t)
	for _, c := range v.Bills {
		t.Run(c.ID, func(t *testing.T) {
			for name, meaning := range map[string]string{"swanson_p10_p90": "p10_p90", "pert_extremes": "extremes"} {
				book, place := bookOf(t, v.Books[c.Book], c.terms(meaning))
				got, err := pricing.Estimate(book, c.work(), place)
				require.NoError(t, err)
				want := c.Expected.Spread[name] // none: a zero bill has no spread
				const tolerance = 0.02
				require.InDelta(t, want.Mean, got.Spread.Mean, tolerance)
				require.InDelta(t, want.SD, got.Spread.SD, tolerance)
				require.InDelta(t, want.P10, got.Spread.P10, tolerance)
				require.InDelta(t, want.P90, got.Spread.P90, tolerance)
			}
		})
	}
}
