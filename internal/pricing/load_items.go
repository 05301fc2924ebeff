package pricing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"daybreak/internal/pricing/bookfile"
)

var itemKeys = []string{
	"code", "words", "unit", "price", "basis", "price_class", "tax_class", "trade", "select", "stick_ft", "rolls_ft",
}

// items reads one file of items. Keys under defaults stand for every item of
// the file that does not say otherwise.
func (l *loader) items(n bookfile.Node) {
	if !n.OK() {
		return
	}
	n.Only("source", "status", "defaults", "items")
	n.At("source").Text()
	n.At("status").Word(statuses...)
	defaults := n.Maybe("defaults")
	if defaults.OK() {
		defaults.Only("unit", "basis", "price_class", "tax_class", "trade")
	}
	for _, v := range n.At("items").Items() {
		l.item(v, defaults)
	}
}

func (l *loader) item(n, defaults bookfile.Node) {
	code := n.At("code").Text()
	if code == "" {
		return
	}
	n = n.Named("items." + code)
	n.Only(itemKeys...)
	get := func(key string) bookfile.Node {
		if v := n.Maybe(key); v.OK() {
			return v
		}
		if v := defaults.Maybe(key); v.OK() {
			return v
		}
		return n.At(key)
	}
	it := item{code: code, words: n.At("words").Text(), file: n.File(), line: n.Line()}
	it.unit = get("unit").Word(l.units...)
	it.list = get("basis").Word("list", "cost") == "list"
	it.class = Class(max(slices.Index(classNames, get("tax_class").Word(classNames...)), 0))
	it.trade = l.trade(get("trade"))
	l.policy(&it, get("price_class"))
	l.selects(&it, n.At("select"))
	it.price = l.triple(n.At("price"), !it.is("allowance"))
	l.purchase(&it, n)
	if first, twice := l.codes[code]; twice {
		other := l.book.items[first]
		n.At("code").Fault(code, fmt.Sprintf("a code of its own; %s:%d has it", other.file, other.line))
		return
	}
	l.codes[code] = len(l.book.items)
	l.book.items = append(l.book.items, it)
}

func (it *item) is(kind string) bool {
	return slices.ContainsFunc(it.selects, func(a attributes) bool { return a.kind == kind })
}

func (l *loader) policy(it *item, n bookfile.Node) {
	name := n.Text()
	p, known := l.classes[name]
	switch {
	case name == "":
	case !known:
		n.Fault(name, "a price class of book.yaml")
	case p.Kind == "list" && !it.list:
		n.Fault(name, "basis list, or a class that says what is added to cost")
	}
	it.policy = p
	it.passThrough = p.Kind == "cost"
}

func (l *loader) selects(it *item, n bookfile.Node) {
	if !n.OK() {
		return
	}
	list := []bookfile.Node{n}
	if n.IsList() {
		list = n.Items()
	}
	for _, v := range list {
		if a, ok := readAttributes(v); ok {
			it.selects = append(it.selects, a)
		}
	}
}

// triple reads [low, likely, high], which may not fall; likely is above zero
// unless the item is an allowance.
func (l *loader) triple(n bookfile.Node, positive bool) (t Triple) {
	list := n.Items()
	if len(list) != len(t) {
		if n.OK() {
			n.Fault(fmt.Sprintf("%d prices", len(list)), "low, likely, high")
		}
		return t
	}
	for i, v := range list {
		t[i] = l.amount(v)
	}
	if t[Low] > t[Likely] || t[Likely] > t[High] {
		n.Fault(fmt.Sprintf("%s, %s, %s", list[0].Text(), list[1].Text(), list[2].Text()), "low <= likely <= high")
	} else if positive && t[Likely] == 0 {
		n.Fault("a likely price of 0", "a price above 0")
	}
	return t
}

func (l *loader) purchase(it *item, n bookfile.Node) {
	if v := n.Maybe("stick_ft"); v.OK() {
		it.stickFeet = int64(v.Whole(1, 100))
	}
	if v := n.Maybe("rolls_ft"); v.OK() {
		for _, r := range v.Items() {
			it.rollFeet = append(it.rollFeet, int64(r.Whole(1, 10000)))
		}
		if !slices.IsSorted(it.rollFeet) || len(it.rollFeet) == 0 || len(it.rollFeet) > 6 {
			v.Fault("rolls out of order", "1 to 6 lengths in rising order")
		}
	}
	if it.is("raceway") && (it.unit == "stick") != (it.stickFeet > 0) {
		n.Fault("unit "+it.unit, "stick_ft with unit stick, rolls_ft with unit ft")
	}
	if it.is("raceway") && it.stickFeet == 0 && len(it.rollFeet) == 0 {
		n.Fault("no purchase unit", "stick_ft or rolls_ft")
	}
	if (it.is("cable") || it.is("wire")) && it.unit != "ft" {
		n.Fault("unit "+it.unit, "ft, since it is billed by length")
	}
}

// seal builds what look-ups need, once every item is read.
func (b *Book) seal() {
	for i := range b.items {
		id := int32(i)
		for _, a := range b.items[i].selects {
			for _, k := range a.keys() {
				old, taken := b.index[k]
				if !taken || b.items[i].price[Likely] < b.items[old].price[Likely] {
					b.index[k] = id
				}
			}
			switch a.kind {
			case "evse":
				b.evses = append(b.evses, id)
			case "energy_management":
				b.managers = append(b.managers, id)
			case "subpanel":
				b.boards = append(b.boards, id)
			case "panel_swap_kit":
				b.swaps = append(b.swaps, id)
			case "service_part":
				if a.values["part"] == "emergency_disconnect" {
					b.disconnects = append(b.disconnects, id)
				}
			case "allowance":
				b.asides[a.values["what"]] = id
			}
		}
	}
	cheapest := func(x, y int32) int {
		if c := cmp.Compare(b.items[x].price[Likely], b.items[y].price[Likely]); c != 0 {
			return c
		}
		return strings.Compare(b.items[x].code, b.items[y].code)
	}
	for _, list := range [...][]int32{b.evses, b.managers, b.boards, b.swaps, b.disconnects} {
		slices.SortStableFunc(list, cheapest)
	}
}
