package facts

import "daybreak/internal/unit"

// Outlet is one outlet near the car.
type Outlet struct {
	Present       Known[OutletPresent]   // an outlet stands within reach, and which kind
	Configuration Known[Configuration]   // face of the receptacle
	BreakerAmps   Known[unit.Amps]       // rating on the handle of its breaker, A
	Volts         Known[unit.Volts]      // nominal voltage at the outlet, V
	SharedWith    Known[Sharing]         // what else the circuit carries
	CurrentUse    Known[CurrentUse]      // how a car is charged there today
	Condition     Known[OutletCondition] // faults seen
	Grade         Known[OutletGrade]     // how heavily it is built
	GFCI          Known[bool]            // ground-fault protection stands upstream or in the face
	InUseCover    Known[bool]            // a cover keeps rain out while a plug is in
	Location      Known[OutletLocation]  // kind of place it stands in
	ReachFeet     Known[unit.Feet]       // from the outlet to the inlet along the cord's path, ft
	WireAWG       Known[WireSize]        // size of the circuit's conductors
	WireMaterial  Known[WireMaterial]    // metal of the circuit's conductors
	WireMethod    Known[WireMethod]      // how they are run
	AgeYears      Known[float64]         // age of the outlet, y
}

func outletLeaves(prefix string, at func(*Facts) *Outlet) []*Leaf {
	return []*Leaf{
		choice(prefix+".present", "OutletPresent", outletPresentWords, func(f *Facts) *Known[OutletPresent] { return &at(f).Present }),
		choice(prefix+".configuration", "Configuration", configurationWords, func(f *Facts) *Known[Configuration] { return &at(f).Configuration }),
		number(prefix+".breaker_amps", "A", 10, 125, 0, func(f *Facts) *Known[unit.Amps] { return &at(f).BreakerAmps }),
		number(prefix+".volts", "V", 120, 240, 0, func(f *Facts) *Known[unit.Volts] { return &at(f).Volts }).oneOf(120, 208, 240),
		choice(prefix+".shared_with", "Sharing", sharingWords, func(f *Facts) *Known[Sharing] { return &at(f).SharedWith }),
		choice(prefix+".current_use", "CurrentUse", currentUseWords, func(f *Facts) *Known[CurrentUse] { return &at(f).CurrentUse }),
		set(prefix+".condition", "OutletCondition", outletConditionWords, func(f *Facts) *Known[OutletCondition] { return &at(f).Condition }),
		choice(prefix+".grade", "OutletGrade", outletGradeWords, func(f *Facts) *Known[OutletGrade] { return &at(f).Grade }),
		flag(prefix+".gfci", func(f *Facts) *Known[bool] { return &at(f).GFCI }),
		flag(prefix+".in_use_cover", func(f *Facts) *Known[bool] { return &at(f).InUseCover }),
		choice(prefix+".location", "OutletLocation", outletLocationWords, func(f *Facts) *Known[OutletLocation] { return &at(f).Location }),
		number(prefix+".reach_feet", "ft", 0, 150, 1, func(f *Facts) *Known[unit.Feet] { return &at(f).ReachFeet }),
		choice(prefix+".wire_awg", "WireSize", wireSizeWords, func(f *Facts) *Known[WireSize] { return &at(f).WireAWG }),
		choice(prefix+".wire_material", "WireMaterial", wireMaterialWords, func(f *Facts) *Known[WireMaterial] { return &at(f).WireMaterial }),
		choice(prefix+".wire_method", "WireMethod", wireMethodWords, func(f *Facts) *Known[WireMethod] { return &at(f).WireMethod }),
		number(prefix+".age_years", "y", 0, 120, 0, func(f *Facts) *Known[float64] { return &at(f).AgeYears }),
	}
}
