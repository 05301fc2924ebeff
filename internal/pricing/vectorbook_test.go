package pricing_test

import (
	"encoding/json"
	"fmt"
	"sort"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/pricing"
	"daybreak/internal/tools/vectortest"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

const billsFile = "pricing_bills.json"

type vectorItem struct {
	Unit     string   `json:"unit"`
	TaxClass string   `json:"tax_class"`
	Trade    string   `json:"trade"`
	Basis    string   `json:"basis"`
	Price    [3]int64 `json:"price"`
	Pack     int      `json:"pack"`
	Words    string   `json:"words"`
}

type vectorTask struct {
	Unit  string    `json:"unit"`
	Trade string    `json:"trade"`
	Hours [3]string `json:"hours"`
}

type vectorBook struct {
	Currency    string                `json:"currency"`
	MinorDigits int                   `json:"minor_digits"`
	LabourRate  int64                 `json:"labour_rate"`
	Trip        int64                 `json:"trip"`
	Minimum     int64                 `json:"minimum"`
	Items       map[string]vectorItem `json:"items"`
	Tasks       map[string]vectorTask `json:"tasks"`
	Factors     map[string][3]string  `json:"factors"`
}

type vectorPolicy struct {
	Kind string `json:"kind"`
	Rate string `json:"rate"`
}

type vectorTax struct {
	Kind     string   `json:"kind"`
	Rate     string   `json:"rate"`
	Rounding string   `json:"rounding"`
	Retail   []string `json:"retail"`
}

type vectorPermit struct {
	Kind  string `json:"kind"`
	Fee   int64  `json:"fee"`
	Base  int64  `json:"base"`
	Rate  string `json:"rate"`
	Floor int64  `json:"floor"`
}

// selections says what each item of the check books is asked for as. The
// books name items by code; the engine asks by attributes.
var selections = map[string]string{
	"EV40P":  `{kind: evse, level: 2, output_amps: 40, volts: 240, connection: plug, plug: "14-50", connector: J1772, networked: false, settings_amps: [16, 24, 32, 40], setting_access_restricted: false}`,
	"EV48H":  `{kind: evse, level: 2, output_amps: 48, volts: 240, connection: hardwired, connector: J1772, networked: false, settings_amps: [16, 24, 32, 40, 48], setting_access_restricted: true}`,
	"EV80H":  `{kind: evse, level: 2, output_amps: 80, volts: 240, connection: hardwired, connector: J1772, networked: false, settings_amps: [40, 48, 64, 80], setting_access_restricted: true}`,
	"EV12L":  `{kind: evse, level: 1, output_amps: 12, volts: 120, connection: plug, plug: "5-15", connector: J1772, networked: false, settings_amps: [8, 12], setting_access_restricted: false}`,
	"BRK50G": `{kind: breaker, amps: 50, poles: 2, protection: gfci, form: full}`,
	"BRK60":  `{kind: breaker, amps: 60, poles: 2, protection: standard, form: full}`,
	"BRK100": `{kind: breaker, amps: 100, poles: 2, protection: standard, form: full}`,
	"BRK20G": `{kind: breaker, amps: 20, poles: 1, protection: gfci, form: full}`,
	"NM63":   `{kind: cable, method: NM-B, size: "6", conductors: 3, material: CU}`,
	"NM122":  `{kind: cable, method: NM-B, size: "12", conductors: 2, material: CU}`,
	"TH6":    `{kind: wire, material: CU, insulation: THWN-2, size: "6"}`,
	"TH10":   `{kind: wire, material: CU, insulation: THWN-2, size: "10"}`,
	"TH3":    `{kind: wire, material: CU, insulation: THWN-2, size: "3"}`,
	"TH8":    `{kind: wire, material: CU, insulation: THWN-2, size: "8"}`,
	"EMT34":  `{kind: raceway, type: EMT, trade_size: "3/4"}`,
	"EMT34C": `{kind: fitting, type: EMT, trade_size: "3/4", fitting: coupling_set_screw}`,
	"EMT34K": `{kind: fitting, type: EMT, trade_size: "3/4", fitting: connector_set_screw}`,
	"EMT34S": `{kind: fitting, type: EMT, trade_size: "3/4", fitting: strap}`,
	"EMT34L": `{kind: fitting, type: EMT, trade_size: "3/4", fitting: body_lb}`,
	"EMT1":   `{kind: raceway, type: EMT, trade_size: "1"}`,
	"EMT1C":  `{kind: fitting, type: EMT, trade_size: "1", fitting: coupling_set_screw}`,
	"EMT1K":  `{kind: fitting, type: EMT, trade_size: "1", fitting: connector_set_screw}`,
	"EMT1S":  `{kind: fitting, type: EMT, trade_size: "1", fitting: strap}`,
	"EMT1L":  `{kind: fitting, type: EMT, trade_size: "1", fitting: body_lb}`,
	"PVC1":   `{kind: raceway, type: PVC40, trade_size: "1"}`,
	"PVC1E":  `{kind: fitting, type: PVC40, trade_size: "1", fitting: elbow90}`,
	"PVC1A":  `{kind: fitting, type: PVC40, trade_size: "1", fitting: adapter_male}`,
	"PVC1S":  `{kind: fitting, type: PVC40, trade_size: "1", fitting: strap}`,
	"PVC1X":  `{kind: fitting, type: PVC40, trade_size: "1", fitting: expansion}`,
	"CEM":    `{kind: consumable, what: pvc_cement}`,
	"STAPLE": `[{kind: support, method: NM-B, support: staple_small}, {kind: support, method: NM-B, support: staple_large}]`,
	"BOX50":  `{kind: box, gangs: 2, work: new, location: dry}`,
	"R1450I": `{kind: receptacle, config: "14-50", grade: industrial, amps: 50, fit_for_ev_duty: true}`,
	"COV50":  `{kind: cover, config: "14-50", location: dry}`,
	"BOX20":  `{kind: box, gangs: 1, work: new, location: dry}`,
	"R520":   `{kind: receptacle, config: "5-20", grade: industrial, amps: 20, fit_for_ev_duty: true}`,
	"COV20":  `{kind: cover, config: "5-20", location: dry}`,
	"DISC60": `{kind: disconnect, amps: 60, poles: 2, fused: false}`, "DISC100": `{kind: disconnect, amps: 100, poles: 2, fused: false}`,
	"LMD":    `{kind: energy_management, method: load_shed, amps: 60}`,
	"SVC200": `{kind: service_kit, from_amps: 100, to_amps: 200, feed: oh}`,
	"LABEL":  `[{kind: label, what: evse_circuit}, {kind: label, what: max_current_setting}]`,
	"FIRE":   `{kind: firestop}`,
	"TAPE":   `{kind: trench_part, what: warning_tape}`,
	"PATCH":  `{kind: patch, surface: gypsum}`,
	"HIRE":   `{kind: hire, what: trencher}`,
	"LAWN":   `{kind: restoration, surface: lawn}`,
	"CONC":   `{kind: restoration, surface: concrete}`,
}

// taskNames spells the tasks of the check books as price books do, with the
// groups of conditions their rules give them.
var taskNames = map[string][2]string{
	"mobilise": {"lab.mobilise"}, "brk": {"lab.breaker_2p"}, "brk_gfci": {"lab.breaker_gfci"}, "brk_large": {"lab.breaker_2p_large"},
	"nm_open": {"lab.nm_open", "house, size"}, "nm_attic": {"lab.nm_attic", "house, attic, size"}, "nm_fish": {"lab.nm_fish", "house, size"},
	"emt": {"lab.emt_half_1", "masonry"}, "emt_bend": {"lab.emt_bend"}, "pull": {"lab.pull_large"},
	"pvc_trench": {"lab.pvc_trench"}, "pvc_exposed": {"lab.pvc_exposed"}, "rec50": {"lab.box_receptacle_50"},
	"rec20": {"lab.box_receptacle_20"}, "rec_swap": {"lab.replace_receptacle"}, "evse_plug": {"lab.evse_plugin"},
	"evse_hard": {"lab.evse_hardwired"}, "commission": {"lab.commission"}, "disc": {"lab.disconnect"}, "lmd": {"lab.load_manage_ct"},
	"firestop": {"lab.firestop"}, "access": {"lab.access_hole"}, "patch": {"lab.patch_hole"}, "svc200": {"lab.service_100_200_oh"},
	"permit_visit": {"lab.permit_visit"}, "trench_machine": {"lab.trench_machine_soil"}, "trench_hand": {"lab.trench_hand_soil"},
	"saw": {"lab.saw_concrete"},
}

var conditionNames = map[string]string{
	"size.6": "size.6", "size.12": "size.14_10", "house.before_1960": "house.before_1960",
	"attic.low": "attic.low_or_deep_insulation", "masonry.brick": "masonry.block_or_brick",
}

// bookTerms is what a check bill says of its book beside the items.
type bookTerms struct {
	Policy  vectorPolicy
	Tax     vectorTax
	Permit  vectorPermit
	BillBy  string
	Meaning string // of low and high
}

// folder writes a check book as the folder a shop would keep.
func (v vectorBook) folder(terms bookTerms) fstest.MapFS {
	cur, _ := unit.CurrencyOf(v.Currency, v.MinorDigits)
	money := func(minor int64) string {
		return strings.Fields(unit.Money{Minor: minor, Currency: cur}.String())[0]
	}
	billing := "used"
	if terms.BillBy == "purchased" {
		billing = "rolls"
	}
	var book, items, labour, places strings.Builder
	fmt.Fprintf(&book, `name: check book
revision: "1"
source: invented, arithmetic only
status: invented
currency: %s
minor_digits: %d
from: "2026-01-01"
to: "2026-12-31"
quote_valid_days: 30
prices_mean: %s
price_classes:
  list: {policy: list}
  cost: {policy: %s, rate: "%s"}
trades: [equipment, electrical material, civil, labour, fees]
units: [each, ft, stick, set, day, 10 ft, visit, job]
billing: {cable_and_wire: %s}
allowances: {panel_tail_ft: "4", device_tail_ft: "1.5", box_tail_ft: "0.75", cable_slack: "0.05", cable_waste: "0.05",
  conductor_waste: "0.05", raceway_waste: "0.05", nm_support_ft: "4.5", emt_support_ft: "10",
  pvc_support_ft: {to_1_in: "3", to_2_in: "5"}, max_quarter_bends: 4, cement_joints_per_can: 25, rho_within_trade: "0.6"}
`, v.Currency, v.MinorDigits, terms.Meaning, terms.Policy.Kind, terms.Policy.Rate, billing)
	items.WriteString("source: invented\nstatus: invented\nitems:\n")
	for _, code := range sorted(v.Items) {
		it := v.Items[code]
		class := it.Basis
		buy := ""
		switch {
		case it.Unit == "stick":
			buy = fmt.Sprintf(", stick_ft: %d", it.Pack)
		case it.Pack > 0:
			buy = fmt.Sprintf(", rolls_ft: [%d]", it.Pack)
		}
		fmt.Fprintf(&items, "  - {code: %s, words: %q, unit: %s, price: [%q, %q, %q], basis: %s, price_class: %s, tax_class: %s, trade: %s%s, select: %s}\n",
			code, it.Words, it.Unit, money(it.Price[0]), money(it.Price[1]), money(it.Price[2]), it.Basis, class, it.TaxClass, it.Trade, buy, selections[code])
	}
	fmt.Fprintf(&labour, "source: invented\nstatus: invented\nrates: {electrician: %q, second_person: %q}\ntrip_per_visit: %q\nminimum_labour_and_trip: %q\nmultiplier_cap: \"3.00\"\ntasks:\n",
		money(v.LabourRate), money(v.LabourRate), money(v.Trip), money(v.Minimum))
	for _, name := range sorted(v.Tasks) {
		k := v.Tasks[name]
		fmt.Fprintf(&labour, "  - {code: %s, words: %s, unit: %s, hours: [%q, %q, %q], conditions: [%s], trade: %s}\n",
			taskNames[name][0], name, k.Unit, k.Hours[0], k.Hours[1], k.Hours[2], taskNames[name][1], k.Trade)
	}
	labour.WriteString("multipliers:\n")
	groups := map[string][]string{}
	for _, name := range sorted(v.Factors) {
		f := v.Factors[name]
		group, _, _ := strings.Cut(name, ".")
		groups[group] = append(groups[group], fmt.Sprintf("    - {code: %s, factor: [%q, %q, %q]}\n", conditionNames[name], f[0], f[1], f[2]))
	}
	for _, g := range sorted(groups) {
		fmt.Fprintf(&labour, "  %s:\n%s", g, strings.Join(groups[g], ""))
	}
	fmt.Fprintf(&places, `source: invented
status: invented
home_postal_code: "1"
regions:
  - {id: here, postal_codes: ["1"], labour_factor: "1", material_factor: "1", trip_factor: "1"}
permits:
  - {jurisdiction: here, postal_codes: ["1"], %s}
taxes:
  - {jurisdiction: here, postal_codes: ["1"], from: "2026-01-01", %s}
`, terms.Permit.row(money), terms.Tax.row())
	return fstest.MapFS{
		"book.yaml":      {Data: []byte(book.String())},
		"items/all.yaml": {Data: []byte(items.String())},
		"labour.yaml":    {Data: []byte(labour.String())},
		"places.yaml":    {Data: []byte(places.String())},
	}
}

func (p vectorPermit) row(money func(int64) string) string {
	switch p.Kind {
	case "flat":
		return fmt.Sprintf("kind: flat, circuit: %q, service: %q", money(p.Fee), money(p.Fee))
	case "valuation":
		return fmt.Sprintf("kind: valuation, base: %q, rate: %q, floor: %q", money(p.Base), p.Rate, money(p.Floor))
	}
	return "kind: " + p.Kind
}

func (x vectorTax) row() string {
	taxable, use := map[string]string{
		"separated":           "equipment, material",
		"contract_total":      "equipment, material, civil, labour",
		"contractor_consumer": strings.Join(x.Retail, ", "),
	}[x.Kind], ""
	if x.Kind == "contractor_consumer" {
		use = ", use_tax_on: [material]"
	}
	if x.Rate == "" {
		return "kind: " + x.Kind
	}
	return fmt.Sprintf("kind: %s, rate: %q, rounding: %s, taxable: [%s]%s", x.Kind, x.Rate, x.Rounding, taxable, use)
}

func sorted[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

// bookOf loads a check book through the loader a shop's book goes through.
func bookOf(t testing.TB, v vectorBook, terms bookTerms) (*pricing.Book, pricing.Place) {
	t.Helper()
	book, err := pricing.ReadBook(v.folder(terms))
	require.NoError(t, err)
	on, _ := unit.ParseDate("2026-06-01")
	place, err := book.At("1", on)
	require.NoError(t, err)
	return book, place
}

type vectorBills struct {
	Books       map[string]vectorBook `json:"books"`
	Bills       []vectorBill          `json:"bills"`
	Allocations []struct {
		ID      string  `json:"id"`
		Total   int64   `json:"total"`
		Weights []int64 `json:"weights"`
		Shares  []int64 `json:"shares"`
	} `json:"allocations"`
	Roundings []struct {
		Value   string `json:"value"`
		Mode    string `json:"mode"`
		Integer int64  `json:"integer"`
	} `json:"roundings"`
	UnitPrices []struct {
		What      string      `json:"what"`
		Cost      json.Number `json:"cost"`
		Kind      string      `json:"kind"`
		Rate      string      `json:"rate"`
		UnitPrice int64       `json:"unit_price"`
	} `json:"unit_prices"`
	TaxRounding []struct {
		What     string      `json:"what"`
		Base     json.Number `json:"base"`
		Rate     string      `json:"rate"`
		HalfEven int64       `json:"half_even"`
		HalfUp   int64       `json:"half_up"`
	} `json:"tax_rounding"`
	SumsOfBills []struct {
		What  string         `json:"what"`
		Total pricing.Triple `json:"total"`
	} `json:"sums_of_bills"`
	Refusals []struct{ Input, Field, Why string } `json:"refusals"`
}

func readBills(t testing.TB) vectorBills {
	t.Helper()
	var v vectorBills
	vectortest.Read(t.(*testing.T), billsFile, &v)
	require.NotEmpty(t, v.Bills)
	return v
}
