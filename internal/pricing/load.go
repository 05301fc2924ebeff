package pricing

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"sort"
	"strconv"

	"daybreak/internal/fault"
	"daybreak/internal/pricing/bookfile"
	"daybreak/internal/unit"
)

// LoadBook reads every file of a price-book folder, checks it and asks it for
// everything the engine can ask for. Every fault is reported, each with file,
// line, field and what is accepted; a book with one fault is not a book.
//
// The folder holds book.yaml, labour.yaml, places.yaml and items/*.yaml.
func LoadBook(fsys fs.FS) (*Book, error) {
	b, err := ReadBook(fsys)
	if err != nil {
		return nil, err
	}
	if err := b.Complete(); err != nil {
		return nil, err
	}
	return b, nil
}

// ReadBook reads and checks a folder as [LoadBook] does, without asking
// whether the book is complete: for drafts and for small books of check cases.
func ReadBook(fsys fs.FS) (*Book, error) {
	faults := &bookfile.Faults{}
	b := &Book{index: map[key]int32{}, areas: map[string]area{}, asides: map[string]int32{}}
	l := loader{book: b, faults: faults, classes: map[string]Policy{}, codes: map[string]int{}}
	l.header(bookfile.Open(fsys, "book.yaml", faults))
	l.labour(bookfile.Open(fsys, "labour.yaml", faults))
	names, _ := fs.Glob(fsys, "items/*.yaml")
	sort.Strings(names)
	if len(names) == 0 {
		faults.Add("items", 0, "", "no file", "at least one file of items")
	}
	for _, name := range names {
		l.items(bookfile.Open(fsys, name, faults))
	}
	l.places(bookfile.Open(fsys, "places.yaml", faults))
	l.strangers(fsys)
	l.checkFamilies()
	l.checkEquipment()
	if err := faults.Err(); err != nil {
		return nil, err
	}
	b.seal()
	b.setPrices(l.faults)
	if err := faults.Err(); err != nil {
		return nil, err
	}
	return b, nil
}

// loader fills a book and knows what only its reading needs.
type loader struct {
	book    *Book
	faults  *bookfile.Faults
	classes map[string]Policy // by price class
	units   []string
	digits  int
	codes   map[string]int // items by code
}

// strangers refuses files that no book has, since a misspelt name would be
// silently left out.
func (l *loader) strangers(fsys fs.FS) {
	_ = fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return nil
		}
		ok, _ := path.Match("items/*.yaml", name)
		if !ok && !slices.Contains([]string{"book.yaml", "labour.yaml", "places.yaml"}, name) {
			l.faults.Add(name, 0, "", "no part of a book", "book.yaml, labour.yaml, places.yaml or items/*.yaml")
		}
		return nil
	})
}

var headerKeys = []string{
	"name", "revision", "source", "status", "currency", "minor_digits", "from", "to", "quote_valid_days",
	"prices_mean", "price_classes", "trades", "units", "billing", "sundries", "allowances", "utility_weeks",
}

// statuses a file may say of its figures.
var statuses = []string{"invented", "checked", "from memory", "engineering judgement"}

func (l *loader) header(n bookfile.Node) {
	b := l.book
	n.Only(headerKeys...)
	b.Name = n.At("name").Text()
	b.Revision = n.At("revision").Text()
	b.Source = n.At("source").Text()
	b.Demo = n.At("status").Word(statuses...) == "invented"
	l.currency(n)
	b.From, b.To = n.At("from").Date(), n.At("to").Date()
	if b.To.Before(b.From) {
		n.At("to").Fault(b.To, "a date not before from, "+b.From.String())
	}
	b.ValidDays = n.At("quote_valid_days").Whole(1, 365)
	b.extremes = n.At("prices_mean").Word("p10_p90", "extremes") == "extremes"
	for _, p := range n.At("price_classes").Pairs() {
		l.priceClass(p)
	}
	for _, t := range n.At("trades").Items() {
		b.trades = append(b.trades, t.Text())
	}
	for _, needed := range []string{"labour", "fees"} {
		if n.OK() && !slices.Contains(b.trades, needed) {
			n.At("trades").Fault("no "+needed, "trades with labour and fees among them, which hours, trip and minimum belong to")
		}
	}
	if len(b.trades) > maxTrades {
		n.At("trades").Fault(len(b.trades), "at most 12 trades")
	}
	for _, u := range n.At("units").Items() {
		l.units = append(l.units, u.Text())
	}
	billing := n.At("billing")
	billing.Only("cable_and_wire")
	b.rolls = billing.At("cable_and_wire").Word("used", "rolls") == "rolls"
	if s := n.Maybe("sundries"); s.OK() {
		for _, v := range s.Items() {
			b.sundries = append(b.sundries, key{kind: "consumable", a: v.Text()})
		}
	}
	l.readAllowances(n.At("allowances"))
	l.readWeeks(n.Maybe("utility_weeks"))
}

