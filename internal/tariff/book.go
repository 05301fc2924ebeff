package tariff

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strconv"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"go.yaml.in/yaml/v3"
)

// written is a tariff as we write it: periods by name, hours as people say them.
type written struct {
	Label    string    `yaml:"label"`
	Name     string    `yaml:"name,omitempty"`
	Utility  string    `yaml:"utility,omitempty"`
	Sector   string    `yaml:"sector,omitempty"`
	Currency string    `yaml:"currency"`
	EVOnly   bool      `yaml:"charging_only,omitempty"`
	Source   string    `yaml:"source"`
	Status   string    `yaml:"status"`
	Periods  yaml.Node `yaml:"periods"`
	Seasons  []season  `yaml:"seasons"`
	Fixed    amount    `yaml:"fixed,omitempty,flow"`
	Least    amount    `yaml:"least,omitempty,flow"`
	Credit   amount    `yaml:"credit,omitempty,flow"`
	line     int       // where it begins in its file
}

type amount struct {
	Amount float64 `yaml:"amount"`
	Per    string  `yaml:"per,omitempty"`
}

type tier struct {
	Rate  float64 `yaml:"rate"`
	Up    float64 `yaml:"up_to_kwh,omitempty"`
	Daily bool    `yaml:"a_day,omitempty"`
	Sell  float64 `yaml:"sell,omitempty"`
}

type season struct {
	Months  []int   `yaml:"months,flow"`
	Weekday []hours `yaml:"weekday,flow"`
	Weekend []hours `yaml:"weekend,omitempty,flow"`
	line    int
}

// hours are a stretch of a day in one period: "7 to 16".
type hours struct {
	Hours  string `yaml:"hours"`
	Period string `yaml:"period"`
	line   int
}

func (s *season) UnmarshalYAML(n *yaml.Node) error {
	type plain season
	s.line = n.Line
	return n.Decode((*plain)(s))
}

func (h *hours) UnmarshalYAML(n *yaml.Node) error {
	type plain hours
	h.line = n.Line
	return n.Decode((*plain)(h))
}

// Load reads every .yaml file of a folder in the order of their names; a file
// holds a tariff, or several as documents with --- between them. Each fault
// names file and line: hours that no period or two periods have, months that no
// season or two have, tiers that overlap or end.
func Load(fsys fs.FS) ([]Tariff, error) {
	names, err := fs.Glob(fsys, "*.yaml")
	if err != nil || len(names) == 0 {
		return nil, fault.InFile(".", 0, "", "no file", "a folder of .yaml files with tariffs")
	}
	var out []Tariff
	var errs []error
	seen := map[string]bool{}
	for _, name := range names {
		list, err := loadFile(fsys, name)
		for i := range list {
			if seen[list[i].Label] {
				err = errors.Join(err, fault.InFile(name, 1, "label", list[i].Label, "each label once"))
			}
			seen[list[i].Label] = true
		}
		errs = append(errs, err)
		out = append(out, list...)
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return out, nil
}

func loadFile(fsys fs.FS, name string) ([]Tariff, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, fault.InFile(name, 0, "", err, "a readable file")
	}
	defer f.Close()
	raw, err := readAll(f, name)
	if err != nil {
		return nil, err
	}
	dec := yaml.NewDecoder(bytes.NewReader(raw))
	dec.KnownFields(true)
	begins := yaml.NewDecoder(bytes.NewReader(raw)) // the same again, for the lines
	var out []Tariff
	var errs []error
	for {
		var w written
		var at yaml.Node
		err := dec.Decode(&w)
		if err == io.EOF && len(out)+len(errs) > 0 {
			return out, errors.Join(errs...)
		}
		if err == nil {
			err = begins.Decode(&at)
		}
		if err != nil {
			return nil, fault.InFile(name, 1, "", err, "a tariff of the keys label, name, utility, currency, source, status, periods, seasons, fixed, least, credit")
		}
		w.line = 1
		if len(at.Content) > 0 && len(out)+len(errs) > 0 {
			w.line = at.Content[0].Line
		}
		t, err := w.tariff(name)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		out = append(out, t)
	}
}

