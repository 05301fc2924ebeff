package facts

import "daybreak/internal/unit"

// Wishes is what the household asks for; never a need.
type Wishes struct {
	Connection        Known[Connection]        // plug in or wired in
	OutputAmps        Known[unit.Amps]         // current the driver asks for; never a need, A
	SecondVehicle     Known[SecondVehicleWish] // a second electric car here
	Networked         Known[NetworkWish]       // seen and set from a phone
	ManagedCharging   Known[bool]              // willing to let the utility shift charging
	BudgetMinor       Known[int64]             // price to stay under, in minor units of the shop's currency
	Timing            Known[Timing]            // when it must work
	DoItMyself        Known[bool]              // the household means to do the work itself
	BringOwnEquipment Known[bool]              // the household brings its own equipment
}

func wishesLeaves() []*Leaf {
	return []*Leaf{
		choice("wishes.connection", "Connection", connectionWords, func(f *Facts) *Known[Connection] { return &f.Wishes.Connection }),
		number("wishes.output_amps", "A", 6, 80, 1, func(f *Facts) *Known[unit.Amps] { return &f.Wishes.OutputAmps }),
		choice("wishes.second_vehicle", "SecondVehicleWish", secondVehicleWishWords, func(f *Facts) *Known[SecondVehicleWish] { return &f.Wishes.SecondVehicle }),
		choice("wishes.networked", "NetworkWish", networkWishWords, func(f *Facts) *Known[NetworkWish] { return &f.Wishes.Networked }),
		flag("wishes.managed_charging", func(f *Facts) *Known[bool] { return &f.Wishes.ManagedCharging }),
		money("wishes.budget_minor", 0, 2000000, func(f *Facts) *Known[int64] { return &f.Wishes.BudgetMinor }),
		choice("wishes.timing", "Timing", timingWords, func(f *Facts) *Known[Timing] { return &f.Wishes.Timing }),
		flag("wishes.do_it_myself", func(f *Facts) *Known[bool] { return &f.Wishes.DoItMyself }),
		flag("wishes.bring_own_equipment", func(f *Facts) *Known[bool] { return &f.Wishes.BringOwnEquipment }),
	}
}
