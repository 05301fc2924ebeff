package tariff

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// MostBytes is how much of a file of tariffs is read: a million bytes are some
// two hundred tariffs. A longer one is refused, not cut.
const MostBytes = 1 << 20

// published is a rate in the field names of the US utility rate database.
type published struct {
	Label       string            `json:"label"`
	Name        string            `json:"name"`
	Utility     string            `json:"utility"`
	Sector      string            `json:"sector"`
	AppliesTo   string            `json:"applies_to"`
	Energy      [][]publishedTier `json:"energyratestructure"`
	Weekday     [][]int           `json:"energyweekdayschedule"`
	Weekend     [][]int           `json:"energyweekendschedule"`
	Adders      []float64         `json:"fueladjustmentsmonthly"`
	Fixed       float64           `json:"fixedchargefirstmeter"`
	FixedUnits  string            `json:"fixedchargeunits"`
	Least       float64           `json:"mincharge"`
	LeastUnits  string            `json:"minchargeunits"`
	Flat        [][]publishedTier `json:"flatdemandstructure"`
	FlatMonths  []int             `json:"flatdemandmonths"`
	FlatUnit    string            `json:"flatdemandunit"`
	Demand      [][]publishedTier `json:"demandratestructure"`
	DemandDays  [][]int           `json:"demandweekdayschedule"`
	DemandEnds  [][]int           `json:"demandweekendschedule"`
	DemandUnit  string            `json:"demandrateunit"`
	Window      float64           `json:"demandwindow"`
	Ratchet     []float64         `json:"demandratchetpercentage"`
	Coincident  json.RawMessage   `json:"coincidentratestructure"`
	ReactivePwr float64           `json:"demandreactivepowercharge"`
}

type publishedTier struct {
	Rate float64  `json:"rate"`
	Adj  float64  `json:"adj"`
	Max  *float64 `json:"max"`
	Unit string   `json:"unit"`
	Sell float64  `json:"sell"`
}

// ReadPublished reads tariffs in the public US utility-rate format: one rate, a
// list of rates, or an object whose "items" are rates. Each rate becomes a
// tariff or a fault that names it and its field: schedules with missing or
// surplus hours, hours without a period, tiers that overlap or end, and what
// this room cannot honour, such as demand ratchets. Fields without a bearing on
// a bill are passed over.
//
// Source: US utility rate database, version 7, field names
func ReadPublished(r io.Reader, file string, currency unit.Currency) ([]Tariff, error) {
	raw, err := readAll(r, file)
	if err != nil {
		return nil, err
	}
	rates, err := split(raw)
	if err != nil {
		return nil, fault.InFile(file, 1, "", err, "rates in the utility-rate format, as JSON")
	}
	var out []Tariff
	var errs []error
	seen := map[string]bool{}
	for i, rate := range rates {
		var p published
		if err := json.Unmarshal(rate, &p); err != nil {
			errs = append(errs, misshapen(file, fmt.Sprintf("items[%d]", i), err))
			continue
		}
		t, err := p.tariff(currency)
		if err == nil && seen[t.Label] {
			err = fault.Invalid("label", t.Label, "each label once")
		}
		if err != nil {
			errs = append(errs, placed(err, file, fmt.Sprintf("items[%d] %s", i, p.Label)))
			continue
		}
		seen[t.Label] = true
		t.Source = &working.Source{Publication: file, Cell: t.Label, Status: working.SecondHand}
		out = append(out, t)
	}
	return out, errors.Join(errs...)
}

// misshapen names the field whose value has another shape than the format's.
func misshapen(file, rate string, err error) error {
	const accepted = "a rate in the utility-rate format"
	var shape *json.UnmarshalTypeError
	if !errors.As(err, &shape) {
		return fault.InFile(file, 0, rate, err, accepted)
	}
	if shape.Field != "" {
		rate += "." + shape.Field
	}
	return fault.InFile(file, 0, rate, "a "+shape.Value, accepted)
}

func readAll(r io.Reader, file string) ([]byte, error) {
	raw, err := io.ReadAll(io.LimitReader(r, MostBytes+1))
	switch {
	case err != nil:
		return nil, fault.InFile(file, 0, "", err, "a readable file")
	case len(raw) > MostBytes:
		return nil, fault.InFile(file, 0, "", "a longer file", fmt.Sprintf("at most %d bytes", MostBytes))
	}
	if i := bytes.IndexByte(raw, 0); i >= 0 {
		return nil, fault.InFile(file, 1+bytes.Count(raw[:i], []byte{'\n'}), "", "a NUL byte", "text")
	}
	return raw, nil
}

