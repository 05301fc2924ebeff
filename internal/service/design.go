package service

import (
	"context"
	"errors"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/charging"
	"daybreak/internal/circuit"
	"daybreak/internal/fault"
	"daybreak/internal/panel"
	"daybreak/internal/pricing"
	"daybreak/internal/service/wire"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// designHandler answers one engine at a time: no session, nothing kept, every
// number with its working.
type designHandler struct {
	daybreakv1.UnsafeDesignServiceServer
	*handlers
}

// inRequest moves the faults of an engine to the fields of the request that
// its input came from: "circuit.volts" is "job.volts" there.
func inRequest(from, to string, err error) error {
	faults := fault.All(err)
	if len(faults) == 0 {
		return err
	}
	moved := make([]error, len(faults))
	for i, f := range faults {
		one := *f
		one.Field = to + "." + strings.TrimPrefix(f.Field, from+".")
		moved[i] = &one
	}
	return errors.Join(moved...)
}

func (h *designHandler) SizeCircuit(_ context.Context, req *daybreakv1.SizeCircuitRequest) (*daybreakv1.SizeCircuitResponse, error) {
	sheet := &working.Sheet{}
	job, result, err := h.design(req.GetJob(), sheet)
	if err != nil {
		return nil, err
	}
	design := h.wordsFor(req.GetLocale()).Design(&result, job.Setting, job.Volts, sheet.Steps)
	return &daybreakv1.SizeCircuitResponse{Design: design}, nil
}

func (h *handlers) design(m *daybreakv1.CircuitJob, sheet *working.Sheet) (circuit.Job, circuit.Result, error) {
	ed, err := h.books.Edition(wire.Year(m.GetEdition()))
	if err != nil {
		return circuit.Job{}, circuit.Result{}, inRequest("facts.place", "job", err)
	}
	job := wire.Job(m)
	result, err := circuit.Design(ed, job, sheet)
	return job, result, inRequest("circuit", "job", err)
}

func (h *designHandler) CalculateLoad(_ context.Context, req *daybreakv1.CalculateLoadRequest) (*daybreakv1.CalculateLoadResponse, error) {
	in, err := wire.LoadCase("case", req.GetCase(), h.books.Load)
	if err != nil {
		return nil, err
	}
	sheet := &working.Sheet{}
	result, err := panel.Calculate(in, sheet)
	if err != nil {
		return nil, inRequest("panel", "case", err)
	}
	return &daybreakv1.CalculateLoadResponse{Finding: h.wordsFor(req.GetLocale()).Panel(&result, sheet.Steps)}, nil
}

func (h *designHandler) EstimateCharging(_ context.Context, req *daybreakv1.EstimateChargingRequest) (*daybreakv1.EstimateChargingResponse, error) {
	c, err := wire.Charging("case", req.GetCase(), h.books.Charging.Vehicles)
	if err != nil {
		return nil, err
	}
	sheet := &working.Sheet{}
	rate, err := charging.Power(c.Limits, sheet)
	if err != nil {
		return nil, inRequest("charging", "case", err)
	}
	perHour, err := charging.MilesPerHour(rate.Wall, c.Consumption, rate.Level.DistanceFactor(), sheet)
	if err != nil {
		return nil, inRequest("charging", "case", err)
	}
	c.Session.Wall, c.Session.Losses, c.Session.Taper = rate.Wall, charging.LossesAt(c.Outdoor), charging.UsualTaper()
	if c.Session.Heating, err = charging.ColdStartHeat(c.Session.Usable, c.Outdoor); err != nil {
		return nil, inRequest("charging", "case", err)
	}
	charge, err := charging.ChargeTime(c.Session, sheet)
	if err != nil {
		return nil, inRequest("charging", "case", err)
	}
	night, err := h.night(c, rate, sheet)
	if err != nil {
		return nil, inRequest("charging", "case", err)
	}
	warming, err := preconditioning(c, rate.Wall, sheet)
	if err != nil {
		return nil, inRequest("charging", "case", err)
	}
	estimate := h.wordsFor(req.GetLocale()).ChargeEstimate(rate, perHour, charge, night, sheet.Steps)
	estimate.Precondition = warming
	return &daybreakv1.EstimateChargingResponse{Estimate: estimate}, nil
}

// preconditioning is what warming the cabin takes; nil when no share of
// mornings was told.
func preconditioning(c wire.ChargeCase, wall unit.Kilowatts, sheet *working.Sheet) (*daybreakv1.Preconditioning, error) {
	if c.Warmed == nil {
		return nil, nil
	}
	p, err := charging.Preconditioning(c.Outdoor, wall, sheet)
	if err != nil {
		return nil, err
	}
	average, err := p.Average(*c.Warmed, sheet)
	if err != nil {
		return nil, err
	}
	return wire.Preconditioning(p, average), nil
}

// night sets a day's driving against a night at home; nil when no miles were
// told.
func (h *handlers) night(c wire.ChargeCase, rate charging.Rate, sheet *working.Sheet) (*charging.Refill, error) {
	if c.Miles == nil {
		return nil, nil
	}
	multiplier, err := h.books.Charging.Season.At(c.Outdoor, charging.Mid, sheet)
	if err != nil {
		return nil, err
	}
	need, err := charging.Need(charging.Trip{Miles: *c.Miles, Consumption: c.Consumption, Multiplier: multiplier}, sheet)
	if err != nil {
		return nil, err
	}
	refill, err := charging.Overnight(need, charging.Night{Wall: rate.Wall, Factor: rate.Level.DistanceFactor(), Window: c.Window}, sheet)
	return &refill, err
}

func (h *designHandler) PriceBill(_ context.Context, req *daybreakv1.PriceBillRequest) (*daybreakv1.PriceBillResponse, error) {
	words, sheet := h.wordsFor(req.GetLocale()), &working.Sheet{}
	job, result, err := h.design(req.GetJob(), sheet)
	if err != nil {
		return nil, err
	}
	out := &daybreakv1.PriceBillResponse{Design: words.Design(&result, job.Setting, job.Volts, sheet.Steps)}
	if result.Outcome != circuit.Designed {
		return out, nil
	}
	asOf, err := h.asOf("as_of_date", req.GetAsOfDate(), h.zoneOf(req.GetPostalCode()))
	if err != nil {
		return nil, err
	}
	place, err := h.place(req.GetPostalCode(), asOf)
	if err != nil {
		return nil, err
	}
	sheet = &working.Sheet{}
	bill, err := pricing.Price(h.books.Prices, pricing.FromCircuit(&result, wire.Site(req, &job, &result)), place, sheet)
	if err != nil {
		return nil, inRequest("route", "job", err)
	}
	out.Bill = words.Bill(&bill, sheet.Steps)
	return out, nil
}

// place is where work is priced: a postal code the shop serves, or the shop's
// own place when none is given.
func (h *handlers) place(postalCode string, asOf unit.Date) (pricing.Place, error) {
	if postalCode == "" {
		return h.books.Prices.Home(asOf), nil
	}
	place, err := h.books.Prices.At(postalCode, asOf)
	if err != nil {
		return pricing.Place{}, fault.Invalid("postal_code", postalCode, "a postal code the shop serves, or nothing for its own place")
	}
	return place, nil
}