func (w *written) tariff(file string) (Tariff, error) {
	t := Tariff{Label: w.Label, Name: w.Name, Utility: w.Utility, Sector: w.Sector, EVOnly: w.EVOnly}
	currency, ok := unit.CurrencyOf(w.Currency, 2)
	if !ok {
		return t, fault.InFile(file, w.line, "currency", w.Currency, "a currency of cents, such as USD")
	}
	t.Currency = currency
	status := working.Status(w.Status)
	if !status.Known() || w.Source == "" {
		return t, fault.InFile(file, w.line, "status", w.Status, "a source, and one of the five words for how firmly it is known")
	}
	t.Source = &working.Source{Publication: w.Source, Cell: w.Label, Status: status}
	named, err := w.periods(file, &t)
	if err != nil {
		return t, err
	}
	if err := w.seasons(file, &t, named); err != nil {
		return t, err
	}
	for _, c := range []struct {
		to   *Charge
		from amount
		name string
	}{{&t.Fixed, w.Fixed, "fixed"}, {&t.Least, w.Least, "least"}, {&t.Credit, w.Credit, "credit"}} {
		per, ok := map[string]Per{"": Month, "month": Month, "day": Day, "year": Year}[c.from.Per]
		if !ok {
			return t, fault.InFile(file, w.line, c.name+".per", c.from.Per, "month, day or year")
		}
		*c.to = Charge{Amount: c.from.Amount, Per: per}
	}
	if err := t.check(); err != nil {
		return t, placed(err, file, w.Label)
	}
	return t, nil
}

// periods reads the periods in the order written and returns their index.
func (w *written) periods(file string, t *Tariff) (map[string]uint8, error) {
	named := map[string]uint8{}
	list := w.Periods.Content
	for i := 0; i+1 < len(list); i += 2 {
		name := list[i].Value
		if _, twice := named[name]; twice || len(t.Periods) == mostPeriods {
			return nil, fault.InFile(file, list[i].Line, "periods", name, fmt.Sprintf("each period once, at most %d", mostPeriods))
		}
		var tiers []tier
		if err := list[i+1].Decode(&tiers); err != nil || len(tiers) == 0 {
			return nil, fault.InFile(file, list[i].Line, "periods."+name, "another shape", "a list of tiers with rate and, but for the last, up_to_kwh")
		}
		p := Period{Name: name}
		for _, one := range tiers {
			p.Tiers = append(p.Tiers, Tier{Rate: one.Rate, Most: one.Up, Daily: one.Daily, Sell: one.Sell})
		}
		named[name] = uint8(len(t.Periods))
		t.Periods = append(t.Periods, p)
	}
	if len(named) == 0 {
		return nil, fault.InFile(file, max(w.Periods.Line, w.line), "periods", "none", "a mapping from a period's name to its tiers")
	}
	return named, nil
}

func (w *written) seasons(file string, t *Tariff, named map[string]uint8) error {
	var has [12]bool
	for _, s := range w.Seasons {
		weekday, err := day(file, s.line, s.Weekday, named)
		if err != nil {
			return err
		}
		weekend := weekday
		if len(s.Weekend) > 0 {
			if weekend, err = day(file, s.line, s.Weekend, named); err != nil {
				return err
			}
		}
		for _, m := range s.Months {
			if m < 1 || m > 12 || has[m-1] {
				return fault.InFile(file, s.line, "months", m, "1 to 12, each in one season: seasons must not overlap")
			}
			has[m-1] = true
			t.Weekday[m-1], t.Weekend[m-1] = weekday, weekend
		}
	}
	for m, there := range has {
		if !there {
			return fault.InFile(file, w.line, "seasons", fmt.Sprintf("no season for month %d", m+1), "a season for every month: none may be left out")
		}
	}
	return nil
}

// day lays stretches of hours over a day.
func day(file string, line int, list []hours, named map[string]uint8) (out [24]uint8, err error) {
	var has [24]bool
	for _, s := range list {
		p, known := named[s.Period]
		if !known {
			return out, fault.InFile(file, s.line, "period", s.Period, "the name of a period")
		}
		from, to, ok := stretch(s.Hours)
		if !ok {
			return out, fault.InFile(file, s.line, "hours", s.Hours, "hours such as 7 to 16, from 0 to 24; 21 to 6 runs over midnight")
		}
		for h := from; ; h = (h + 1) % 24 {
			if has[h] {
				return out, fault.InFile(file, s.line, "hours", s.Hours, fmt.Sprintf("one period for hour %d: stretches must not overlap", h))
			}
			has[h], out[h] = true, p
			if (h+1)%24 == to%24 {
				break
			}
		}
	}
	for h, there := range has {
		if !there {
			return out, fault.InFile(file, line, "hours", fmt.Sprintf("no period for hour %d", h), "a period for every hour from 0 to 24: none may be left out")
		}
	}
	return out, nil
}

func stretch(s string) (from, to int, ok bool) {
	a, b, found := strings.Cut(s, " to ")
	from, err1 := strconv.Atoi(strings.TrimSpace(a))
	to, err2 := strconv.Atoi(strings.TrimSpace(b))
	if !found || err1 != nil || err2 != nil || from < 0 || from > 23 || to < 0 || to > 24 || from == to {
		return 0, 0, false
	}
	return from, to, true
}
