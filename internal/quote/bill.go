package quote

import (
	"math"

	"daybreak/internal/charging"
	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/pricing"
	"daybreak/internal/unit"
)

// equipment is the class of charging equipment an option takes: the driver's
// own where it fits, else the cheapest the shop sells.
func (w *weighing) equipment(o *Option, plug string) pricing.Equipment {
	e := pricing.Equipment{
		Supply:    pricing.ShopSupplies,
		Setting:   o.Setting,
		Plug:      plug,
		Connector: w.car.inlet,
		Networked: w.facts.Wishes.Networked.Is(facts.NetworkWishYes),
		Managed:   o.Managed,
		Locked:    true,
		Level:     2,
	}
	if o.Volts == 120 {
		e.Level, e.Locked, e.Setting = 1, false, 0
		if w.ownsCordSet() {
			e.Supply = pricing.NoEquipment
		}
		return e
	}
	if w.owned && w.ownedFits(o, plug) {
		e.Supply = pricing.BuyerSupplies
	}
	return e
}

// ownsCordSet reports whether a 120 V cord set is there already.
func (w *weighing) ownsCordSet() bool {
	cord, ok := w.facts.Vehicle.SuppliedCord.Get()
	return ok && cord != facts.SuppliedCordNone || w.owned && faceLevel(w.ownedPlug) == 1
}

// ownedFits reports whether the driver's own equipment can serve an option: a
// plug-in unit at an outlet, rated for the setting or locked down to it. Its
// cord may need the maker's other plug; see askPlug.
func (w *weighing) ownedFits(o *Option, plug string) bool {
	if o.Managed || faceLevel(w.ownedPlug) != levelOf(plug) {
		return false
	}
	return w.ownedAmps == o.Setting || w.ownedAmps > o.Setting && w.ownedMeans == facts.SettingMeansRestricted
}

// levelOf is the level of a plug; hardwired equipment has none.
func levelOf(plug string) int {
	if plug == "" {
		return -1
	}
	return faceLevel(plug)
}

// ownedPlugFor is the configuration a new receptacle must have for the
// driver's own equipment; "" leaves it to the designer.
func (w *weighing) ownedPlugFor(setting unit.Amps, volts unit.Volts) string {
	if w.owned && volts > 120 && faceLevel(w.ownedPlug) == 2 && w.ownedAmps >= setting {
		return w.ownedPlug
	}
	return ""
}

// equipmentRating is the plate of the equipment the shop would sell for a
// setting; the setting itself when it sells none.
func (w *weighing) equipmentRating(o *Option) unit.Amps {
	if o.Volts == 120 {
		return o.Setting
	}
	if !o.Managed && o.Way == NewReceptacle && w.ownedPlugFor(o.Setting, o.Volts) != "" {
		return w.ownedAmps
	}
	offer, ok := w.books.Prices.Offer(pricing.Equipment{
		Supply: pricing.ShopSupplies, Level: 2, Setting: o.Setting, Connector: w.car.inlet, Locked: true,
		Plug: plugFor(o.Way, o.Setting), Managed: o.Managed, Networked: w.facts.Wishes.Networked.Is(facts.NetworkWishYes),
	})
	if !ok {
		return o.Setting
	}
	return offer.Output
}

// plugFor is the face the shop's plug-in equipment comes with at a setting.
//
// Source: common practice, NEMA configurations by circuit rating.
func plugFor(way Way, setting unit.Amps) string {
	switch {
	case way == Hardwired:
		return ""
	case setting <= 16:
		return "6-20"
	case setting <= 24:
		return "14-30"
	}
	return "14-50"
}

// site is what neither circuit nor outlet knows of the work.
func (w *weighing) site(o *Option, plug string) pricing.Site {
	s := pricing.Site{
		Equipment:  w.equipment(o, plug),
		Conditions: w.conditions(),
		Firestops:  w.firestops(),
	}
	if o.Managed {
		s.Management = pricing.Management{Method: "measured_limit", Amps: o.Setting}
	}
	return s
}

// firestops counts the separations between garage and dwelling on the way.
func (w *weighing) firestops() int {
	n := 0
	if loc, ok := w.facts.Panel.Location.Get(); ok && w.facts.Place.Parking.Is(facts.ParkingAttached) && loc != facts.PanelLocationGarage {
		n++
	}
	if w.facts.Route.RatedWall.Is(true) {
		n++
	}
	return n
}

// conditions are the factors that make hours longer.
func (w *weighing) conditions() pricing.Conditions {
	f := w.facts
	c := pricing.Conditions{
		House:  "house.after_1990",
		Height: condition("height.", f.Route.WorkHeight, heights),
		Attic:  condition("attic.", f.Route.AtticKind, attics),
		Crawl:  condition("crawl.", f.Route.CrawlKind, crawls),
		Soil:   condition("soil.", f.Route.Soil, soils),
		Panel:  condition("panel.", f.Panel.Crowding, crowdings),
	}
	finish, _ := f.Route.WallFinish.Get()
	year, _ := f.Place.YearBuilt.Get()
	reported, _ := f.Place.Reported.Get()
	switch {
	case finish == facts.WallFinishPlaster || reported.Has(facts.ReportedKnobAndTube):
		c.House = "house.knob_and_tube_or_plaster"
	case year > 0 && year < 1960:
		c.House = "house.before_1960"
	case year > 0 && year <= 1990:
		c.House = "house.1960_1990"
	}
	if finish == facts.WallFinishBrick {
		c.Masonry = "masonry.block_or_brick"
	}
	return c
}

