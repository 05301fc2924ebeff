package facts

import "daybreak/internal/unit"

// Vehicle is one electric vehicle of the household.
type Vehicle struct {
	Model             Known[string]             // row of the vehicle table
	ModelYear         Known[int]                // model year
	Archetype         Known[Archetype]          // kind of vehicle when the model is not in the table
	UsableKWh         Known[unit.KilowattHours] // energy the battery gives from full to empty, kWh
	WallKWhPer100Mi   Known[float64]            // energy drawn at the wall for a hundred miles, kWh/100 mi
	OnboardChargerKW  Known[unit.Kilowatts]     // alternating-current power the on-board charger takes in, kW
	MaxACAmps         Known[unit.Amps]          // current the on-board charger takes in, A
	Inlet             Known[Inlet]              // alternating-current inlet
	DCInlet           Known[DCInlet]            // inlet for charging on the road
	DCPeakKW          Known[unit.Kilowatts]     // peak power on the road; 0 means it cannot fast-charge, kW
	PetrolBackup      Known[bool]               // the vehicle also burns fuel, so it is never short
	SuppliedCord      Known[SuppliedCord]       // cord set that came with it
	PreconditionShare Known[float64]            // share of cold mornings it is warmed while plugged in, share
	DeliveryDate      Known[Date]               // day the vehicle comes home
	BidirectionalWish Known[bool]               // the household asked about powering the house from the car
}

func vehicleLeaves(prefix string, at func(*Facts) *Vehicle) []*Leaf {
	return []*Leaf{
		text(prefix+".model", idText, func(f *Facts) *Known[string] { return &at(f).Model }),
		whole(prefix+".model_year", "", 1995, 2035, func(f *Facts) *Known[int] { return &at(f).ModelYear }),
		choice(prefix+".archetype", "Archetype", archetypeWords, func(f *Facts) *Known[Archetype] { return &at(f).Archetype }),
		number(prefix+".usable_kwh", "kWh", 5, 250, 1, func(f *Facts) *Known[unit.KilowattHours] { return &at(f).UsableKWh }),
		number(prefix+".wall_kwh_per_100mi", "kWh/100 mi", 15, 120, 1, func(f *Facts) *Known[float64] { return &at(f).WallKWhPer100Mi }),
		number(prefix+".onboard_charger_kw", "kW", 1, 25, 1, func(f *Facts) *Known[unit.Kilowatts] { return &at(f).OnboardChargerKW }),
		number(prefix+".max_ac_amps", "A", 6, 80, 1, func(f *Facts) *Known[unit.Amps] { return &at(f).MaxACAmps }),
		choice(prefix+".inlet", "Inlet", inletWords, func(f *Facts) *Known[Inlet] { return &at(f).Inlet }),
		choice(prefix+".dc_inlet", "DCInlet", dcInletWords, func(f *Facts) *Known[DCInlet] { return &at(f).DCInlet }),
		number(prefix+".dc_peak_kw", "kW", 0, 500, 0, func(f *Facts) *Known[unit.Kilowatts] { return &at(f).DCPeakKW }),
		flag(prefix+".petrol_backup", func(f *Facts) *Known[bool] { return &at(f).PetrolBackup }),
		choice(prefix+".supplied_cord", "SuppliedCord", suppliedCordWords, func(f *Facts) *Known[SuppliedCord] { return &at(f).SuppliedCord }),
		number(prefix+".precondition_share", "share", 0, 1, 2, func(f *Facts) *Known[float64] { return &at(f).PreconditionShare }),
		day(prefix+".delivery_date", 2020, func(f *Facts) *Known[Date] { return &at(f).DeliveryDate }),
		flag(prefix+".bidirectional_wish", func(f *Facts) *Known[bool] { return &at(f).BidirectionalWish }),
	}
}
