package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// ChargeCase is a case of charging in the core's words.
type ChargeCase struct {
	Limits      charging.Limits
	Session     charging.Session // without power, which follows from the limits
	Consumption charging.Consumption
	Outdoor     unit.Fahrenheit
	Miles       *unit.Miles // nil leaves the night out
	Window      unit.Hours
	Warmed      *float64 // share of cold mornings; nil leaves preconditioning out
}

// mild is outdoor air that neither heats nor cools a battery, °F.
const mild unit.Fahrenheit = 70

// usualWindow is a night at home when nobody told its hours.
const usualWindow unit.Hours = 10

// Charging reads a case of charging. What the case does not tell of the car
// comes from its archetype; a case with neither is a fault naming the field.
func Charging(field string, m *daybreakv1.ChargeCase, vehicles charging.Vehicles) (ChargeCase, error) {
	var car charging.Vehicle
	if m.Archetype != nil {
		id := archetype(m.GetArchetype())
		found, err := vehicles.ByID(id)
		if err != nil {
			return ChargeCase{}, fault.Invalid(field+".archetype", id, "the kind of a car in the vehicle table")
		}
		car = found
	}
	car.Usable = unit.KilowattHours(or(m.UsableKwh, float64(car.Usable)))
	car.Consumption = charging.Consumption(or(m.WallKwhPer_100Mi, float64(car.Consumption)))
	switch {
	case car.Usable == 0:
		return ChargeCase{}, fault.Invalid(field+".usable_kwh", "nothing", "5 to 250 kWh, or an archetype")
	case car.Consumption == 0:
		return ChargeCase{}, fault.Invalid(field+".wall_kwh_per_100mi", "nothing", "15 to 120 kWh/100 mi, or an archetype")
	}
	from, to := or(m.FromShare, 0.2), or(m.ToShare, 0.8)
	if to < from {
		return ChargeCase{}, fault.Invalid(field+".to_share", to, "from_share to 1")
	}
	c := ChargeCase{
		Limits: charging.Limits{
			Supply:     unit.Volts(m.GetVolts()),
			Breaker:    capAt[unit.Amps](m.BreakerAmps),
			Receptacle: capAt[unit.Amps](m.ReceptacleAmps),
			Setting:    capAt[unit.Amps](m.SettingAmps),
			Cable:      capAt[unit.Amps](m.CableAmps),
			Managed:    capAt[unit.Amps](m.ManagedAmps),
		},
		Session:     charging.Session{Usable: car.Usable, From: from, To: to},
		Consumption: car.Consumption,
		Outdoor:     unit.Fahrenheit(or(m.OutdoorF, float64(mild))),
		Window:      unit.Hours(or(m.WindowHours, float64(usualWindow))),
	}
	c.Limits.OnboardKW, c.Limits.OnboardAmps = onboard(m, car)
	if m.Miles != nil {
		miles := unit.Miles(m.GetMiles())
		c.Miles = &miles
	}
	if m.PreconditionShare != nil && m.OutdoorF == nil {
		return c, fault.Invalid(field+".outdoor_f", "nothing", "-60 to 130 °F, since precondition_share is told")
	}
	c.Warmed = m.PreconditionShare
	return c, nil
}

// onboard is what the car itself takes: as told, else its archetype's, else
// unknown, which the answer names.
func onboard(m *daybreakv1.ChargeCase, car charging.Vehicle) (charging.Cap[unit.Kilowatts], charging.Cap[unit.Amps]) {
	var kw charging.Cap[unit.Kilowatts]
	var amps charging.Cap[unit.Amps]
	if car.OnboardKW > 0 {
		l := car.Limits(charging.Limits{})
		kw, amps = l.OnboardKW, l.OnboardAmps
	}
	if m.OnboardChargerKw != nil {
		kw, amps = charging.At(unit.Kilowatts(m.GetOnboardChargerKw())), charging.Unknown[unit.Amps]()
	}
	if m.MaxAcAmps != nil {
		amps = charging.At(unit.Amps(m.GetMaxAcAmps()))
	}
	return kw, amps
}

func capAt[T ~float64](v *float64) charging.Cap[T] {
	if v == nil {
		return charging.None[T]()
	}
	return charging.At(T(*v))
}

func or[T any](v *T, otherwise T) T {
	if v == nil {
		return otherwise
	}
	return *v
}

func archetype(a daybreakv1.Archetype) string {
	leaf := leafAt("vehicle.archetype")
	return wordOf(leaf.Words, a.Number())
}

// ChargeEstimate is one charge, and one night when asked, on the wire.
func (w *Words) ChargeEstimate(r charging.Rate, perHour unit.Miles, c charging.Charge, night *charging.Refill, steps []working.Step) *daybreakv1.ChargeEstimate {
	out := &daybreakv1.ChargeEstimate{
		WallKw: float64(r.Wall), Amps: float64(r.Amps), BindingLimit: daybreakv1.PowerLimit(r.Binding), OpenLimits: limits(r.Open),
		WallKwh: float64(c.Wall), BatteryKwh: float64(c.Battery), MilesPerHour: float64(perHour), Working: w.Working(steps),
	}
	if !c.Stalls {
		hours := float64(c.Hours)
		out.Hours = &hours
	}
	if night != nil {
		hours := float64(night.Hours)
		out.Night = &daybreakv1.NightEstimate{NeedKwh: float64(night.Need), Hours: &hours, Fits: night.Fits, ShortfallKwh: float64(night.Shortfall)}
	}
	return out
}

// Preconditioning is warming the cabin at the plug on the wire.
func Preconditioning(p charging.Precondition, average unit.KilowattHours) *daybreakv1.Preconditioning {
	return &daybreakv1.Preconditioning{
		EnergyKwh: float64(p.Energy), WallKwh: float64(p.Wall), BatteryKwh: float64(p.Battery), AverageWallKwh: float64(average),
	}
}

func limits(s charging.LimitSet) []daybreakv1.PowerLimit {
	var out []daybreakv1.PowerLimit
	for _, l := range s.List() {
		out = append(out, daybreakv1.PowerLimit(l))
	}
	return out
}

// Vehicle is a row of the vehicle table.
func Vehicle(v charging.Vehicle) *daybreakv1.CatalogueVehicle {
	out := &daybreakv1.CatalogueVehicle{
		Name: "vehicles/" + v.ID, Text: v.Label, UsableKwh: float64(v.Usable), WallKwhPer_100Mi: float64(v.Consumption),
		OnboardChargerKw: float64(v.OnboardKW), MaxAcAmps: float64(v.OnboardAmps), DcPeakKw: float64(v.DCPeak),
		PetrolBackup: v.PetrolBackup, ElectricRangeMiles: float64(v.Range),
		Inlet:   daybreakv1.Inlet(placeOf("vehicle.inlet", v.Inlet)),
		DcInlet: daybreakv1.DCInlet(placeOf("vehicle.dc_inlet", v.DCInlet)),
	}
	if v.Source != nil {
		out.Status = status(v.Source.Status)
	}
	return out
}
