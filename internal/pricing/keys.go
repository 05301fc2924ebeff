package pricing

import (
	"slices"
	"sort"
	"strconv"
	"strings"

	"daybreak/internal/pricing/bookfile"
)

// form is how an attribute is written in a price book.
type form uint8

const (
	word form = iota
	whole
	flag
	wholes // a list of whole numbers
)

// attribute is one thing an item is selected by. An optional one may be left
// out.
type attribute struct {
	name     string
	form     form
	optional bool
	accepted []string // closed list of a word, when it has one
}

func words(name string, accepted ...string) attribute {
	return attribute{name: name, accepted: accepted}
}
func number(name string) attribute { return attribute{name: name, form: whole} }
func yesNo(name string) attribute  { return attribute{name: name, form: flag} }
func maybe(a attribute) attribute  { a.optional = true; return a }

// kinds lists every kind of item with the attributes it is selected by. The
// spelling is the price book's own.
var kinds = map[string][]attribute{
	"evse": {
		number("level"), number("output_amps"), number("volts"), words("connection", "plug", "hardwired"),
		maybe(words("plug")), words("connector"), yesNo("networked"), {name: "settings_amps", form: wholes},
		yesNo("setting_access_restricted"), maybe(number("cable_ft")), maybe(words("enclosure")),
		maybe(yesNo("listed_efficient")), maybe(yesNo("measured_management")),
	},
	"breaker": {
		number("amps"), number("poles"), words("protection", "standard", "gfci", "dual_function"),
		words("form", "full", "tandem", "quad"),
	},
	"main_breaker":      {number("amps"), number("poles")},
	"breaker_accessory": {words("what")},
	"breaker_enclosure": {number("spaces"), words("enclosure")},
	"fuse":              {number("amps")},
	"cable":             {words("method"), words("size"), number("conductors"), words("material", "CU", "AL"), maybe(yesNo("wet"))},
	"wire":              {words("size"), words("material", "CU", "AL"), words("insulation"), maybe(words("role"))},
	"raceway":           {words("type"), words("trade_size")},
	"fitting":           {words("type"), words("trade_size"), words("fitting")},
	"support":           {words("method"), maybe(words("support")), maybe(words("size_range"))},
	"cable_connector":   {words("method"), maybe(words("size_range"))},
	"splice":            {words("size_range")},
	"box": {
		number("gangs"), words("work", "new", "old", "surface", "junction"), words("location", "dry", "wet"),
		maybe(words("size")), maybe(words("volume_in3")),
	},
	"receptacle":        {words("config"), words("grade"), number("amps"), yesNo("fit_for_ev_duty")},
	"cover":             {words("config"), words("location", "dry", "wet")},
	"disconnect":        {number("amps"), number("poles"), yesNo("fused"), maybe(words("enclosure")), maybe(yesNo("lockable"))},
	"grounding":         {words("what")},
	"subpanel":          {number("bus_amps"), number("spaces"), words("location", "indoor", "outdoor"), yesNo("main_breaker")},
	"main_panel":        {number("bus_amps"), number("main_amps"), number("spaces"), words("location", "indoor", "outdoor")},
	"panel_swap_kit":    {number("to_amps")},
	"service_kit":       {number("from_amps"), number("to_amps"), words("feed", "oh", "ug", "any"), maybe(yesNo("surge"))},
	"service_part":      {words("part"), number("amps"), words("feed", "oh", "ug", "any")},
	"surge_device":      {},
	"energy_management": {words("method", "load_switch", "load_shed", "measured_limit", "shared_circuit"), number("amps")},
	"allowance":         {words("what")},
	"restoration":       {words("surface")},
	"hire":              {words("what")},
	"disposal":          {words("what")},
	"trench_part":       {words("what")},
	"base":              {words("what")},
	"patch":             {words("surface")},
	"paint":             {},
	"firestop":          {},
	"sealant":           {},
	"sleeve":            {words("wall")},
	"label":             {words("what")},
	"consumable":        {words("what"), maybe(number("joints"))},
	"mount":             {words("mount")},
	"protection":        {words("what")},
}

// attributes is what an item is selected by, as its book writes it.
type attributes struct {
	kind     string
	values   map[string]string
	settings []int // of charging equipment, rising
}

// whole gives a number that the reader has checked; 0 where there is none.
func (a attributes) whole(name string) int {
	v, _ := strconv.Atoi(a.values[name])
	return v
}