const maxTrades = 12

// readWeeks reads what the utility takes for a service upgrade: low, likely
// and high, overhead and underground.
func (l *loader) readWeeks(n bookfile.Node) {
	l.book.weeks = map[string][3]int{}
	if !n.OK() {
		return
	}
	n.Only("oh", "ug")
	for _, feed := range [...]string{"oh", "ug"} {
		v := n.At(feed)
		list := v.Items()
		if len(list) != 3 {
			if v.OK() {
				v.Fault(strconv.Itoa(len(list))+" numbers", "low, likely, high")
			}
			continue
		}
		w := [3]int{}
		for i := range w {
			w[i] = list[i].Whole(0, 260)
		}
		if w[0] > w[1] || w[1] > w[2] {
			v.Fault(fmt.Sprint(w), "low <= likely <= high")
		}
		l.book.weeks[feed] = w
	}
}

func (l *loader) currency(n bookfile.Node) {
	code := n.At("currency").Text()
	l.digits = n.At("minor_digits").Whole(0, 3)
	c, ok := unit.CurrencyOf(code, l.digits)
	if !ok && code != "" {
		n.At("currency").Fault(code, "an ISO 4217 code with 0, 2 or 3 minor digits")
	}
	l.book.Currency, l.book.code = c, c.Code()
}

func (l *loader) priceClass(p bookfile.Pair) {
	p.Value.Only("policy", "rate")
	kind := p.Value.At("policy").Word(policyKinds...)
	rate := "0"
	if kind == "margin" || kind == "markup" {
		rate = p.Value.At("rate").Text()
	}
	if kind == "" || rate == "" {
		return
	}
	policy, err := NewPolicy("price_classes."+p.Key+".rate", kind, rate)
	if f, is := fault.As(err); is {
		p.Value.At("rate").Fault(rate, f.Accepted)
		return
	}
	l.classes[p.Key] = policy
}

func (l *loader) readAllowances(n bookfile.Node) {
	n.Only("panel_tail_ft", "device_tail_ft", "box_tail_ft", "cable_slack", "cable_waste", "conductor_waste",
		"raceway_waste", "nm_support_ft", "emt_support_ft", "pvc_support_ft", "max_quarter_bends",
		"cement_joints_per_can", "rho_within_trade", "mc_support_ft", "flex_support_ft")
	feet := func(key string) int64 { return n.At(key).Scaled(3, "0", "40") }
	share := func(key string) int64 { return n.At(key).Scaled(4, "0", "1") }
	spacing := func(v bookfile.Node) int64 { return max(v.Scaled(3, "0.5", "20"), 1) }
	a := &l.book.allowances
	a.panelTail, a.deviceTail, a.boxTail = feet("panel_tail_ft"), feet("device_tail_ft"), feet("box_tail_ft")
	a.cable = share("cable_slack") + share("cable_waste")
	a.conductor, a.raceway = share("conductor_waste"), share("raceway_waste")
	a.nmSupport, a.emtSupport = spacing(n.At("nm_support_ft")), spacing(n.At("emt_support_ft"))
	a.mcSupport, a.flexSupport = mcSpacing, flexSpacing
	if v := n.Maybe("mc_support_ft"); v.OK() {
		a.mcSupport = spacing(v)
	}
	if v := n.Maybe("flex_support_ft"); v.OK() {
		a.flexSupport = spacing(v)
	}
	pvc := n.At("pvc_support_ft")
	pvc.Only("to_1_in", "to_2_in")
	a.pvcSupport, a.pvcSupportWide = spacing(pvc.At("to_1_in")), spacing(pvc.At("to_2_in"))
	a.maxQuarterBends = int64(max(n.At("max_quarter_bends").Whole(1, 4), 1))
	a.cementJoints = int64(max(n.At("cement_joints_per_can").Whole(1, 500), 1))
	a.rho = float64(n.At("rho_within_trade").Scaled(4, "0", "1")) / 10000
}

// mcSpacing and flexSpacing are the widest spacing of supports, in thousandths
// of a foot, for a shop that names none of its own.
//
// Source: NFPA 70 330.30(B), 348.30(A), 350.30(A).
const (
	mcSpacing   = 6_000
	flexSpacing = 4_500
)

// amount reads a price in major units, exact to the currency's minor digits.
func (l *loader) amount(n bookfile.Node) int64 { return n.Scaled(l.digits, "0", "10000000") }

// trade gives a trade's place in the book's list.
func (l *loader) trade(n bookfile.Node) uint8 {
	name := n.Word(l.book.trades...)
	return uint8(max(slices.Index(l.book.trades, name), 0))
}
