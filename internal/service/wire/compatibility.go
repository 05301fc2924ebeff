package wire

import (
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Pairs are what may meet between outlet and car, in the core's words; a pair
// whose first is empty was not told.
type Pairs struct {
	Inlet, Connector     string
	Setting              unit.Amps
	DCInlet, DCConnector string
	Plug, Receptacle     string
	Car                  *charging.Vehicle // nil when none was named
}

// strongest is what an adapter must carry when nobody told the setting, A.
const strongest = 80

// Compatibility reads the pairs of a case. A pair told in half is a fault that
// names its other half; so is a car that is not in the vehicle table.
func Compatibility(field string, m *daybreakv1.CompatibilityCase, vehicles charging.Vehicles) (Pairs, error) {
	p := Pairs{Setting: unit.Amps(or(m.SettingAmps, strongest))}
	for _, pair := range []struct {
		first, second             *string
		firstAt, secondAt         string
		firstNumber, secondNumber int32
		leafFirst, leafSecond     string
	}{
		{&p.Inlet, &p.Connector, "inlet", "connector", int32(m.GetInlet()), int32(m.GetConnector()), "vehicle.inlet", "equipment.connector"},
		{&p.DCInlet, &p.DCConnector, "dc_inlet", "dc_connector", int32(m.GetDcInlet()), int32(m.GetDcConnector()), "vehicle.dc_inlet", "vehicle.dc_inlet"},
		{&p.Plug, &p.Receptacle, "plug", "receptacle", int32(m.GetPlug()), int32(m.GetReceptacle()), "outlet.configuration", "outlet.configuration"},
	} {
		*pair.first, *pair.second = wordAt(pair.leafFirst, pair.firstNumber), wordAt(pair.leafSecond, pair.secondNumber)
		switch {
		case *pair.first != "" && *pair.second == "":
			return p, fault.Invalid(field+"."+pair.secondAt, "nothing", "a value, since "+pair.firstAt+" is told")
		case *pair.first == "" && *pair.second != "":
			return p, fault.Invalid(field+"."+pair.firstAt, "nothing", "a value, since "+pair.secondAt+" is told")
		}
	}
	if id := strings.TrimPrefix(m.GetVehicle(), "vehicles/"); id != "" {
		car, err := vehicles.ByID(id)
		if err != nil {
			return p, fault.Invalid(field+".vehicle", id, "a car of the vehicle table")
		}
		p.Car = &car
	}
	if p.Inlet == "" && p.DCInlet == "" && p.Plug == "" && p.Car == nil {
		return p, fault.Invalid(field, "nothing", "inlet and connector, dc_inlet and dc_connector, plug and receptacle, or a vehicle")
	}
	p.Plug, p.Receptacle = faceAlone(p.Plug), faceAlone(p.Receptacle)
	return p, nil
}

// faceAlone is a configuration without what stands behind its face: a
// receptacle with ground-fault protection takes the same plugs.
func faceAlone(configuration string) string { return strings.TrimSuffix(configuration, " GFCI") }

// Fit is how a pair meets on the wire.
func (w *Words) Fit(f charging.Fit) *daybreakv1.Fit {
	out := &daybreakv1.Fit{
		Joint:     daybreakv1.Joint(f.Joint),
		Condition: w.rule(f.Condition, working.Num("current", f.Least, "A")),
	}
	if f.Least > 0 {
		amps := float64(f.Least)
		out.AdapterAmps = &amps
	}
	return out
}

// Away is fast charging away from home on the wire.
func (w *Words) Away(a *charging.Away) *daybreakv1.AwayFromHome {
	out := &daybreakv1.AwayFromHome{Can: a.Can, Inlet: daybreakv1.DCInlet(placeOf("vehicle.dc_inlet", a.Inlet)), Note: w.rule(a.Note)}
	for _, f := range a.Fits {
		connector := daybreakv1.DCInlet(placeOf("vehicle.dc_inlet", f.Connector))
		out.Fits = append(out.Fits, &daybreakv1.AwayFit{Connector: connector, Fit: w.Fit(f.Fit)})
	}
	if !a.Can {
		return out
	}
	for _, s := range a.Stations {
		out.Stations = append(out.Stations, &daybreakv1.AwayStop{
			StationKw: float64(s.Station), PowerKw: float64(s.Power), BatteryKwh: float64(s.Fast.Battery),
			LeastHours: float64(s.Fast.Quick), MostHours: float64(s.Fast.Slow),
		})
	}
	return out
}

// Never is what must not stand between outlet and car.
func (w *Words) Never(all []charging.Never) []*daybreakv1.NeverAdapt {
	var out []*daybreakv1.NeverAdapt
	for _, n := range all {
		out = append(out, &daybreakv1.NeverAdapt{What: w.rule(n.Rule), Section: section(n.Source), Status: status(n.Source.Status)})
	}
	return out
}
