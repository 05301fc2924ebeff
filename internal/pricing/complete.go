package pricing

import (
	"embed"
	"fmt"
	"maps"
	"slices"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/pricing/bookfile"
)

//go:embed demands.yaml
var demandFile embed.FS

// demand is one thing the engine can ask a book for.
type demand struct {
	group, why string
	want       map[string]string
}

// String prints a demand as its file writes it.
func (d demand) String() string {
	parts := make([]string, 0, len(d.want))
	for _, name := range slices.Sorted(maps.Keys(d.want)) {
		if name != "kind" {
			parts = append(parts, name+" "+d.want[name])
		}
	}
	return strings.TrimSpace(d.want["kind"] + " " + strings.Join(parts, ", "))
}

type demandList struct {
	items      []demand
	tasks      []string
	conditions []Condition
}

// readDemands reads the list that ships with the program.
func readDemands() (demandList, error) {
	var faults bookfile.Faults
	n := bookfile.Open(demandFile, "demands.yaml", &faults)
	n.Only("source", "status", "groups", "tasks", "conditions")
	var list demandList
	for _, g := range n.At("groups").Items() {
		g.Only("id", "what", "why", "keys")
		for _, k := range g.At("keys").Items() {
			for _, want := range combinations(k.Pairs()) {
				list.items = append(list.items, demand{g.At("id").Text(), g.At("why").Text(), want})
			}
		}
	}
	for _, t := range n.At("tasks").Items() {
		list.tasks = append(list.tasks, t.Text())
	}
	for _, p := range n.At("conditions").Pairs() {
		for _, c := range p.Value.Items() {
			list.conditions = append(list.conditions, Condition(c.Text()))
		}
	}
	return list, faults.Err()
}

// combinations gives one mapping for each choice of a value per key.
func combinations(pairs []bookfile.Pair) []map[string]string {
	out := []map[string]string{{}}
	for _, p := range pairs {
		values := []bookfile.Node{p.Value}
		if p.Value.IsList() {
			values = p.Value.Items()
		}
		var grown []map[string]string
		for _, m := range out {
			for _, v := range values {
				c := maps.Clone(m)
				c[p.Key] = v.Text()
				grown = append(grown, c)
			}
		}
		out = grown
	}
	return out
}

// Complete says whether the book answers every key the engine can put to it,
// and what follows from its own equipment: each setting needs a breaker, each
// plug a receptacle, a cover and a breaker of its rating.
func (b *Book) Complete() error {
	var faults bookfile.Faults
	list, err := readDemands()
	if err != nil {
		return err
	}
	for _, d := range list.items {
		if !b.answers(d.want) {
			file, line := b.near(d.want["kind"])
			faults.Add(file, line, d.String(), "no item", "an item with these attributes ("+d.group+": "+d.why+")")
		}
	}
	for _, code := range list.tasks {
		if !slices.ContainsFunc(b.labour.tasks, func(t task) bool { return t.code == code }) {
			faults.Add("labour.yaml", 0, "tasks."+code, "no task", "hours for this task")
		}
	}
	for _, c := range list.conditions {
		if _, ok := b.labour.factors[c]; !ok {
			faults.Add("labour.yaml", 0, "multipliers."+string(c), "no factor", "low, likely and high for this condition")
		}
	}
	for _, k := range b.sundries {
		if _, ok := b.index[k]; !ok {
			faults.Add("book.yaml", 0, "sundries", k.a, "the what of a consumable")
		}
	}
	for _, feed := range [...]string{"oh", "ug"} {
		if _, ok := b.weeks[feed]; !ok {
			faults.Add("book.yaml", 0, "utility_weeks."+feed, "none", "weeks the utility takes for an upgrade: low, likely, high")
		}
	}
	b.equipmentFits(&faults)
	return faults.Err()
}

func (b *Book) answers(want map[string]string) bool {
	for i := range b.items {
		for _, a := range b.items[i].selects {
			if a.matches(want) {
				return true
			}
		}
	}
	return false
}

// near gives the place where an item of a kind would be added: after the last
// one there is.
func (b *Book) near(kind string) (file string, line int) {
	file = "items"
	for i := range b.items {
		if b.items[i].is(kind) {
			file, line = b.items[i].file, b.items[i].line
		}
	}
	return file, line
}

// plugAmps is the rating of each receptacle that equipment may be plugged
// into.
//
// Source: ANSI/NEMA WD 6, ratings of the configurations.
var plugAmps = map[string]string{
	"5-15": "15", "5-20": "20", "6-15": "15", "6-20": "20", "6-30": "30", "6-50": "50", "14-30": "30", "14-50": "50",
}

func (b *Book) equipmentFits(faults *bookfile.Faults) {
	for _, id := range b.evses {
		it := &b.items[id]
		for _, a := range it.selects {
			if plug := a.values["plug"]; plug != "" {
				b.plugFits(faults, it, plug)
			}
			b.settingsFit(faults, it, &a)
		}
	}
}

// settingsFit says where a setting has no breaker: the next rating at or above
// 125 % of it.
//
// Source: NFPA 70 625.41, 240.6(A).
func (b *Book) settingsFit(faults *bookfile.Faults, it *item, a *attributes) {
	poles := int32(2)
	if a.values["volts"] == "120" {
		poles = 1
	}
	for _, s := range a.settings {
		i, _ := slices.BinarySearchFunc(breakerRatings, s*5, func(rating int32, fiveQuarters int) int { return int(rating)*4 - fiveQuarters })
		if i < len(breakerRatings) {
			if _, ok := b.index[key{kind: "breaker", a: string(Standard), b: "full", n: breakerRatings[i], m: poles}]; ok {
				continue
			}
		}
		faults.Add(it.file, it.line, "items."+it.code+".select.settings_amps", s, "a setting whose 125 % has a breaker in the book")
	}
}

// breakerRatings are the standard ratings a house may need for charging.
//
// Source: NFPA 70 240.6(A), to 125 A.
var breakerRatings = []int32{15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125}

func (b *Book) plugFits(faults *bookfile.Faults, it *item, plug string) {
	amps, known := plugAmps[plug]
	if !known {
		faults.Add(it.file, it.line, "items."+it.code+".select.plug", plug, strings.Join(slices.Sorted(maps.Keys(plugAmps)), ", "))
		return
	}
	for _, want := range []map[string]string{
		{"kind": "receptacle", "config": plug, "fit_for_ev_duty": "true"},
		{"kind": "cover", "config": plug},
		{"kind": "breaker", "amps": amps},
	} {
		if !b.answers(want) {
			faults.Add(it.file, it.line, "items."+it.code+".select.plug", "no "+demand{want: want}.String(), "an item that goes with this plug")
		}
	}
}

// missing faults a design that asks for something the book does not sell.
func missing(field string, got any) error {
	return fault.Invalid(field, fmt.Sprint(got), "something the price book sells; its completeness check should have found this")
}
