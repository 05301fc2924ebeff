package charging

import (
	"io/fs"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Vehicle is one row of the vehicle table: a generic kind of car, no make.
type Vehicle struct {
	ID           string // "mid-sedan-long"
	Label        string
	Usable       unit.KilowattHours // battery energy between full and empty
	Nominal      unit.KilowattHours // as advertised
	Consumption  Consumption
	OnboardKW    unit.Kilowatts // AC input
	OnboardAmps  unit.Amps      // AC input current; beyond it nothing is gained at 240 V
	Inlet        string         // "J1772" or "J3400", for alternating current
	DCInlet      string         // "CCS1", "J3400", "CHAdeMO" or "none"
	DCPeak       unit.Kilowatts // 0 when it cannot charge fast
	Range        unit.Miles     // on electricity, by the label
	WallFull     unit.KilowattHours
	PetrolBackup bool // a plug-in hybrid
	Source       *working.Source
}

// Vehicles is the vehicle table. It is read-only after loading.
type Vehicles struct {
	rows  []Vehicle
	words [][]string // of each row's id and label, for search
	byID  map[string]int
}

const vehiclesFile = "archetypes.csv"

var vehicleColumns = []string{"id", "label", "usable_kwh", "nominal_kwh", "kwh_per_100mi", "onboard_ac_kw", "onboard_ac_amps",
	"inlet", "dc_inlet", "dc_peak_kw", "electric_range_mi", "wall_kwh_full", "petrol_backup", "status", "source"}

// LoadVehicles reads archetypes.csv. Each broken row is a fault with file,
// line and column.
func LoadVehicles(fsys fs.FS) (Vehicles, error) {
	v := Vehicles{byID: map[string]int{}}
	err := readTable(fsys, vehiclesFile, vehicleColumns, func(w *row) {
		one := Vehicle{
			ID:           w.text("id"),
			Label:        w.text("label"),
			Usable:       unit.KilowattHours(w.number("usable_kwh", 5, 250)),
			Nominal:      unit.KilowattHours(w.number("nominal_kwh", 5, 300)),
			Consumption:  Consumption(w.number("kwh_per_100mi", 15, 120)),
			OnboardKW:    unit.Kilowatts(w.number("onboard_ac_kw", 1, 25)),
			OnboardAmps:  unit.Amps(w.number("onboard_ac_amps", 6, 110)),
			Inlet:        w.word("inlet", "J1772", "J3400"),
			DCInlet:      w.word("dc_inlet", "CCS1", "J3400", "CHAdeMO", "none"),
			DCPeak:       unit.Kilowatts(w.number("dc_peak_kw", 0, 500)),
			Range:        unit.Miles(w.number("electric_range_mi", 1, 1000)),
			WallFull:     unit.KilowattHours(w.number("wall_kwh_full", 5, 350)),
			PetrolBackup: w.word("petrol_backup", "yes", "no") == "yes",
			Source:       w.source(w.fields["id"]),
		}
		if one.Usable > one.Nominal {
			w.refuse("usable_kwh", w.fields["usable_kwh"], "at most nominal_kwh")
		}
		if (one.DCInlet == "none") != (one.DCPeak == 0) {
			w.refuse("dc_peak_kw", w.fields["dc_peak_kw"], "0 exactly when dc_inlet is none")
		}
		if _, twice := v.byID[one.ID]; twice {
			w.refuse("id", one.ID, "each id once")
		}
		v.byID[one.ID] = len(v.rows)
		v.rows = append(v.rows, one)
		v.words = append(v.words, words(one.ID+" "+one.Label))
	})
	if err != nil {
		return Vehicles{}, err
	}
	return v, nil
}

// With is the table and further vehicles behind it, to be searched together; an
// id that is there already is a fault.
func (v Vehicles) With(more []Vehicle) (Vehicles, error) {
	out := Vehicles{byID: map[string]int{}}
	for _, one := range append(v.List(), more...) {
		if _, twice := out.byID[one.ID]; twice {
			return Vehicles{}, fault.Invalid("vehicle.id", one.ID, "each id once")
		}
		out.byID[one.ID] = len(out.rows)
		out.rows = append(out.rows, one)
		out.words = append(out.words, words(one.ID+" "+one.Label))
	}
	return out, nil
}

// List returns all vehicles in the order of the table.
func (v Vehicles) List() []Vehicle { return append([]Vehicle(nil), v.rows...) }

// ByID returns a vehicle; an unknown id is a NotFound fault.
func (v Vehicles) ByID(id string) (Vehicle, error) {
	i, there := v.byID[id]
	if !there {
		return Vehicle{}, fault.NotFound("vehicle", id)
	}
	return v.rows[i], nil
}

// Limits fills in what the car itself limits.
func (c Vehicle) Limits(l Limits) Limits {
	l.OnboardKW, l.OnboardAmps = At(c.OnboardKW), At(c.OnboardAmps)
	return l
}
