package facts

import "daybreak/internal/unit"

func (f *Facts) derivePanel() {
	p := &f.Panel
	f.deriveSupply()
	if amps, ok := p.ServiceAmps.Get(); ok {
		fill(&p.MainBreakerAmps, amps, FromAnotherAnswer)
		fill(&p.ServiceConductorAmps, amps, FromAnotherAnswer)
		fill(&p.MeterLimitAmps, amps, FromAnotherAnswer)
		// With solar or a battery the bars are asked for, and may be larger.
		if p.BackfeedKind.Is(BackfeedKindNone) {
			fill(&p.BusAmps, amps, FromAnotherAnswer)
		}
	}
	fill(&p.TerminalsC, 60, FromCodeRule)
	fill(&p.TandemAllowed, false, FromSaferReading)
	fill(&p.SmallApplianceCircuits, 2, FromCodeRule)
	fill(&p.LaundryCircuits, 1, FromCodeRule)
	if crowding, ok := p.crowding(); ok {
		fill(&p.Crowding, crowding, FromAnotherAnswer)
	}
	p.deriveHeat()
	for _, s := range loadSlots {
		if load := s.at(&p.Loads); load.Fuel.Is(FuelElectric) {
			fill(&load.Count, 1, FromUsualPractice)
		}
	}
}

// deriveSupply fills what the kind of home says about voltage, meter and who
// may approve the work.
func (f *Facts) deriveSupply() {
	kind, known := f.Place.DwellingKind.Get()
	if !known {
		return
	}
	p := &f.Panel
	if kind != DwellingKindFlat && kind != DwellingKindOther {
		fill(&p.SupplyVolts, 240, FromUsualPractice)
	}
	if kind == DwellingKindHouse {
		fill(&p.MeterOwner, MeterOwnerOwn, FromUsualPractice)
	}
	tenure, known := f.Place.Tenure.Get()
	if !known {
		return
	}
	switch {
	case kind == DwellingKindMobile:
		fill(&p.Approver, ApproverPark, FromUsualPractice)
	case tenure == TenureRent:
		fill(&p.Approver, ApproverLandlord, FromAnotherAnswer)
	case tenure == TenureAssoc || kind == DwellingKindFlat:
		fill(&p.Approver, ApproverAssociation, FromAnotherAnswer)
	case kind != DwellingKindOther:
		fill(&p.Approver, ApproverSelf, FromAnotherAnswer)
	}
}

func (p *Panel) crowding() (Crowding, bool) {
	if protection, ok := p.Protection.Get(); ok && protection != ProtectionBreakers {
		return CrowdingObsoleteType, true
	}
	spaces, ok := p.FreeFullSpaces.Get()
	if spaces < 2 {
		return CrowdingCrowded, ok
	}
	return CrowdingTidy, ok
}

// deriveHeat takes the heat from its breakers: a heater's breaker is at least
// 125 % of its current (NEC 424.3(B)).
func (p *Panel) deriveHeat() {
	kind, known := p.HeatKind.Get()
	if !known {
		return
	}
	if kind == HeatKindBaseboard {
		fill(&p.HeatUnits, 7, FromClassPrior)
	}
	resistance := kind == HeatKindHpStrips || kind == HeatKindFurnace || kind == HeatKindBaseboard
	amps, ampsKnown := p.HeatBreakerAmps.Get()
	volts, voltsKnown := p.SupplyVolts.Get()
	if resistance && ampsKnown && voltsKnown {
		fill(&p.HeatWatts, unit.Watts(float64(amps)*float64(volts)/1.25), FromAnotherAnswer)
	}
}
