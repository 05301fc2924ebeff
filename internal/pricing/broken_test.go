package pricing_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/fault"
	"daybreak/internal/pricing"
	"daybreak/internal/shop/alderbay"

	"github.com/stretchr/testify/require"
)

func requireFault(t testing.TB, err error) *fault.Fault {
	t.Helper()
	require.Error(t, err)
	list := fault.All(err)
	require.NotEmpty(t, list, err)
	return list[0]
}

// demoFolder copies the demo book into memory.
func demoFolder(t testing.TB) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	prices, err := fs.Sub(alderbay.Files(), "prices")
	require.NoError(t, err)
	require.NoError(t, fs.WalkDir(prices, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		raw, err := fs.ReadFile(prices, name)
		out[name] = &fstest.MapFile{Data: raw}
		return err
	}))
	return out
}

// lineOf finds the line, from 1, where a text stands in a file.
func lineOf(t testing.TB, file []byte, text string) int {
	t.Helper()
	i := bytes.Index(file, []byte(text))
	require.GreaterOrEqual(t, i, 0, text)
	return 1 + bytes.Count(file[:i], []byte("\n"))
}

// Each row is one slip of the pen: what stood there, what stands there now,
// and where the fault must be found.
var slips = []struct {
	name, file, was, is string
	field               string
	elsewhere           bool // the fault lies on another line than the slip
}{
	{"negative price", "items/breakers.yaml", `"16.72", "19.00", "23.18"`, `"-16.72", "19.00", "23.18"`, "items.brk-2p-45.price[0]", false},
	{"inverted range", "items/breakers.yaml", `"19.36", "22.00", "26.84"`, `"26.84", "22.00", "19.36"`, "items.brk-2p-60.price", false},
	{"two prices", "items/breakers.yaml", `"19.36", "22.00", "26.84"`, `"19.36", "22.00"`, "items.brk-2p-60.price", false},
	{"fraction of a cent", "items/breakers.yaml", `"22.00"`, `"22.005"`, "items.brk-2p-60.price[1]", false},
	{"exponent", "items/breakers.yaml", `"22.00"`, `"2.2e1"`, "items.brk-2p-60.price[1]", false},
	{"not a number", "items/breakers.yaml", `"22.00"`, `NaN`, "items.brk-2p-60.price[1]", false},
	{"likely price of nothing", "items/breakers.yaml", `"19.36", "22.00", "26.84"`, `"0", "0", "26.84"`, "items.brk-2p-60.price", false},
	{"larger costs less", "items/breakers.yaml", `"19.36", "22.00", "26.84"`, `"1.00", "2.00", "3.00"`, "items.brk-2p-60.price", false},
	{"code twice", "items/breakers.yaml", "code: brk-2p-60,", "code: brk-2p-50,", "items.brk-2p-50.code", false},
	{"unknown kind", "items/finish.yaml", "kind: firestop", "kind: fire_stop", "items.firestop-1.select.kind", false},
	{"unknown attribute", "items/finish.yaml", "kind: firestop", "kind: firestop, colour: red", "items.firestop-1.select.colour", false},
	{"attribute missing", "items/boxes.yaml", `config: "14-50", grade: industrial, amps: 50, `, `config: "14-50", grade: industrial, `, "items.rec-14-50-ind.select.amps", false},
	{"unknown word", "items/breakers.yaml", "protection: gfci, form: full}}\n", "protection: magic, form: full}}\n", "items.brk-2p-15-gfci.select.protection", false},
	{"unknown unit", "items/ground.yaml", "unit: day", "unit: fortnight", "items.hire-trencher.unit", false},
	{"unknown trade", "items/finish.yaml", "trade: finish", "trade: plumbing", "items.patch-gypsum.trade", false},
	{"unknown price class", "items/finish.yaml", "price_class: material", "price_class: velvet", "defaults.price_class", false},
	{"unknown key of an item", "items/finish.yaml", "words:", "wrods:", "items.pvc-cement-can.wrods", false},
	{"stick without length", "items/raceway.yaml", ", stick_ft: 10", "", "items.emt-1-2", false},
	{"settings that fall", "items/equipment.yaml", "settings_amps: [8, 12]", "settings_amps: [12, 8]", "items.evse-12-5-15-j1772.select.settings_amps", false},
	{"margin of one", "book.yaml", `material: {policy: margin, rate: "0.38"}`, `material: {policy: margin, rate: "1.00"}`, "price_classes.material.rate", false},
	{"markup below zero", "book.yaml", `material: {policy: margin, rate: "0.38"}`, `material: {policy: markup, rate: "-0.1"}`, "price_classes.material.rate", false},
	{"dates turned round", "book.yaml", `to: "2027-06-30"`, `to: "2025-06-30"`, "to", false},
	{"no date", "book.yaml", `from: "2026-07-01"`, `from: "2026-02-30"`, "from", false},
	{"no currency", "book.yaml", "currency: USD", "currency: dollars", "currency", false},
	{"unknown key", "book.yaml", "currency: USD", "currency: USD\ncolour: blue", "colour", false},
	{"key twice", "book.yaml", "currency: USD", "currency: USD\ncurrency: USD", "currency", false},
	{"anchor", "book.yaml", "currency: USD", "currency: &c USD", "currency", false},
	{"no YAML", "book.yaml", "currency: USD", "currency: [USD", "", true},
	{"correlation above one", "book.yaml", `rho_within_trade: "0.6"`, `rho_within_trade: "1.6"`, "allowances.rho_within_trade", false},
	{"no trade for fees", "book.yaml", "civil, labour, fees]", "civil, labour]", "trades", false},
	{"price beyond counting", "book.yaml", `material: {policy: margin, rate: "0.38"}`, `material: {policy: margin, rate: "0.9999999999999999"}`, "items.brk-2p-15.price", true},
	{"unknown sundry", "book.yaml", "sundries: [wire_connectors, fasteners]", "sundries: [hope]", "sundries", true},
	{"hours of nothing", "labour.yaml", `"0.40", "0.60", "1.00"`, `"0", "0.60", "1.00"`, "tasks.lab.mobilise.hours[0]", false},
	{"falling hours", "labour.yaml", `"0.40", "0.60", "1.00"`, `"0.70", "0.60", "1.00"`, "tasks.lab.mobilise.hours", false},
	{"too many hours", "labour.yaml", `"18.00", "26.00", "40.00"`, `"18.00", "26.00", "400.00"`, "tasks.lab.service_200_400.hours[2]", false},
	{"task twice", "labour.yaml", "code: lab.survey_load", "code: lab.mobilise", "tasks.lab.mobilise.code", false},
	{"task missing", "labour.yaml", "code: lab.permit_visit", "code: lab.permit_visits", "tasks.lab.permit_visit", true},
	{"unknown condition group", "labour.yaml", "conditions: [house]", "conditions: [weather]", "tasks.lab.mobilise.conditions[0]", false},
	{"condition missing", "labour.yaml", "code: house.before_1960", "code: house.old", "multipliers.house.before_1960", true},
	{"factor too large", "labour.yaml", `["1.10", "1.25", "1.60"]`, `["1.10", "1.25", "16.0"]`, "multipliers.house[2].factor[2]", false},
	{"rate of nothing", "labour.yaml", `electrician: "128.00"`, `electrician: "0"`, "rates.electrician", false},
	{"tax as percentage", "places.yaml", `rate: "0.0825"`, `rate: "8.25"`, "taxes[0].rate", false},
	{"tax parts that do not add", "places.yaml", `local: "0.0225"`, `local: "0.0125"`, "taxes[0].parts", false},
	{"gap in tax rows", "places.yaml", `to: "2026-12-31"`, `to: "2026-11-30"`, "taxes", true},
	{"overlap of tax rows", "places.yaml", `to: "2026-12-31"`, `to: "2027-01-31"`, "taxes", true},
	{"tax on the permit", "places.yaml", "taxable: [equipment, material]", "taxable: [equipment, permit]", "taxes[0].taxable", false},
	{"contractor without use tax", "places.yaml", "use_tax_on: [material], ", "", "taxes[2]", false},
	{"postal code in two regions", "places.yaml", `postal_codes: ["00012"], labour`, `postal_codes: ["00011"], labour`, "regions[1].postal_codes[0]", false},
	{"postal code without permit", "places.yaml", `City of Alder Bay, postal_codes: ["00010", "00011"]`, `City of Alder Bay, postal_codes: ["00010"]`, "permits", true},
	{"home that is not served", "places.yaml", `home_postal_code: "00010"`, `home_postal_code: "12345"`, "home_postal_code", false},
	{"region factor of nothing", "places.yaml", `trip_factor: "1.45"`, `trip_factor: "0"`, "regions[2].trip_factor", false},
	{"valuation without floor", "places.yaml", `floor: "1000.00", `, "", "permits[2].floor", false},
	{"fees that fall", "places.yaml", `to_amps: 100, fee`, `to_amps: 10, fee`, "permits[1].circuits[1]", false},
	{"weeks that fall", "book.yaml", "oh: [2, 4, 10]", "oh: [4, 2, 10]", "utility_weeks.oh", false},
	{"weeks left out", "book.yaml", "oh: [2, 4, 10], ", "", "utility_weeks.oh", true},
	{"two weeks", "book.yaml", "oh: [2, 4, 10]", "oh: [2, 10]", "utility_weeks.oh", false},
	{"no subpanel with a main", "items/panels.yaml", "bus_amps: 100, spaces: 20, location: outdoor, main_breaker: true", "bus_amps: 100, spaces: 20, location: outdoor, main_breaker: false", "subpanel location outdoor, main_breaker true, min_bus_amps 60, min_spaces 4", true},
	{"no emergency disconnect", "items/panels.yaml", "part: emergency_disconnect, amps: 400", "part: meter, amps: 400", "service_part min_amps 400, part emergency_disconnect", true},
	{"surge that is no yes or no", "items/panels.yaml", "feed: oh, surge: true", "feed: oh, surge: perhaps", "items.svc-60-100-oh.select.surge", false},
	{"hours of a moved circuit", "labour.yaml", "code: lab.move_circuit", "code: lab.move_circuits", "tasks.lab.move_circuit", true},
	{"breaker the engine needs", "items/breakers.yaml", "code: brk-2p-60, words: breaker 60 A 2-pole, ", "code: brk-2p-60, words: breaker 65 A 2-pole, ", "", true},
}

