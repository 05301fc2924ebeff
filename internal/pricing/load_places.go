package pricing

import (
	"fmt"
	"math/big"
	"slices"
	"sort"

	"daybreak/internal/fault"
	"daybreak/internal/pricing/bookfile"
	"daybreak/internal/unit"
)

func (l *loader) places(n bookfile.Node) {
	if !n.OK() {
		return
	}
	b := l.book
	n.Only("source", "status", "home_postal_code", "regions", "permits", "taxes")
	n.At("source").Text()
	n.At("status").Word(statuses...)
	regions, permits, taxes := map[string]int{}, map[string]int{}, map[string][]int{}
	for _, v := range n.At("regions").Items() {
		l.codesOf(v, len(b.regions), regions)
		l.region(v)
	}
	for _, v := range n.At("permits").Items() {
		l.codesOf(v, len(b.permits), permits)
		l.permit(v)
	}
	for _, v := range n.At("taxes").Items() {
		for _, c := range v.At("postal_codes").Items() {
			taxes[c.Text()] = append(taxes[c.Text()], len(b.taxes))
		}
		l.tax(v)
	}
	l.join(n, regions, permits, taxes)
	b.home = n.At("home_postal_code").Text()
	if _, served := b.areas[b.home]; !served && b.home != "" {
		n.At("home_postal_code").Fault(b.home, "a postal code of a region")
	}
}

// codesOf files a row under its postal codes, each of which may have one row.
func (l *loader) codesOf(n bookfile.Node, row int, into map[string]int) {
	for _, c := range n.At("postal_codes").Items() {
		code := c.Text()
		if _, twice := into[code]; twice {
			c.Fault(code, "one row for each postal code")
		}
		into[code] = row
	}
}

// join brings the three tables together: every postal code of a region needs
// one permit schedule, and one tax row on every day of the book.
func (l *loader) join(n bookfile.Node, regions, permits map[string]int, taxes map[string][]int) {
	codes := make([]string, 0, len(regions))
	for c := range regions {
		codes = append(codes, c)
	}
	sort.Strings(codes)
	for _, code := range codes {
		p, ok := permits[code]
		if !ok {
			n.At("permits").Fault("none for "+code, "one schedule for each postal code of a region")
		}
		l.spans(n.At("taxes"), code, taxes[code])
		l.book.areas[code] = area{regions[code], p, taxes[code]}
	}
	for code := range permits {
		l.orphan(n.At("permits"), code, regions)
	}
	for code := range taxes {
		l.orphan(n.At("taxes"), code, regions)
	}
}

func (l *loader) orphan(n bookfile.Node, code string, regions map[string]int) {
	if _, ok := regions[code]; !ok {
		n.Fault("the postal code "+code, "postal codes of a region")
	}
}

// spans checks that tax rows of a postal code follow on each other over the
// book's life without gap or overlap.
func (l *loader) spans(n bookfile.Node, code string, rows []int) {
	b := l.book
	slices.SortFunc(rows, func(x, y int) int {
		if b.taxes[x].from.Before(b.taxes[y].from) {
			return -1
		}
		return 1
	})
	next := b.From
	for i, r := range rows {
		t := b.taxes[r]
		if i > 0 && (b.taxes[rows[i-1]].to.IsZero() || !b.taxes[rows[i-1]].to.Before(t.from)) {
			n.Fault(fmt.Sprintf("two rows for %s on %s", code, t.from), "one tax row on each day")
			return
		}
		if next.Before(t.from) {
			n.Fault(fmt.Sprintf("no row for %s on %s", code, next), "a tax row on each day of the book")
			return
		}
		if t.to.IsZero() {
			return
		}
		next = t.to.Plus(1)
	}
	if !b.To.Before(next) {
		n.Fault(fmt.Sprintf("no row for %s on %s", code, next), "a tax row on each day of the book")
	}
}

func (l *loader) region(n bookfile.Node) {
	n.Only("id", "postal_codes", "labour_factor", "material_factor", "trip_factor")
	f := func(key string) *big.Rat {
		v := n.At(key).Scaled(4, "0.25", "4")
		return big.NewRat(v, 10000)
	}
	l.book.regions = append(l.book.regions, region{
		id: n.At("id").Text(), labour: f("labour_factor"), material: f("material_factor"), trip: f("trip_factor"),
	})
}

var permitKinds = []string{"flat", "per_item", "per_amp", "valuation", "none"}

