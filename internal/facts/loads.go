package facts

import "daybreak/internal/unit"

// Load is one kind of appliance.
type Load struct {
	Fuel  Known[Fuel]       // what it runs on; none is a told absence
	Watts Known[unit.Watts] // nameplate of each, W
	Count Known[int]        // how many
}

// Loads has one slot for each kind of appliance; Other sums what has no slot.
type Loads struct {
	Range        Load
	Cooktop      Load
	Oven         Load
	Dryer        Load
	WaterHeater  Load
	Dishwasher   Load
	Disposer     Load
	Microwave    Load
	Hood         Load
	FurnaceFan   Load
	WellPump     Load
	SumpPump     Load
	PoolPump     Load
	PoolHeater   Load
	Spa          Load
	Sauna        Load
	Welder       Load
	Kiln         Load
	EVSEExisting Load
	Other        Load
}

// LoadKinds lists the kinds in the order of the struct: "range", "cooktop", …
func LoadKinds() []string {
	kinds := make([]string, len(loadSlots))
	for i, s := range loadSlots {
		kinds[i] = s.kind
	}
	return kinds
}

// Of returns the slot of a kind by its place in [LoadKinds]. It returns nil
// outside that list.
func (l *Loads) Of(i int) *Load {
	if i < 0 || i >= len(loadSlots) {
		return nil
	}
	return loadSlots[i].at(l)
}

var loadSlots = []struct {
	kind string
	at   func(*Loads) *Load
}{
	{"range", func(l *Loads) *Load { return &l.Range }},
	{"cooktop", func(l *Loads) *Load { return &l.Cooktop }},
	{"oven", func(l *Loads) *Load { return &l.Oven }},
	{"dryer", func(l *Loads) *Load { return &l.Dryer }},
	{"water_heater", func(l *Loads) *Load { return &l.WaterHeater }},
	{"dishwasher", func(l *Loads) *Load { return &l.Dishwasher }},
	{"disposer", func(l *Loads) *Load { return &l.Disposer }},
	{"microwave", func(l *Loads) *Load { return &l.Microwave }},
	{"hood", func(l *Loads) *Load { return &l.Hood }},
	{"furnace_fan", func(l *Loads) *Load { return &l.FurnaceFan }},
	{"well_pump", func(l *Loads) *Load { return &l.WellPump }},
	{"sump_pump", func(l *Loads) *Load { return &l.SumpPump }},
	{"pool_pump", func(l *Loads) *Load { return &l.PoolPump }},
	{"pool_heater", func(l *Loads) *Load { return &l.PoolHeater }},
	{"spa", func(l *Loads) *Load { return &l.Spa }},
	{"sauna", func(l *Loads) *Load { return &l.Sauna }},
	{"welder", func(l *Loads) *Load { return &l.Welder }},
	{"kiln", func(l *Loads) *Load { return &l.Kiln }},
	{"evse_existing", func(l *Loads) *Load { return &l.EVSEExisting }},
	{"other", func(l *Loads) *Load { return &l.Other }},
}

func loadsLeaves() []*Leaf {
	var leaves []*Leaf
	for _, s := range loadSlots {
		path, at := "panel.loads."+s.kind, s.at
		leaves = append(leaves,
			choice(path+".fuel", "Fuel", fuelWords, func(f *Facts) *Known[Fuel] { return &at(&f.Panel.Loads).Fuel }),
			number(path+".watts", "W", 0, 40000, 0, func(f *Facts) *Known[unit.Watts] { return &at(&f.Panel.Loads).Watts }),
			whole(path+".count", "", 0, 20, func(f *Facts) *Known[int] { return &at(&f.Panel.Loads).Count }),
		)
	}
	return leaves
}
