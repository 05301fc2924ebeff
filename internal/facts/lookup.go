package facts

import "daybreak/internal/unit"

// VehicleRow is what a vehicle table says of one vehicle. Zero means that the
// table does not say, except where noted.
type VehicleRow struct {
	Archetype        Archetype
	ModelYear        int
	UsableKWh        unit.KilowattHours
	WallKWhPer100Mi  float64
	OnboardChargerKW unit.Kilowatts
	MaxACAmps        unit.Amps
	Inlet            Inlet
	DCInlet          DCInlet
	DCPeakKW         unit.Kilowatts // 0 with a DCInlet means it cannot fast-charge
	PetrolBackup     bool
}

// PostalRow is what the postal table proposes for a home. Empty means that the
// table does not say.
type PostalRow struct {
	Jurisdiction   string
	Utility        string
	ClimateStation string
	TimeZone       string
	ClimateZone    ClimateZone
}

// StationRow is the climate of a weather station.
type StationRow struct {
	JanuaryMeanF  unit.Fahrenheit
	ColdestNightF unit.Fahrenheit
}

// Tables are the look-ups a household can be filled from. A nil look-up is
// skipped; each returns false when it has no row. Watts are those of one
// appliance of a kind, by the rules of the appliance table; zone is zero when
// the climate is not known.
type Tables struct {
	Model     func(id string) (VehicleRow, bool)
	Archetype func(Archetype) (VehicleRow, bool)
	Postal    func(code string) (PostalRow, bool)
	Edition   func(jurisdiction string, permit Date) (CodeEdition, bool)
	Station   func(id string) (StationRow, bool)
	LoadWatts func(kind string) (unit.Watts, bool)
	HeatWatts func(kind HeatKind, area unit.SquareFeet, zone ClimateZone) (unit.Watts, bool)
	HeatPump  func(area unit.SquareFeet, zone ClimateZone) (unit.Watts, bool)
	CoolWatts func(kind CoolKind, area unit.SquareFeet, zone ClimateZone) (unit.Watts, bool)
}

// Complete fills the household from the tables and then from itself. It
// touches no leaf that is told, derived or narrowed. asOf stands in for an
// unknown permit date.
func Complete(f *Facts, asOf Date, t Tables) {
	t.vehicle(&f.Vehicle)
	t.vehicle(&f.SecondVehicle)
	t.place(&f.Place, asOf)
	DeriveWithin(f, asOf)
	t.panel(f)
}

func (t Tables) vehicle(v *Vehicle) {
	if id, ok := v.Model.Get(); ok && t.Model != nil {
		if row, ok := t.Model(id); ok {
			v.fillFrom(row, FromVehicleTable)
		}
	}
	if kind, ok := v.Archetype.Get(); ok && t.Archetype != nil {
		if row, ok := t.Archetype(kind); ok {
			v.fillFrom(row, FromArchetypeTable)
		}
	}
}

func (v *Vehicle) fillFrom(row VehicleRow, b Basis) {
	fillSaid(&v.Archetype, row.Archetype, b)
	fillSaid(&v.ModelYear, row.ModelYear, b)
	fillSaid(&v.UsableKWh, row.UsableKWh, b)
	fillSaid(&v.WallKWhPer100Mi, row.WallKWhPer100Mi, b)
	fillSaid(&v.OnboardChargerKW, row.OnboardChargerKW, b)
	fillSaid(&v.MaxACAmps, row.MaxACAmps, b)
	fillSaid(&v.Inlet, row.Inlet, b)
	fillSaid(&v.DCInlet, row.DCInlet, b)
	if row.DCInlet != 0 {
		fill(&v.DCPeakKW, row.DCPeakKW, b)
	}
	if row.Archetype != 0 || row.PetrolBackup {
		fill(&v.PetrolBackup, row.PetrolBackup, b)
	}
}

// fillSaid fills a leaf that the table says something about.
func fillSaid[T comparable](k *Known[T], v T, b Basis) {
	var silent T
	if v != silent {
		fill(k, v, b)
	}
}

func (t Tables) place(p *Place, asOf Date) {
	if code, ok := p.PostalCode.Get(); ok && t.Postal != nil {
		if row, ok := t.Postal(code); ok {
			fillSaid(&p.Jurisdiction, row.Jurisdiction, FromPostalTable)
			fillSaid(&p.Utility, row.Utility, FromPostalTable)
			fillSaid(&p.ClimateStation, row.ClimateStation, FromPostalTable)
			fillSaid(&p.TimeZone, row.TimeZone, FromPostalTable)
			fillSaid(&p.ClimateZone, row.ClimateZone, FromPostalTable)
		}
	}
	if id, ok := p.Jurisdiction.Get(); ok && t.Edition != nil {
		permit, told := p.PermitDate.Get()
		if !told {
			permit = asOf
		}
		if edition, ok := t.Edition(id, permit); ok {
			fill(&p.CodeEdition, edition, FromPostalTable)
		}
	}
	if id, ok := p.ClimateStation.Get(); ok && t.Station != nil {
		if row, ok := t.Station(id); ok {
			fill(&p.JanuaryMeanF, row.JanuaryMeanF, FromPostalTable)
			fill(&p.ColdestNightF, row.ColdestNightF, FromPostalTable)
		}
	}
}

func (t Tables) panel(f *Facts) {
	p := &f.Panel
	for _, s := range loadSlots {
		load := s.at(&p.Loads)
		if t.LoadWatts != nil && load.Fuel.Is(FuelElectric) {
			if watts, ok := t.LoadWatts(s.kind); ok {
				fill(&load.Watts, watts, FromApplianceTable)
			}
		}
	}
	area, known := f.Place.FloorAreaSqFt.Get()
	if !known {
		return
	}
	zone, _ := f.Place.ClimateZone.Get()
	heat, heatKnown := p.HeatKind.Get()
	if heatKnown && t.HeatWatts != nil {
		if watts, ok := t.HeatWatts(heat, area, zone); ok {
			fill(&p.HeatWatts, watts, FromApplianceTable)
		}
	}
	compressor := heat == HeatKindHeatPump || heat == HeatKindHpStrips || heat == HeatKindDuctless
	if heatKnown && compressor && t.HeatPump != nil {
		if watts, ok := t.HeatPump(area, zone); ok {
			fill(&p.HeatPumpWatts, watts, FromApplianceTable)
		}
	}
	if cool, ok := p.CoolKind.Get(); ok && t.CoolWatts != nil {
		if watts, ok := t.CoolWatts(cool, area, zone); ok {
			fill(&p.CoolWatts, watts, FromApplianceTable)
		}
	}
}