func (l *loader) permit(n bookfile.Node) {
	n.Only("jurisdiction", "postal_codes", "kind", "circuit", "service", "subpanel", "plan_check", "circuits", "services",
		"per_amp", "base", "rate", "floor", "minimum", "working_days", "needs")
	p := permit{jurisdiction: n.At("jurisdiction").Text(), kind: n.At("kind").Word(permitKinds...)}
	optional := func(key string) int64 {
		if v := n.Maybe(key); v.OK() {
			return l.amount(v)
		}
		return 0
	}
	switch p.kind {
	case "flat":
		p.circuit, p.service = l.amount(n.At("circuit")), l.amount(n.At("service"))
	case "per_item":
		p.circuits, p.services = l.fees(n.At("circuits")), l.fees(n.At("services"))
	case "per_amp":
		p.perAmp = l.amount(n.At("per_amp"))
	case "valuation":
		p.base, p.floor = l.amount(n.At("base")), l.amount(n.At("floor"))
		p.rate = l.rate(n.At("rate"))
	}
	p.subpanel, p.planCheck, p.minimum = optional("subpanel"), optional("plan_check"), optional("minimum")
	if v := n.Maybe("working_days"); v.OK() {
		days := v.Items()
		if len(days) != len(p.workingDays) {
			v.Fault(len(days), "low, likely, high")
		}
		for i := range min(len(days), len(p.workingDays)) {
			p.workingDays[i] = days[i].Whole(0, 400)
		}
	}
	if v := n.Maybe("needs"); v.OK() {
		for _, need := range v.Items() {
			p.needs = append(p.needs, need.Text())
		}
	}
	l.book.permits = append(l.book.permits, p)
}

func (l *loader) fees(n bookfile.Node) (out []fee) {
	for _, v := range n.Items() {
		v.Only("to_amps", "fee")
		f := fee{v.At("to_amps").Whole(1, 1200), l.amount(v.At("fee"))}
		if len(out) > 0 && f.toAmps <= out[len(out)-1].toAmps {
			v.Fault(f.toAmps, "rising ratings")
		}
		out = append(out, f)
	}
	if n.OK() && len(out) == 0 {
		n.Fault("none", "at least one fee")
	}
	return out
}

// rate reads a tax or valuation rate: a fraction of at most 0.2.
func (l *loader) rate(n bookfile.Node) Rate {
	s := n.Text()
	if s == "" {
		return Rate{den: 1}
	}
	r, err := ParseRate("rate", s, 2)
	if f, is := fault.As(err); is {
		n.Fault(s, f.Accepted)
	}
	return r
}

var taxKinds = []string{"separated", "contract_total", "contractor_consumer", "exempt_improvement", "goods_only", "none"}

func (l *loader) tax(n bookfile.Node) {
	n.Only("jurisdiction", "postal_codes", "kind", "rate", "parts", "taxable", "use_tax_on", "rounding", "from", "to")
	t := tax{jurisdiction: n.At("jurisdiction").Text(), kind: n.At("kind").Word(taxKinds...), prices: map[int][]Triple{}}
	t.rate = Rate{den: 1, text: "0"}
	if v := n.Maybe("taxable"); v.OK() {
		t.taxable = l.classSet(v)
	}
	if v := n.Maybe("use_tax_on"); v.OK() {
		t.use = l.classSet(v)
	}
	if t.kind != "none" && t.kind != "exempt_improvement" {
		n.At("taxable")
		t.rate = l.rate(n.At("rate"))
		l.parts(n, t.rate)
		if n.At("rounding").Word("half_even", "half_up") == "half_up" {
			t.rounding = unit.HalfUp
		}
	}
	l.agree(n, &t)
	t.from = n.At("from").Date()
	if v := n.Maybe("to"); v.OK() {
		t.to = v.Date()
		if t.to.Before(t.from) {
			v.Fault(t.to, "a date not before from")
		}
	}
	l.book.taxes = append(l.book.taxes, t)
}

// agree checks that a row's classes are those its kind of law has.
func (l *loader) agree(n bookfile.Node, t *tax) {
	switch {
	case t.kind == "contractor_consumer" && t.use == 0:
		n.Fault("contractor_consumer without use_tax_on", "the classes whose tax the contractor pays")
	case t.kind != "contractor_consumer" && t.use != 0:
		n.At("use_tax_on").Fault(t.kind, "use_tax_on with contractor_consumer only")
	case (t.kind == "none" || t.kind == "exempt_improvement") && t.taxable != 0:
		n.At("taxable").Fault(t.kind, "no class")
	case t.taxable.Has(ClassPermit):
		n.At("taxable").Fault("permit", "classes of lines; a public fee is passed on untaxed")
	}
}

// parts checks that state and local shares add to the rate.
func (l *loader) parts(n bookfile.Node, rate Rate) {
	v := n.Maybe("parts")
	if !v.OK() {
		return
	}
	sum := new(big.Rat)
	for _, p := range v.Pairs() {
		if r := l.rate(p.Value); r.den > 0 {
			sum.Add(sum, big.NewRat(r.num, r.den))
		}
	}
	if rate.den > 0 && sum.Cmp(big.NewRat(rate.num, rate.den)) != 0 {
		v.Fault(sum.FloatString(4), "parts that add to the rate, "+rate.text)
	}
}

func (l *loader) classSet(n bookfile.Node) (s ClassSet) {
	for _, v := range n.Items() {
		if i := slices.Index(classNames, v.Word(classNames...)); i >= 0 {
			s |= 1 << i
		}
	}
	return s
}
