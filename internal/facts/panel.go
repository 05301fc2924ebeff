package facts

import "daybreak/internal/unit"

// Panel is the service, the panel and what they carry.
type Panel struct {
	Location                Known[PanelLocation]  // where the breaker box stands
	Protection              Known[Protection]     // breakers or fuses
	ServiceAmps             Known[unit.Amps]      // rating of the service, A
	MainBreakerAmps         Known[unit.Amps]      // rating of the main breaker, A
	BusAmps                 Known[unit.Amps]      // rating of the bus bars, A
	ServiceConductorAmps    Known[unit.Amps]      // rating of the service conductors, A
	MeterLimitAmps          Known[unit.Amps]      // limit of meter and utility supply, A
	SupplyVolts             Known[unit.Volts]     // line-to-line voltage, V
	TerminalsC              Known[unit.Celsius]   // temperature the terminals are marked for, °C
	FreeFullSpaces          Known[int]            // empty full-size breaker spaces
	TandemPresent           Known[bool]           // half-size breakers are in use
	TandemAllowed           Known[bool]           // the label permits half-size breakers
	BreakerListingKnown     Known[bool]           // the breakers listed for the panel are known
	Crowding                Known[Crowding]       // how hard it is to work in
	Trouble                 Known[PanelTrouble]   // troubles at the panel or service
	HeatKind                Known[HeatKind]       // main heat
	HeatBreakerAmps         Known[unit.Amps]      // sum of the heat breakers, A
	HeatWatts               Known[unit.Watts]     // resistance heat, W
	HeatPumpWatts           Known[unit.Watts]     // compressor of the heat pump, W
	HeatUnits               Known[int]            // separately controlled heaters
	CoolKind                Known[CoolKind]       // how the home is cooled
	CoolWatts               Known[unit.Watts]     // cooling load, W
	SmallApplianceCircuits  Known[int]            // small-appliance branch circuits
	LaundryCircuits         Known[int]            // laundry branch circuits
	MeasuredPeakKW          Known[unit.Kilowatts] // largest measured demand, kW
	MeasuredIntervalMinutes Known[int]            // interval it was averaged over
	MeasuredMonths          Known[int]            // months the record covers
	LoadAddedSince          Known[bool]           // load was added after that record
	BackfeedKind            Known[BackfeedKind]   // what else feeds the panel
	BackfeedAmps            Known[unit.Amps]      // breaker of that source, A
	BackfeedAtFarEnd        Known[bool]           // that breaker stands at the far end from the main
	SubpanelNearCar         Known[bool]           // a smaller breaker box stands near the car
	SubpanelFeederAmps      Known[unit.Amps]      // breaker that feeds it, A
	SubpanelFeederWires     Known[int]            // wires of that feeder
	ReadyForCar             Known[ReadyForCar]    // what was left for a car
	MeterOwner              Known[MeterOwner]     // whose meter it is
	MeterLocation           Known[MeterLocation]  // where the meter stands
	Approver                Known[Approver]       // who may approve the work
	Loads                   Loads                 // one slot per kind of appliance
}

