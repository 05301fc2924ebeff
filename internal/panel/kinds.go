package panel

// LoadKind is a kind of appliance a household is asked about. Its words are
// those of the facts: "water_heater", "furnace_fan".
type LoadKind uint8

// The kinds of load. Heat and cooling have fields of their own in [Input].
const (
	Range LoadKind = iota
	Cooktop
	Oven
	Dryer
	WaterHeater
	Dishwasher
	Disposer
	Microwave
	Hood
	FurnaceFan
	WellPump
	SumpPump
	PoolPump
	PoolHeater
	Spa
	Sauna
	Welder
	Kiln
	ExistingCharger
	OtherLoad
	loadKinds
)

var loadKindNames = [loadKinds]string{
	"range", "cooktop", "oven", "dryer", "water_heater", "dishwasher", "disposer", "microwave", "hood", "furnace_fan",
	"well_pump", "sump_pump", "pool_pump", "pool_heater", "spa", "sauna", "welder", "kiln", "evse_existing", "other",
}

// LoadKindOf finds a kind by its word, and false when there is none of it.
func LoadKindOf(word string) (LoadKind, bool) {
	for k := range loadKinds {
		if loadKindNames[k] == word {
			return k, true
		}
	}
	return 0, false
}

var methodNames = [methodCount]string{"existing_83", "optional_82", "measured_87", "mobile_550_18", "general"}

// String is the word of the facts.
func (k LoadKind) String() string { return nameOf(loadKindNames[:], int(k)) }

// String is the word of the method.
func (m Method) String() string { return nameOf(methodNames[:], int(m)) }

// String is the word of the reading.
func (r Reading) String() string {
	return nameOf([]string{"continuous", "full", "literal"}, int(r))
}

// String is the word of the verdict.
func (v Verdict) String() string {
	return nameOf([]string{"does_not_fit", "ask_the_ahj", "tight", "fits"}, int(v))
}

// String is the word of the limit.
func (l Limit) String() string {
	return nameOf([]string{"service", "service_conductors", "main", "bus", "meter"}, int(l))
}

// String is the word of the refusal.
func (r Refusal) String() string {
	return nameOf([]string{"permitted", "new_dwelling", "part_feeder", "under_100_a", "mobile_home", "not_a_mobile_home",
		"no_record", "source_bars_record", "net_data", "load_added_since"}, int(r))
}

// String is the word of where a setting counts.
func (s SettingCounts) String() string {
	return nameOf([]string{"rating_only", "fastened_equipment", "any_equipment"}, int(s))
}

func nameOf(names []string, i int) string {
	if i < 0 || i >= len(names) {
		return "unknown"
	}
	return names[i]
}

// String is the word of the verdict on the bus.
func (v BusVerdict) String() string {
	return nameOf([]string{"no_source", "unaffected", "recounted", "broken", "to_be_seen"}, int(v))
}

// String is the word of the rule.
func (r BusRule) String() string {
	return nameOf([]string{"unknown", "sum_100", "sum_120", "sum_of_breakers"}, int(r))
}
