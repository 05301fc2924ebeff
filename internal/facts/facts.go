package facts

// Facts is the household as known. Its zero value knows nothing. It copies
// with = and compares with ==.
type Facts struct {
	Vehicle       Vehicle
	SecondVehicle Vehicle
	Driving       Driving
	Place         Place
	Outlet        Outlet
	OtherOutlet   Outlet
	Equipment     Equipment
	Panel         Panel
	Route         Route
	Wishes        Wishes

	narrowed narrowings
}

// leaves is the one table, in the order of the struct.
var leaves = numbered(
	vehicleLeaves("vehicle", func(f *Facts) *Vehicle { return &f.Vehicle }),
	vehicleLeaves("second_vehicle", func(f *Facts) *Vehicle { return &f.SecondVehicle }),
	drivingLeaves(),
	placeLeaves(),
	outletLeaves("outlet", func(f *Facts) *Outlet { return &f.Outlet }),
	outletLeaves("other_outlet", func(f *Facts) *Outlet { return &f.OtherOutlet }),
	equipmentLeaves(),
	panelLeaves(),
	routeLeaves(),
	wishesLeaves(),
)

var leafByPath = indexed(leaves)

func numbered(groups ...[]*Leaf) []*Leaf {
	var all []*Leaf
	for _, g := range groups {
		for _, l := range g {
			l.Index = len(all)
			all = append(all, l)
		}
	}
	return all
}

func indexed(all []*Leaf) map[string]*Leaf {
	m := make(map[string]*Leaf, len(all))
	for _, l := range all {
		m[l.Path] = l
	}
	return m
}

// Leaves returns the leaf table in the order of the struct. Callers must not
// change it.
func Leaves() []*Leaf { return leaves }

// LeafAt returns the leaf with that path, and false when there is none.
func LeafAt(path string) (*Leaf, bool) {
	l, ok := leafByPath[path]
	return l, ok
}
