package quote

import (
	"daybreak/internal/charging"
	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/shop"
	"daybreak/internal/unit"
)

// home is a household in the engines' own words: every value known, nothing
// that could be missing.
type home struct {
	facts    *facts.Facts
	books    *shop.Books
	asOf     unit.Date
	locality shop.Locality
	served   bool // the postal code is one the shop serves; else its own town stands in
	year     int  // of the code edition in force
	ed       edition.Edition
	rules    *panel.Rules
	place    pricing.Place

	car     car
	window  unit.Hours
	january unit.Fahrenheit
	supply  unit.Volts // what a two-pole circuit gives here
	where   edition.Place
	route   route
	load    panel.Input // of the house, without the charger
	existing
	mayWire bool // new wire may be planned at all
}

// car is the first vehicle as charging sees it.
type car struct {
	usable     unit.KilowattHours
	wallPer100 float64 // kWh at the wall for 100 miles, label figure
	onboardKW  unit.Kilowatts
	acAmps     unit.Amps
	inlet      string
	hybrid     bool
	miles      unit.Miles
}

// existing is what stands there already.
type existing struct {
	owned      bool
	ownedAmps  unit.Amps
	ownedMeans facts.SettingMeans
	ownedPlug  string
	ownedConn  string
}

// route is the way from panel to charger, for the designer and for the bill.
type route struct {
	circuit   circuit.Route
	ambient   unit.Celsius
	structure circuit.Structure
	feet      unit.Feet
	trench    bool
	concrete  bool
	terminals edition.Marking
}

// furnish brings a household into the engines' words. The error is a fault
// naming the first leaf that had no value.
func furnish(books *shop.Books, f *facts.Facts, asOf unit.Date) (*home, error) {
	h := &home{facts: f, books: books, asOf: asOf}
	var r reader
	h.town(&r)
	if err := r.err(); err != nil {
		return nil, err
	}
	var err error
	if h.ed, err = books.EditionIn(or(f.Place.Jurisdiction, h.locality.Jurisdiction), h.year); err != nil {
		return nil, err
	}
	if h.rules, err = books.Load.Rules(h.year); err != nil {
		return nil, err
	}
	if h.place, err = books.PriceAt(h.locality.PostalCode, asOf); err != nil {
		return nil, err
	}
	h.readCar(&r)
	h.readRoute(&r)
	h.readPanel(&r)
	h.readEquipment()
	h.mayWire = !f.Place.Permission.Is(facts.PermissionRefused) && !f.Place.Parking.Is(facts.ParkingStreet)
	return h, r.err()
}

func (h *home) town(r *reader) {
	p := &h.facts.Place
	postal := take(r, p.PostalCode, "place.postal_code")
	permit := h.asOf
	if d, ok := p.PermitDate.Get(); ok {
		permit, _ = unit.ParseDate(d.String())
	}
	h.locality, h.served = h.books.Jurisdictions.At(postal, permit)
	if !h.served {
		own := h.books.Prices.Home(h.asOf).PostalCode
		h.locality, _ = h.books.Jurisdictions.At(own, permit)
	}
	h.locality.PostalCode = postal
	h.year = editionYear(take(r, p.CodeEdition, "place.code_edition"))
	h.january = take(r, p.JanuaryMeanF, "place.january_mean_f")
}

// editionYear is the year a code edition is named for.
func editionYear(e facts.CodeEdition) int {
	return map[facts.CodeEdition]int{
		facts.CodeEdition2017: 2017, facts.CodeEdition2020: 2020,
		facts.CodeEdition2023: 2023, facts.CodeEdition2026: 2026,
	}[e]
}

func (h *home) readCar(r *reader) {
	v, d := &h.facts.Vehicle, &h.facts.Driving
	h.car = car{
		usable:     take(r, v.UsableKWh, "vehicle.usable_kwh"),
		wallPer100: take(r, v.WallKWhPer100Mi, "vehicle.wall_kwh_per_100mi"),
		onboardKW:  take(r, v.OnboardChargerKW, "vehicle.onboard_charger_kw"),
		acAmps:     take(r, v.MaxACAmps, "vehicle.max_ac_amps"),
		inlet:      take(r, v.Inlet, "vehicle.inlet").String(),
		hybrid:     take(r, v.PetrolBackup, "vehicle.petrol_backup"),
		miles:      take(r, d.WeekdayMiles, "driving.weekday_miles"),
	}
	home := take(r, d.HomeByHour, "driving.home_by_hour")
	leave := take(r, d.LeaveByHour, "driving.leave_by_hour")
	h.window = unit.Hours(leave - home)
	for h.window <= 0 {
		h.window += 24 // home at 24, away at 0 is twice round
	}
}

func (h *home) readEquipment() {
	e := &h.facts.Equipment
	h.owned = e.Owned.Is(true)
	if !h.owned {
		return
	}
	h.ownedAmps = or(e.RatingAmps, 0)
	h.ownedMeans = or(e.SettingMeans, facts.SettingMeansNone)
	if plug, ok := e.Plug.Get(); ok && plug != facts.EquipmentPlugNone {
		h.ownedPlug = plug.String()
	}
	if c, ok := e.Connector.Get(); ok {
		h.ownedConn = c.String()
	}
}

// rate is the power this car would draw on some equipment.
func (w *weighing) rate(volts unit.Volts, breaker, receptacle, setting unit.Amps) (charging.Rate, error) {
	limits := charging.Limits{
		Supply:      volts,
		Breaker:     charging.At(breaker),
		Receptacle:  charging.None[unit.Amps](),
		Setting:     charging.At(setting),
		Cable:       charging.None[unit.Amps](),
		Managed:     charging.None[unit.Amps](),
		OnboardKW:   charging.At(w.car.onboardKW),
		OnboardAmps: charging.At(w.car.acAmps),
	}
	if receptacle > 0 {
		limits.Receptacle = charging.At(receptacle)
	}
	return charging.Power(limits, w.full)
}