// readAttributes reads one select mapping.
func readAttributes(n bookfile.Node) (attributes, bool) {
	a := attributes{kind: n.At("kind").Text(), values: map[string]string{}}
	if a.kind == "" {
		return a, false
	}
	schema, known := kinds[a.kind]
	if !known {
		n.At("kind").Fault(a.kind, strings.Join(sortedKinds(), ", "))
		return a, false
	}
	accepted := []string{"kind"}
	for _, s := range schema {
		accepted = append(accepted, s.name)
		v := n.Maybe(s.name)
		if !v.OK() {
			if !s.optional {
				n.At(s.name) // says that it is missing
			}
			continue
		}
		a.values[s.name] = readValue(v, s, &a)
	}
	n.Only(accepted...)
	return a, true
}

func readValue(v bookfile.Node, s attribute, a *attributes) string {
	switch {
	case s.form == whole:
		return strconv.Itoa(v.Whole(0, 4000))
	case s.form == flag:
		return strconv.FormatBool(v.Flag())
	case s.form == wholes:
		for _, item := range v.Items() {
			a.settings = append(a.settings, item.Whole(1, 400))
		}
		return ""
	case len(s.accepted) > 0:
		return v.Word(s.accepted...)
	}
	return v.Text()
}

func sortedKinds() []string {
	names := make([]string, 0, len(kinds))
	for k := range kinds {
		names = append(names, k)
	}
	sort.Strings(names)
	return names
}

// matches reports whether an item meets a demand: every attribute named is
// equal, what begins with min_ is reached, a setting can be locked in.
func (a attributes) matches(demand map[string]string) bool {
	for name, want := range demand {
		switch name {
		case "kind":
			if a.kind != want {
				return false
			}
		case "min_amps", "min_bus_amps", "min_spaces", "min_to_amps":
			least, _ := strconv.Atoi(want)
			if a.whole(strings.TrimPrefix(name, "min_")) < least {
				return false
			}
		case "setting":
			amps, _ := strconv.Atoi(want)
			if !slices.Contains(a.settings, amps) || a.values["setting_access_restricted"] != "true" {
				return false
			}
		default:
			if a.values[name] != want {
				return false
			}
		}
	}
	return true
}

// key is how the engine asks for one item. It is the attributes of its kind
// in fixed slots, so that a look-up costs one hash and no text is made.
type key struct {
	kind    string
	a, b, c string
	n, m    int32
}

// keys gives every key an item answers to.
func (a attributes) keys() []key {
	v := a.values
	n := func(name string) int32 { return int32(a.whole(name)) }
	k := key{kind: a.kind}
	switch a.kind {
	case "breaker":
		k.a, k.b, k.n, k.m = v["protection"], v["form"], n("amps"), n("poles")
	case "cable":
		k.a, k.b, k.c, k.n = v["method"], v["size"], v["material"], n("conductors")
	case "wire":
		k.a, k.b, k.c = v["material"], v["insulation"], v["size"]
	case "raceway":
		k.a, k.b = v["type"], v["trade_size"]
	case "fitting":
		k.a, k.b, k.c = v["type"], v["trade_size"], v["fitting"]
	case "support":
		k.a, k.b = v["method"], v["support"]
		sized := k
		sized.c = v["size_range"]
		return []key{k, sized}
	case "cable_connector":
		k.a, k.b = v["method"], v["size_range"]
	case "box":
		k.a, k.b, k.n = v["work"], v["location"], n("gangs")
		sized := k
		sized.c = v["size"]
		return []key{k, sized}
	case "receptacle":
		k.a = v["config"]
		graded := k
		graded.b = v["grade"]
		if v["fit_for_ev_duty"] != "true" {
			return []key{graded}
		}
		return []key{k, graded}
	case "cover":
		k.a, k.b = v["config"], v["location"]
	case "disconnect":
		k.a, k.n = v["fused"], n("amps")
	case "service_kit":
		k.a, k.n, k.m = v["feed"], n("from_amps"), n("to_amps")
	case "restoration", "patch":
		k.a = v["surface"]
	case "label", "consumable", "hire", "trench_part", "protection", "base", "grounding":
		k.a = v["what"]
	case "sleeve":
		k.a = v["wall"]
	case "mount":
		k.a = v["mount"]
	case "firestop", "sealant", "surge_device":
	default:
		return nil // equipment, managers, boards and kits for a swap are searched; the rest is not asked for
	}
	return []key{k}
}
