package pricing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// wireSizes lists conductor sizes from small to large.
//
// Source: NFPA 70, Chapter 9 Table 8, order of sizes.
var wireSizes = []string{
	"14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0", "250",
}

// tradeSizes lists raceway sizes from small to large.
//
// Source: NFPA 70, Chapter 9 Table 4, trade sizes to 2.
var tradeSizes = []string{"1/2", "3/4", "1", "1-1/4", "1-1/2", "2"}

// family says how items of a kind grow: the attributes that make them alike
// and the one that orders them.
type family struct {
	alike []string
	grows string
	order []string // nil for a number
}

var families = map[string]family{
	"breaker":    {alike: []string{"poles", "protection", "form"}, grows: "amps"},
	"cable":      {alike: []string{"method", "conductors", "material"}, grows: "size", order: wireSizes},
	"wire":       {alike: []string{"material", "insulation", "role"}, grows: "size", order: wireSizes},
	"raceway":    {alike: []string{"type"}, grows: "trade_size", order: tradeSizes},
	"fitting":    {alike: []string{"type", "fitting"}, grows: "trade_size", order: tradeSizes},
	"disconnect": {alike: []string{"fused"}, grows: "amps"},
	"main_panel": {alike: []string{"location"}, grows: "bus_amps"},
}

// checkFamilies says where a larger item of a family costs less than a smaller
// one, which is nearly always a slip of the pen.
func (l *loader) checkFamilies() {
	type member struct {
		id   int
		rank int
	}
	members := map[string][]member{}
	for id := range l.book.items {
		for _, a := range l.book.items[id].selects {
			f, ok := families[a.kind]
			if !ok {
				continue
			}
			name := a.kind + " " + l.book.items[id].unit
			for _, attr := range f.alike {
				name += " " + a.values[attr]
			}
			rank := a.whole(f.grows)
			if f.order != nil {
				if rank = slices.Index(f.order, a.values[f.grows]); rank < 0 {
					it := l.book.items[id]
					l.faults.Add(it.file, it.line, "items."+it.code+".select."+f.grows, a.values[f.grows], strings.Join(f.order, ", "))
					continue
				}
			}
			members[name] = append(members[name], member{id, rank})
		}
	}
	names := make([]string, 0, len(members))
	for n := range members {
		names = append(names, n)
	}
	slices.Sort(names)
	for _, n := range names {
		list := members[n]
		slices.SortStableFunc(list, func(a, b member) int { return cmp.Compare(a.rank, b.rank) })
		for i := 1; i < len(list); i++ {
			small, large := l.book.items[list[i-1].id], l.book.items[list[i].id]
			if list[i].rank > list[i-1].rank && large.price[Likely] < small.price[Likely] {
				l.faults.Add(large.file, large.line, "items."+large.code+".price", "less than "+small.code,
					"at least the likely price of the smaller "+small.code)
			}
		}
	}
}

// checkEquipment looks at charging equipment, whose settings decide circuits.
func (l *loader) checkEquipment() {
	for _, it := range l.book.items {
		for _, a := range it.selects {
			if a.kind != "evse" {
				continue
			}
			field := "items." + it.code + ".select.settings_amps"
			rising := slices.IsSortedFunc(a.settings, func(x, y int) int { return cmp.Compare(x, y+1) })
			if len(a.settings) == 0 || !rising || a.settings[len(a.settings)-1] != a.whole("output_amps") {
				l.faults.Add(it.file, it.line, field, fmt.Sprint(a.settings), "rising settings that end at output_amps")
			}
			if (a.values["connection"] == "plug") != (a.values["plug"] != "") {
				l.faults.Add(it.file, it.line, "items."+it.code+".select.plug", a.values["plug"], "a plug with connection plug, none when hardwired")
			}
		}
	}
}