// split finds the rates in any of the three shapes.
func split(raw []byte) ([]json.RawMessage, error) {
	raw = bytes.TrimSpace(raw)
	if len(raw) > 0 && raw[0] == '[' {
		var list []json.RawMessage
		err := json.Unmarshal(raw, &list)
		return list, err
	}
	var whole struct {
		Items []json.RawMessage `json:"items"`
	}
	if err := json.Unmarshal(raw, &whole); err != nil {
		return nil, err
	}
	if whole.Items != nil {
		return whole.Items, nil
	}
	return []json.RawMessage{raw}, nil
}

// placed puts a file and a rate's name before each fault.
func placed(err error, file, rate string) error {
	var out []error
	for _, f := range fault.All(err) {
		one := *f
		one.Reason, one.File, one.Field = "INVALID_DATA", file, strings.TrimSpace(rate)+"."+f.Field
		out = append(out, &one)
	}
	return errors.Join(out...)
}

func (p *published) tariff(currency unit.Currency) (Tariff, error) {
	t := Tariff{
		Label: p.Label, Name: p.Name, Utility: p.Utility, Sector: p.Sector, Currency: currency,
		EVOnly: strings.HasPrefix(p.AppliesTo, "EV load only"),
	}
	var errs [8]error
	if currency.Code() == "" {
		return t, fault.Invalid("currency", "none", "a currency")
	}
	for i, tiers := range p.Energy {
		period, err := periodOf(tiers, i)
		if err != nil {
			return t, err
		}
		t.Periods = append(t.Periods, period)
	}
	t.Weekday, errs[0] = scheduleOf(p.Weekday, "energyweekdayschedule")
	t.Weekend, errs[1] = scheduleOf(p.Weekend, "energyweekendschedule")
	t.Fixed, errs[2] = chargeOf(p.Fixed, p.FixedUnits, "fixedcharge")
	t.Least, errs[3] = chargeOf(p.Least, p.LeastUnits, "mincharge")
	errs[4] = p.flat(&t)
	errs[5] = p.timed(&t)
	errs[6] = p.unheard()
	switch len(p.Adders) {
	case 0:
	case 12:
		copy(t.Adder[:], p.Adders)
	default:
		errs[7] = fault.Invalid("fueladjustmentsmonthly", len(p.Adders), "12 months")
	}
	if err := errors.Join(errs[:]...); err != nil {
		return t, err
	}
	return t, t.check()
}

// unheard faults what would change a bill and is not counted here.
func (p *published) unheard() error {
	for _, r := range p.Ratchet {
		if r != 0 {
			return fault.Invalid("demandratchetpercentage", r, "no ratchet: a past peak cannot be known")
		}
	}
	if p.ReactivePwr != 0 {
		return fault.Invalid("demandreactivepowercharge", p.ReactivePwr, "none: no household pays it")
	}
	if s := string(bytes.TrimSpace(p.Coincident)); s != "" && s != "null" && s != "[]" {
		return fault.Invalid("coincidentratestructure", "a charge", "none: the system's peak cannot be known")
	}
	return nil
}

func periodOf(tiers []publishedTier, i int) (Period, error) {
	var p Period
	for j, t := range tiers {
		at := fmt.Sprintf("energyratestructure[%d][%d]", i, j)
		one := Tier{Rate: t.Rate, Adj: t.Adj, Sell: t.Sell}
		if t.Max != nil {
			if one.Most = *t.Max; one.Most == 0 {
				return p, fault.Invalid(at+".max", 0, "above 0, or none in the last tier")
			}
		}
		switch t.Unit {
		case "", "kWh":
		case "kWh daily":
			one.Daily = true
		default:
			return p, fault.Invalid(at+".unit", t.Unit, "kWh or kWh daily")
		}
		p.Tiers = append(p.Tiers, one)
	}
	return p, nil
}

func scheduleOf(rows [][]int, field string) (Schedule, error) {
	var s Schedule
	if len(rows) != 12 {
		return s, fault.Invalid(field, fmt.Sprintf("%d months", len(rows)), "12 months: no month without prices")
	}
	for m, row := range rows {
		if len(row) != 24 {
			return s, fault.Invalid(fmt.Sprintf("%s[%d]", field, m), fmt.Sprintf("%d hours", len(row)), "24 hours: none left out and none twice")
		}
		for h, p := range row {
			if p < 0 || p >= mostPeriods {
				return s, fault.Invalid(fmt.Sprintf("%s[%d][%d]", field, m, h), p, "the index of a period")
			}
			s[m][h] = uint8(p)
		}
	}
	return s, nil
}

func chargeOf(amount float64, units, field string) (Charge, error) {
	c := Charge{Amount: amount}
	switch units {
	case "$/month", "":
	case "$/day":
		c.Per = Day
	case "$/year":
		c.Per = Year
	default:
		return c, fault.Invalid(field+"units", units, "$/month, $/day or $/year")
	}
	return c, nil
}
