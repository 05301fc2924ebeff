package wire

import (
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/pricing"
	"daybreak/internal/quote"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// option is one way to charge; what a summary leaves out comes in the full view.
func (w *Words) option(q *quote.Quote, o *quote.Option, home *facts.Facts, view View) *daybreakv1.Option {
	out := &daybreakv1.Option{
		Id: o.ID, Roles: roles(o.Role), Level: daybreakv1.ChargingLevel(o.Level), Way: daybreakv1.OptionWay(o.Way),
		Title: w.sentence(quote.TitleOf(o)), Why: w.sentence(o.Why), WhatWouldChange: w.sentence(o.Change),
		SettingAmps: float64(o.Setting), Volts: float64(o.Volts), BreakerAmps: float64(o.Breaker),
		Managed: o.Managed, SetpointAmps: positive(float64(o.Setpoint)),
		Unpriced: w.sentences(o.Unpriced), Verdict: daybreakv1.Verdict_VERDICT_NOT_NEEDED,
		Cautions: w.Cautions(o.Findings, home), SafeFirst: w.sentences(o.SafeFirst), Adapter: o.Adapter, Care: w.sentences(o.Care),
	}
	if o.Priced {
		out.Price, out.Includes = price(o), w.sentences(quote.IncludesOf(o))
	}
	if o.Panel != nil {
		out.Verdict = verdict(o.Panel.Verdict)
	}
	out.Standing = daybreakv1.Standing(q.Standing)
	if view != Full {
		return out
	}
	out.Equipment = w.equipment(o)
	out.Charging = chargingTimes(q, o)
	steps := byRoom(o.Working)
	out.Working = w.Working(steps[""])
	out.Feeder, out.Apart, out.Flips = w.feeder(o.Feeder, o.Volts), w.apart(o), w.sentences(o.Flips)
	out.Circuit = w.Design(o.Circuit, o.Setting, o.Volts, steps["circuit"])
	out.Panel = w.Panel(o.Panel, steps["panel"])
	if o.Role&quote.BestFit == 0 && out.Panel != nil {
		out.Panel.Worksheets = nil // the house is the same; the sheet stands once
	}
	if o.Outlet != nil {
		out.OutletSlot, out.OutletWay = o.OutletSlot, w.outletWay(&o.OutletWay)
	}
	if o.Priced {
		out.Bill = w.Bill(&o.Bill, steps["pricing"])
		out.Length = w.length(q, o)
	}
	for _, s := range o.Verify {
		out.ToVerify = append(out.ToVerify, &daybreakv1.Verification{What: w.sentence(s)})
	}
	return out
}

// byRoom parts an option's steps by the room that took them; what belongs to
// none of circuit, panel and bill stands under "".
func byRoom(steps []working.Step) map[string][]working.Step {
	out := map[string][]working.Step{}
	for _, s := range steps {
		room, _, _ := strings.Cut(s.Rule, ".")
		switch room {
		case "circuit", "panel", "pricing":
		default:
			room = ""
		}
		out[room] = append(out[room], s)
	}
	return out
}

func roles(r quote.Role) []daybreakv1.OptionRole {
	var out []daybreakv1.OptionRole
	for i, role := range []quote.Role{quote.EnoughForNow, quote.BestFit, quote.RoomToGrow} {
		if r&role != 0 {
			out = append(out, daybreakv1.OptionRole(i+1))
		}
	}
	return out
}

func price(o *quote.Option) *daybreakv1.PriceRange {
	return spread(o.Price, o.Bill.Total[pricing.Likely], o.Bill.Currency)
}

// equipment is the class of equipment; its words stand on the bill when the
// shop sells it.
func (w *Words) equipment(o *quote.Option) *daybreakv1.Equipment {
	out := &daybreakv1.Equipment{
		Code: o.EquipmentCode, SettingAmps: float64(o.Setting), Connection: daybreakv1.Termination_TERMINATION_RECEPTACLE,
		Owned: o.EquipmentCode == "",
	}
	if o.Way == quote.Hardwired {
		out.Connection = daybreakv1.Termination_TERMINATION_HARDWIRED
	}
	for i := range o.Bill.Lines {
		if l := &o.Bill.Lines[i]; l.Code == o.EquipmentCode {
			out.Text = l.Words
		}
	}
	return out
}

func chargingTimes(q *quote.Quote, o *quote.Option) *daybreakv1.ChargingTimes {
	hours := float64(o.HoursFull)
	out := &daybreakv1.ChargingTimes{
		WallKw: float64(o.Rate.Wall), Volts: float64(o.Rate.Supply), Amps: float64(o.Rate.Amps),
		BindingLimit: daybreakv1.PowerLimit(o.Rate.Binding), OpenLimits: limits(o.Rate.Open),
		UsualDayKwh: float64(q.Need.EnergyKWh), HardDayKwh: float64(q.Need.WorstKWh), UsualDayHours: float64(o.HoursNormal),
		WindowHours: float64(q.Need.WindowHours), RefillsHardDay: o.RefillsWorst, MilesPerHour: o.MilesPerHour,
	}
	if hours > 0 {
		out.HoursEmptyToFull = &hours
	}
	return out
}

// length is the run a price rests on. It was told unless it is among the
// assumptions.
func (w *Words) length(q *quote.Quote, o *quote.Option) *daybreakv1.LengthAssumed {
	if o.Bill.FeetAssumed == 0 {
		return nil
	}
	const path = "route.panel_to_charger_feet"
	basis, key := daybreakv1.FactBasis_FACT_BASIS_TOLD, "length.told"
	for i := range q.Assumptions {
		if q.Assumptions[i].Path == path {
			basis, key = daybreakv1.FactBasis_FACT_BASIS_ASSUMED, "length.assumed"
		}
	}
	more := o.Bill.TenMoreFeet[pricing.Likely]
	return &daybreakv1.LengthAssumed{
		Feet: float64(o.Bill.FeetAssumed), Basis: basis, TenMoreFeet: money(more, o.Bill.Currency),
		Text: w.say(key, working.Num("feet", o.Bill.FeetAssumed, "ft"), amount("more", more, o.Bill.Currency)).GetText(),
	}
}

func amount(name string, minor int64, c unit.Currency) working.Term {
	return working.Term{Name: name, Value: float64(minor), Unit: quote.MoneyUnit + c.Code()}
}
