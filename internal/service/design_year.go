package service

import (
	"context"
	"fmt"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/charging"
	"daybreak/internal/readiness"
	"daybreak/internal/service/wire"
	"daybreak/internal/tariff"
	"daybreak/internal/working"
)

func (h *designHandler) AssessReadiness(ctx context.Context, req *daybreakv1.AssessReadinessRequest) (*daybreakv1.AssessReadinessResponse, error) {
	c, err := wire.Readiness("case", req.GetCase(), h.books.Charging)
	if err != nil {
		return nil, err
	}
	words, out := h.wordsFor(req.GetLocale()), &daybreakv1.AssessReadinessResponse{}
	for i, option := range c.Options {
		if err := ctx.Err(); err != nil { // nobody waits for the rest
			return nil, err
		}
		c.First.Option = option
		if err := oneOption(words, &c, out); err != nil {
			return nil, inRequest("option", fmt.Sprintf("case.options[%d]", i), err)
		}
	}
	return out, nil
}

// oneOption counts a year of an option, beside the second car when there is one.
func oneOption(words *wire.Words, c *wire.ReadinessCase, out *daybreakv1.AssessReadinessResponse) error {
	sheet := &working.Sheet{}
	if c.Second != nil {
		return besideSecond(words, c, out)
	}
	mild, mid, harsh, err := readiness.Around(c.First, c.Years, sheet)
	if err != nil {
		return err
	}
	year := words.OptionYear(&mid, c.First.Car.Petrol, sheet.Steps)
	low, high := float64(mild.Caused), float64(harsh.Caused)
	year.CausedDaysMild, year.CausedDaysHarsh = &low, &high
	out.Options = append(out.Options, year)
	return nil
}

// besideSecond counts both cars on their circuit.
func besideSecond(words *wire.Words, c *wire.ReadinessCase, out *daybreakv1.AssessReadinessResponse) error {
	sheet := &working.Sheet{}
	first, second, err := readiness.AssessPair(c.First, *c.Second, c.Circuit, sheet)
	if err != nil {
		return err
	}
	out.Options = append(out.Options, words.OptionYear(&first, c.First.Car.Petrol, sheet.Steps))
	out.Second = append(out.Second, words.OptionYear(&second, c.Second.Car.Petrol, nil))
	return nil
}

func (h *designHandler) CheckCompatibility(_ context.Context, req *daybreakv1.CheckCompatibilityRequest) (*daybreakv1.CheckCompatibilityResponse, error) {
	pairs, err := wire.Compatibility("case", req.GetCase(), h.books.Charging.Vehicles)
	if err != nil {
		return nil, err
	}
	words, sheet, fits := h.wordsFor(req.GetLocale()), &working.Sheet{}, h.books.Charging.Fits
	out := &daybreakv1.Compatibility{Never: words.Never(fits.Never())}
	var fit charging.Fit
	if pairs.Inlet != "" {
		if fit, err = fits.AC(pairs.Inlet, pairs.Connector, pairs.Setting, sheet); err != nil {
			return nil, inRequest("charging", "case", err)
		}
		out.Connector = words.Fit(fit)
	}
	if pairs.DCInlet != "" {
		if fit, err = fits.DC(pairs.DCInlet, pairs.DCConnector, sheet); err != nil {
			return nil, inRequest("charging", "case", err)
		}
		out.DcConnector = words.Fit(fit)
	}
	if pairs.Plug != "" {
		if fit, err = charging.PlugFits(pairs.Plug, pairs.Receptacle, sheet); err != nil {
			return nil, inRequest("charging", "case", err)
		}
		out.Plug = words.Fit(fit)
	}
	if pairs.Car != nil {
		away, err := charging.AwayFromHome(*pairs.Car, fits, sheet)
		if err != nil {
			return nil, inRequest("charging", "case", err)
		}
		out.Away = words.Away(&away)
	}
	out.Working = words.Working(sheet.Steps)
	return &daybreakv1.CheckCompatibilityResponse{Compatibility: out}, nil
}

func (h *designHandler) CompareTariffs(_ context.Context, req *daybreakv1.CompareTariffsRequest) (*daybreakv1.CompareTariffsResponse, error) {
	asOf, err := h.asOf("as_of_date", req.GetAsOfDate(), h.zoneOf(""))
	if err != nil {
		return nil, err
	}
	chosen, err := wire.ChosenTariffs("case.tariffs", req.GetCase().GetTariffs(), h.books.Tariffs)
	if err != nil {
		return nil, err
	}
	years, err := wire.TariffYears("case", req.GetCase(), int(asOf.Year), h.books.Charging)
	if err != nil {
		return nil, err
	}
	words := h.wordsFor(req.GetLocale())
	out := &daybreakv1.CompareTariffsResponse{}
	if len(chosen) > 0 {
		out.Revision = wire.Revision(h.books.TariffBook)
	}
	for _, year := range years {
		sheet := &working.Sheet{}
		compared, err := tariff.CompareAll(chosen, year, sheet)
		if err != nil {
			return nil, inRequest("tariff", "case", err)
		}
		out.Options = append(out.Options, words.OptionCosts(year.Wall, chosen, compared, sheet.Steps))
	}
	return out, nil
}