func TestBrokenBooksAreRefusedByFileLineAndField(t *testing.T) {
	for _, c := range slips {
		t.Run(c.name, func(t *testing.T) {
			folder := demoFolder(t)
			raw := folder[c.file].Data
			line := lineOf(t, raw, c.was)
			if c.name == "breaker the engine needs" {
				raw = bytes.Replace(raw, []byte("kind: breaker, amps: 60, poles: 2, protection: standard"), []byte("kind: breaker, amps: 65, poles: 2, protection: standard"), 1)
				c.field = "breaker amps 60, form full, poles 2, protection standard"
			}
			folder[c.file] = &fstest.MapFile{Data: bytes.Replace(raw, []byte(c.was), []byte(c.is), 1)}
			_, err := pricing.LoadBook(folder)
			require.Error(t, err)
			var found []string
			for _, f := range fault.All(err) {
				found = append(found, f.Error())
				if (f.File == c.file || c.elsewhere) && f.Field == c.field && (c.elsewhere || f.Line == line || f.Line == line+1) {
					require.NotEmpty(t, f.Accepted)
					return
				}
			}
			t.Fatalf("no fault at %s:%d: %s, but\n%s", c.file, line, c.field, strings.Join(found, "\n"))
		})
	}
}

func TestEveryFaultIsReportedAtOnce(t *testing.T) {
	folder := demoFolder(t)
	for _, c := range slips[:3] {
		folder[c.file] = &fstest.MapFile{Data: bytes.Replace(folder[c.file].Data, []byte(c.was), []byte(c.is), 1)}
	}
	delete(folder, "labour.yaml")
	folder["itmes/extra.yaml"] = &fstest.MapFile{Data: []byte("x: 1")}
	_, err := pricing.LoadBook(folder)
	var files []string
	for _, f := range fault.All(err) {
		files = append(files, fmt.Sprint(f.File, " ", f.Field))
	}
	require.Subset(t, files, []string{"items/breakers.yaml items.brk-2p-45.price[0]", "labour.yaml ", "itmes/extra.yaml "})
}

