package panel

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Era gives the era of a year of construction, for [Home].
func (p *Priors) Era(year int) Era {
	for i, e := range p.doc.Eras {
		if year < e.Before {
			return Era(i + 1)
		}
	}
	return Era(len(p.doc.Eras))
}

// overEras is a value per era: that of the home's, or the mean over the stock
// of homes where the era is unknown.
func (p *Priors) overEras(e Era, at func(i int) float64) float64 {
	if e >= 1 && int(e) <= eraCount {
		return at(int(e) - 1)
	}
	mean := 0.0
	for i := range eraCount {
		mean += p.doc.Eras[i].Stock * at(i)
	}
	return mean
}

// ServiceAmps is the rating of the service, or of the feeder to a flat.
//
// Source: engineering judgement from the history of the code, level checked
// against national and California surveys.
func (p *Priors) ServiceAmps(h Home) Distribution[unit.Amps] {
	t := &p.service[min(h.Dwelling, OtherDwelling)]
	d := make(Distribution[unit.Amps], len(t.Amps))
	for c, amps := range t.Amps {
		d[c].Value = unit.Amps(amps)
		d[c].P = p.overEras(h.Era, func(i int) float64 { return t.Shares[i][c] })
	}
	s := &p.doc.Service.Shift
	tilt := func(when Told, factor float64, in func(a unit.Amps) bool) {
		if when == ToldYes {
			d.tilt(factor, in)
		}
	}
	tilt(h.ElectricHeat, s.Heat, func(a unit.Amps) bool { return a >= 200 })
	tilt(saidIf(h.FloorArea > 3000), s.Large, func(a unit.Amps) bool { return a >= 200 })
	tilt(saidIf(h.FloorArea > 0 && h.FloorArea < 1200), s.Small, func(a unit.Amps) bool { return a <= 100 })
	tilt(h.Source, s.Source, func(a unit.Amps) bool { return a == 200 })
	tilt(saidIf(h.Region == California), s.California, func(a unit.Amps) bool { return a == 100 })
	tilt(h.SpaOrPool, s.Spa, func(a unit.Amps) bool { return a == 200 })
	return d
}

func saidIf(x bool) Told {
	if x {
		return ToldYes
	}
	return Unsaid
}

// tilt multiplies the odds of the values picked and keeps the sum at one.
func (d Distribution[T]) tilt(factor float64, in func(T) bool) {
	sum := 0.0
	for i := range d {
		if in(d[i].Value) {
			d[i].P *= factor
		}
		sum += d[i].P
	}
	if sum == 0 {
		return
	}
	for i := range d {
		d[i].P /= sum
	}
}

// HeatSort is what heats a home, in the words of the facts.
type HeatSort uint8

// The sorts of heat.
const (
	FuelHeat HeatSort = iota
	SortHeatPump
	SortHeatPumpStrips
	SortFurnace
	SortBaseboard
	SortDuctless
)

// String is the word of the facts.
func (s HeatSort) String() string {
	return nameOf([]string{"fuel", "heat_pump", "hp_strips", "furnace", "baseboard", "ductless"}, int(s))
}

// ElectricHeat is the share of such homes whose main heat is electric. What
// was told stands.
//
// Source: EIA RECS 2015 table HC1.6 by zone, computed; by era, engineering judgement.
func (p *Priors) ElectricHeat(h Home) float64 {
	switch h.ElectricHeat {
	case ToldNo:
		return 0
	case ToldYes:
		return 1
	}
	base := p.share[shareHeat][h.Zone.known()]
	factor := p.overEras(h.Era, func(i int) float64 { return p.doc.Fuel.ByEra[i] })
	if h.Era == 0 {
		return base // the zone's share already is the mean over the stock
	}
	odds := base / (1 - base) * factor
	return odds / (1 + odds)
}

// Heat is what heats the home. A home told to have electric heat is split over
// the electric sorts.
//
// Source: RECS 2015; the sorts are engineering judgement.
func (p *Priors) Heat(h Home) Distribution[HeatSort] {
	e, row, strips := p.ElectricHeat(h), p.heat[h.Zone.known()], p.doc.Heat.Strips
	return Distribution[HeatSort]{
		{FuelHeat, 1 - e},
		{SortHeatPump, e * row[0] * (1 - strips)}, {SortHeatPumpStrips, e * row[0] * strips},
		{SortFurnace, e * row[1]}, {SortBaseboard, e * row[2]}, {SortDuctless, e * row[3]},
	}
}

// CoolSort is what cools a home, in the words of the facts.
type CoolSort uint8

// The sorts of cooling.
const (
	NoCooling CoolSort = iota
	WindowUnits
	CentralCooling
	MiniSplit
)

// String is the word of the facts.
func (s CoolSort) String() string {
	return nameOf([]string{"none", "window", "central", "mini"}, int(s))
}

// Cooling is what cools the home.
//
// Source: RECS 2015 table HC1.6 by zone; the sorts are engineering judgement.
func (p *Priors) Cooling(h Home) Distribution[CoolSort] {
	have, c := p.share[shareCooling][h.Zone.known()], &p.doc.Cooling
	return Distribution[CoolSort]{{NoCooling, 1 - have}, {WindowUnits, have * c.Window}, {CentralCooling, have * c.Central}, {MiniSplit, have * c.Mini}}
}