func panelLeaves() []*Leaf {
	leaves := []*Leaf{
		choice("panel.location", "PanelLocation", panelLocationWords, func(f *Facts) *Known[PanelLocation] { return &f.Panel.Location }),
		choice("panel.protection", "Protection", protectionWords, func(f *Facts) *Known[Protection] { return &f.Panel.Protection }),
		number("panel.service_amps", "A", 30, 400, 0, func(f *Facts) *Known[unit.Amps] { return &f.Panel.ServiceAmps }),
		number("panel.main_breaker_amps", "A", 30, 400, 0, func(f *Facts) *Known[unit.Amps] { return &f.Panel.MainBreakerAmps }),
		number("panel.bus_amps", "A", 30, 400, 0, func(f *Facts) *Known[unit.Amps] { return &f.Panel.BusAmps }),
		number("panel.service_conductor_amps", "A", 30, 400, 0, func(f *Facts) *Known[unit.Amps] { return &f.Panel.ServiceConductorAmps }),
		number("panel.meter_limit_amps", "A", 30, 400, 0, func(f *Facts) *Known[unit.Amps] { return &f.Panel.MeterLimitAmps }),
		number("panel.supply_volts", "V", 208, 240, 0, func(f *Facts) *Known[unit.Volts] { return &f.Panel.SupplyVolts }).oneOf(208, 240),
		number("panel.terminals_c", "°C", 60, 75, 0, func(f *Facts) *Known[unit.Celsius] { return &f.Panel.TerminalsC }).oneOf(60, 75),
		whole("panel.free_full_spaces", "", 0, 42, func(f *Facts) *Known[int] { return &f.Panel.FreeFullSpaces }),
		flag("panel.tandem_present", func(f *Facts) *Known[bool] { return &f.Panel.TandemPresent }),
		flag("panel.tandem_allowed", func(f *Facts) *Known[bool] { return &f.Panel.TandemAllowed }),
		flag("panel.breaker_listing_known", func(f *Facts) *Known[bool] { return &f.Panel.BreakerListingKnown }),
		choice("panel.crowding", "Crowding", crowdingWords, func(f *Facts) *Known[Crowding] { return &f.Panel.Crowding }),
		set("panel.trouble", "PanelTrouble", panelTroubleWords, func(f *Facts) *Known[PanelTrouble] { return &f.Panel.Trouble }),
		choice("panel.heat_kind", "HeatKind", heatKindWords, func(f *Facts) *Known[HeatKind] { return &f.Panel.HeatKind }),
		number("panel.heat_breaker_amps", "A", 15, 200, 0, func(f *Facts) *Known[unit.Amps] { return &f.Panel.HeatBreakerAmps }),
		number("panel.heat_watts", "W", 0, 60000, 0, func(f *Facts) *Known[unit.Watts] { return &f.Panel.HeatWatts }),
		number("panel.heat_pump_watts", "W", 0, 15000, 0, func(f *Facts) *Known[unit.Watts] { return &f.Panel.HeatPumpWatts }),
		whole("panel.heat_units", "", 0, 30, func(f *Facts) *Known[int] { return &f.Panel.HeatUnits }),
		choice("panel.cool_kind", "CoolKind", coolKindWords, func(f *Facts) *Known[CoolKind] { return &f.Panel.CoolKind }),
		number("panel.cool_watts", "W", 0, 20000, 0, func(f *Facts) *Known[unit.Watts] { return &f.Panel.CoolWatts }),
		whole("panel.small_appliance_circuits", "", 2, 10, func(f *Facts) *Known[int] { return &f.Panel.SmallApplianceCircuits }),
		whole("panel.laundry_circuits", "", 0, 3, func(f *Facts) *Known[int] { return &f.Panel.LaundryCircuits }),
		number("panel.measured_peak_kw", "kW", 1, 60, 2, func(f *Facts) *Known[unit.Kilowatts] { return &f.Panel.MeasuredPeakKW }),
		whole("panel.measured_interval_minutes", "min", 15, 60, func(f *Facts) *Known[int] { return &f.Panel.MeasuredIntervalMinutes }).oneOf(15, 30, 60),
		whole("panel.measured_months", "months", 0, 36, func(f *Facts) *Known[int] { return &f.Panel.MeasuredMonths }),
		flag("panel.load_added_since", func(f *Facts) *Known[bool] { return &f.Panel.LoadAddedSince }),
		choice("panel.backfeed_kind", "BackfeedKind", backfeedKindWords, func(f *Facts) *Known[BackfeedKind] { return &f.Panel.BackfeedKind }),
		number("panel.backfeed_amps", "A", 10, 200, 0, func(f *Facts) *Known[unit.Amps] { return &f.Panel.BackfeedAmps }),
		flag("panel.backfeed_at_far_end", func(f *Facts) *Known[bool] { return &f.Panel.BackfeedAtFarEnd }),
		flag("panel.subpanel_near_car", func(f *Facts) *Known[bool] { return &f.Panel.SubpanelNearCar }),
		number("panel.subpanel_feeder_amps", "A", 15, 200, 0, func(f *Facts) *Known[unit.Amps] { return &f.Panel.SubpanelFeederAmps }),
		whole("panel.subpanel_feeder_wires", "", 2, 4, func(f *Facts) *Known[int] { return &f.Panel.SubpanelFeederWires }).oneOf(2, 3, 4),
		choice("panel.ready_for_car", "ReadyForCar", readyForCarWords, func(f *Facts) *Known[ReadyForCar] { return &f.Panel.ReadyForCar }),
		choice("panel.meter_owner", "MeterOwner", meterOwnerWords, func(f *Facts) *Known[MeterOwner] { return &f.Panel.MeterOwner }),
		choice("panel.meter_location", "MeterLocation", meterLocationWords, func(f *Facts) *Known[MeterLocation] { return &f.Panel.MeterLocation }),
		choice("panel.approver", "Approver", approverWords, func(f *Facts) *Known[Approver] { return &f.Panel.Approver }),
	}
	return append(leaves, loadsLeaves()...)
}