var (
	heights   = map[facts.WorkHeight]string{facts.WorkHeightTo8Ft: "to_8_ft", facts.WorkHeight812Ft: "8_12_ft", facts.WorkHeightOver12Ft: "over_12_ft"}
	attics    = map[facts.AtticKind]string{facts.AtticKindWalkable: "walkable", facts.AtticKindLowOrDeepInsulation: "low_or_deep_insulation"}
	crawls    = map[facts.CrawlKind]string{facts.CrawlKindOver30In: "over_30_in", facts.CrawlKind1830In: "18_30_in"}
	soils     = map[facts.Soil]string{facts.SoilLoam: "loam", facts.SoilClayOrRoots: "clay_or_roots", facts.SoilRockOrFrozen: "rock_or_frozen"}
	crowdings = map[facts.Crowding]string{facts.CrowdingTidy: "tidy", facts.CrowdingCrowded: "crowded", facts.CrowdingObsoleteType: "obsolete_type"}
)

func condition[T comparable](group string, k facts.Known[T], codes map[T]string) pricing.Condition {
	v, ok := k.Get()
	if !ok || codes[v] == "" {
		return ""
	}
	return pricing.Condition(group + codes[v])
}

// costOf ranks a candidate circuit by what its material and hours would cost.
func (w *weighing) costOf(c *circuit.Candidate) float64 {
	take := c.Takeoff(w.ed)
	site := pricing.Site{Conditions: w.conditions(), Firestops: w.firestops()}
	f, err := pricing.Estimate(w.books.Prices, pricing.FromTakeoff(&take, site), w.place)
	if err != nil {
		return math.Inf(1)
	}
	return float64(f.Total[pricing.Likely])
}

// priceCircuit prices a new circuit with its equipment.
func (w *weighing) priceCircuit(o *Option) error {
	o.Possible = w.mayWire
	if o.Circuit.Outcome != circuit.Designed {
		return nil
	}
	plug := ""
	if o.Way == NewReceptacle {
		plug = o.Circuit.Receptacle.Config
	}
	w.nameEquipment(o, plug)
	site := w.site(o, plug)
	work := pricing.FromCircuit(o.Circuit, site)
	if o.Feeder != nil {
		work = pricing.FromFeeder(o.Feeder, work, site)
	}
	o.Verify, o.Unpriced, o.Apart = nil, nil, nil
	w.sayBuried(o)
	if o.Panel != nil {
		work = w.joined(o, w.withSpaces(o, work))
	}
	if err := w.price(o, work); err != nil {
		return err
	}
	return w.inPlaceOfFuses(o)
}

// priceOutlet prices what would be made of an existing outlet.
func (w *weighing) priceOutlet(o *Option, j *judged) error {
	plug := o.OutletWay.Receptacle
	w.nameEquipment(o, plug)
	work, unpriced := pricing.FromOutlet(&o.OutletWay, w.site(o, plug))
	for range unpriced {
		o.Unpriced = append(o.Unpriced, Said("quote.unpriced.outlet_work"))
		break
	}
	if j.verdict.Word >= outlet.NeedsWork && len(o.OutletWay.Work) > 0 {
		o.SafeFirst = append(o.SafeFirst, Said("quote.first.put_right"))
	}
	if o.Adapter = w.needsAdapter(o, plug); o.Adapter {
		o.Verify = append(o.Verify, Said("quote.verify.adapter"))
	}
	if w.owned && o.Level == charging.Level2 && plug != "" && plug != w.ownedPlug {
		o.Verify = append(o.Verify, Said("quote.verify.plug"))
	}
	return w.price(o, work)
}

// needsAdapter reports whether the driver's own equipment ends in another
// connector than the car's inlet.
func (w *weighing) needsAdapter(o *Option, plug string) bool {
	return w.owned && o.Level == charging.Level2 && w.ownedFits(o, plug) && w.ownedConn != "" && w.ownedConn != w.car.inlet
}

func (w *weighing) nameEquipment(o *Option, plug string) {
	if !w.full.Keeping() {
		return
	}
	e := w.equipment(o, plug)
	if e.Supply != pricing.ShopSupplies {
		return
	}
	if offer, ok := w.books.Prices.Offer(e); ok {
		o.EquipmentCode = offer.Code
	}
}

// price makes the bill, or notes that the shop does not sell what it takes.
func (w *weighing) price(o *Option, work pricing.Work) error {
	var err error
	if !w.full.Keeping() {
		o.Bill.Figures, err = pricing.Estimate(w.books.Prices, work, w.place)
	} else {
		before := len(w.full.Steps)
		o.Bill, err = pricing.Price(w.books.Prices, work, w.place, w.full)
		if len(o.Bill.Lines) == 0 {
			w.full.Steps = w.full.Steps[:before] // nothing to buy, nothing to work out
		}
	}
	if f, ok := fault.As(err); ok && f.Kind == fault.KindInvalid {
		o.Priced = false
		return nil
	}
	if err != nil {
		return err
	}
	o.Priced, o.Price = true, o.Bill.AllIn
	return nil
}