// smallFolder is the least book that reads: fuzzing wants it quick.
func smallFolder() fstest.MapFS {
	b := vectorBook{
		Currency: "USD", MinorDigits: 2, LabourRate: 12000, Trip: 7500, Minimum: 37500,
		Items: map[string]vectorItem{
			"BRK60": {Unit: "each", TaxClass: "material", Trade: "electrical material", Basis: "cost", Price: [3]int64{1450, 1780, 2300}},
			"NM63":  {Unit: "ft", TaxClass: "material", Trade: "electrical material", Basis: "cost", Price: [3]int64{298, 346, 421}, Pack: 50},
			"EV48H": {Unit: "each", TaxClass: "equipment", Trade: "equipment", Basis: "list", Price: [3]int64{52900, 57900, 66900}},
		},
		Tasks:   map[string]vectorTask{"nm_open": {Unit: "10 ft", Trade: "labour", Hours: [3]string{"0.15", "0.22", "0.38"}}},
		Factors: map[string][3]string{"size.6": {"1.25", "1.35", "1.50"}},
	}
	for code, it := range b.Items {
		it.Words = code
		b.Items[code] = it
	}
	return b.folder(bookTerms{
		Policy: vectorPolicy{"margin", "0.35"}, Tax: vectorTax{Kind: "separated", Rate: "0.0825", Rounding: "half_up"},
		Permit: vectorPermit{Kind: "flat", Fee: 12000}, Meaning: "p10_p90",
	})
}

func TestTheSmallestBookReads(t *testing.T) {
	book, err := pricing.ReadBook(smallFolder())
	require.NoError(t, err)
	require.Error(t, book.Complete(), "but it lacks what the engine may ask for")
}

func FuzzReadBook(f *testing.F) {
	for name, file := range smallFolder() {
		f.Add(name, file.Data)
	}
	f.Add("book.yaml", []byte("a: &a [*a, *a]"))
	f.Add("places.yaml", []byte("taxes: [{rate: 1e999}]"))
	f.Fuzz(func(t *testing.T, name string, data []byte) {
		folder := smallFolder()
		if _, part := folder[name]; !part {
			name = "labour.yaml"
		}
		folder[name] = &fstest.MapFile{Data: data}
		book, err := pricing.ReadBook(folder)
		if (book == nil) == (err == nil) {
			t.Fatal("a book or its faults")
		}
		if err != nil {
			for _, x := range fault.All(err) {
				require.NotEmpty(t, x.File)
			}
			return
		}
		_ = book.Complete()
		_, _ = pricing.Price(book, garage(), book.Home(book.From), nil) // may ask for what a cut book does not sell
	})
}