// Electric is the share of such homes where a load runs on electricity and is
// there at all. Loads without a prior are 0: they count only when told.
//
// Source: RECS 2015 for water and cooking; the rest from memory.
func (p *Priors) Electric(k LoadKind, h Home) float64 {
	switch k {
	case Range:
		return p.share[shareCooking][h.Zone.known()]
	case WaterHeater:
		return p.share[shareWater][h.Zone.known()]
	case Dryer:
		return p.doc.Dryer.Have * p.dryer[min(h.Region, regionCount-1)]
	}
	if k >= loadKinds {
		return 0
	}
	return p.chance[k]
}

// Tankless is the share of electric water heaters that have no tank.
//
// Source: from memory.
func (p *Priors) Tankless() float64 { return p.doc.Tankless }

// Source is what feeds back.
//
// Source: from memory; it grows yearly.
func (p *Priors) Source(h Home) Distribution[SourceKind] {
	have := p.solar[min(h.Region, regionCount-1)]
	switch h.Source {
	case ToldNo:
		have = 0
	case ToldYes:
		have = 1
	}
	k := p.doc.Source.Kinds
	return Distribution[SourceKind]{{NoSource, 1 - have}, {Solar, have * k[0]}, {Battery, have * k[1]}, {SolarAndBattery, have * k[2]}}
}

// FreePair is the share of panels with two free full-size spaces side by side.
//
// Source: engineering judgement.
func (p *Priors) FreePair(h Home, service unit.Amps) float64 {
	byEra := p.overEras(h.Era, func(i int) float64 { return p.doc.FreePair.ByEra[i] })
	rows := p.doc.FreePair.ByService
	byService := rows[0][1]
	if row := rowFor(rows, float64(service)); row != nil {
		byService = row[1]
	}
	return (byEra + byService) / 2
}

// FreeSpaces is how many full-size spaces are free; 4 stands for more as well.
//
// Source: the pair from [Priors.FreePair]; engineering judgement.
func (p *Priors) FreeSpaces(h Home, service unit.Amps) Distribution[int] {
	pair := p.FreePair(h, service)
	d := make(Distribution[int], len(p.doc.FreeSpaces.Pair))
	for n := range d {
		d[n] = Chance[int]{n, pair*p.doc.FreeSpaces.Pair[n] + (1-pair)*p.doc.FreeSpaces.Without[n]}
	}
	return d
}

// TandemFreesPair is the share of full panels where tandems may free a pair.
//
// Source: engineering judgement.
func (p *Priors) TandemFreesPair() float64 { return p.doc.FreePair.Tandem }

// Fuses is the share of panels with fuses.
//
// Source: engineering judgement.
func (p *Priors) Fuses(h Home) float64 {
	return p.overEras(h.Era, func(i int) float64 { return p.doc.Fuses.ByEra[i] })
}

// FailureList is the share of panels on a list of those known to fail to trip.
//
// Source: engineering judgement.
func (p *Priors) FailureList(h Home) float64 {
	return p.overEras(h.Era, func(i int) float64 { return p.doc.Failure.ByEra[i] })
}

// Supply208 is the share of homes supplied at 208 V.
//
// Source: engineering judgement.
func (p *Priors) Supply208(h Home) float64 { return p.doc.Wye.of(h.Dwelling) }

// OutletNear is the share of homes with any outlet within 20 ft of parking.
//
// Source: RECS 2020 for all homes; the split is engineering judgement.
func (p *Priors) OutletNear(h Home) float64 { return p.doc.OutletNear.of(h.Dwelling) }

// Garage says whether the car parks in a garage of the house.
type Garage uint8

// The kinds of parking a large outlet depends on.
const (
	OtherParking Garage = iota
	AttachedGarage
)

// LargeOutlet is the share of homes with a 240 V outlet in reach of the car.
//
// Source: engineering judgement.
func (p *Priors) LargeOutlet(h Home, g Garage) float64 {
	if g == AttachedGarage && h.Dwelling == House {
		return p.overEras(h.Era, func(i int) float64 { return p.doc.LargeOutlet.Garage[i] })
	}
	return p.doc.LargeOutlet.of(h.Dwelling)
}

// OutletKinds is the face of a large outlet that is there.
//
// Source: engineering judgement.
func (p *Priors) OutletKinds() Distribution[string] {
	return append(Distribution[string](nil), p.outlets...)
}

// Distance is feet from the panel to the car: low, likely, high.
type Distance struct{ Low, Likely, High unit.Feet }

// PanelToParking is how far the panel is from the car.
//
// Source: engineering judgement.
func (p *Priors) PanelToParking() Distribution[Distance] {
	d := make(Distribution[Distance], len(p.doc.Parking.Rows))
	for i, row := range p.doc.Parking.Rows {
		d[i] = Chance[Distance]{Distance{unit.Feet(row[1]), unit.Feet(row[2]), unit.Feet(row[3])}, row[0]}
	}
	return d
}

// AluminiumBranch is the share of homes of a year with aluminium branch wiring.
//
// Source: engineering judgement; about two million homes by 1974 (CPSC).
func (p *Priors) AluminiumBranch(year int) float64 {
	if a := &p.doc.Aluminium; year >= a.From && year <= a.To {
		return a.Share
	}
	return 0
}

// ServiceSource is where the service-size prior comes from, for the working of
// a drawn service.
func (p *Priors) ServiceSource() working.Source {
	return working.Source{Publication: "service size by era and dwelling", Status: working.Status(p.doc.Service.Status)}
}
