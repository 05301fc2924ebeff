package tariff

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"

	"daybreak/internal/fault"
	"daybreak/internal/working"

	"go.yaml.in/yaml/v3"
)

// Write writes tariffs in the form that [Load] reads, one document each. What
// that form does not hold is a fault that names rate and field, and the others
// are written nevertheless: demand charges, and more prices than 64 once an
// adjustment of each month is part of them. It returns how many it wrote.
func Write(to io.Writer, file string, tariffs []Tariff) (int, error) {
	var errs []error
	wrote := 0
	for i := range tariffs {
		w, err := tariffs[i].written(file)
		if err != nil {
			errs = append(errs, placed(err, file, tariffs[i].Label))
			continue
		}
		text, err := w.text()
		if err == nil && wrote > 0 {
			text = append([]byte("---\n"), text...)
		}
		if err == nil {
			_, err = to.Write(text)
		}
		if err != nil {
			return wrote, err
		}
		wrote++
	}
	return wrote, errors.Join(errs...)
}

func (w *written) text() ([]byte, error) {
	var out bytes.Buffer
	enc := yaml.NewEncoder(&out)
	enc.SetIndent(2)
	if err := enc.Encode(w); err != nil {
		return nil, err
	}
	err := enc.Close()
	return out.Bytes(), err
}

func (t *Tariff) written(file string) (*written, error) {
	switch {
	case len(t.Flat.Rates) > 0:
		return nil, fault.Invalid("flatdemandstructure", "a charge for the highest hour", "none: a shop's tariff holds prices of energy alone")
	case len(t.Timed.Rates) > 0:
		return nil, fault.Invalid("demandratestructure", "a charge for the highest hour", "none: a shop's tariff holds prices of energy alone")
	}
	w := &written{
		Label: t.Label, Name: t.Name, Utility: t.Utility, Sector: t.Sector, Currency: t.Currency.Code(), EVOnly: t.EVOnly,
		Source: file, Status: string(working.SecondHand),
		Fixed: t.Fixed.written(), Least: t.Least.written(), Credit: t.Credit.written(),
	}
	if t.Source != nil {
		w.Source, w.Status = t.Source.Publication, string(t.Source.Status)
	}
	p := prices{of: t, named: map[priceOf]string{}}
	for m := range 12 {
		s := season{Months: []int{m + 1}, Weekday: p.day(m, &t.Weekday[m]), Weekend: p.day(m, &t.Weekend[m])}
		if slices.Equal(s.Weekday, s.Weekend) {
			s.Weekend = nil
		}
		same := slices.IndexFunc(w.Seasons, func(o season) bool {
			return slices.Equal(o.Weekday, s.Weekday) && slices.Equal(o.Weekend, s.Weekend)
		})
		if same >= 0 {
			w.Seasons[same].Months = append(w.Seasons[same].Months, m+1)
			continue
		}
		w.Seasons = append(w.Seasons, s)
	}
	w.Periods = p.list
	if len(p.named) > mostPeriods {
		return nil, fault.Invalid("fueladjustmentsmonthly", fmt.Sprintf("%d prices", len(p.named)), fmt.Sprintf("at most %d prices over the year", mostPeriods))
	}
	return w, p.err
}

func (c Charge) written() amount {
	if c.Amount == 0 {
		return amount{}
	}
	return amount{c.Amount, [...]string{Month: "month", Day: "day", Year: "year"}[c.Per]}
}

// priceOf is a period in the months of one adjustment: a price of its own. A
// month has one adjustment, so tiers are counted as before.
type priceOf struct {
	period uint8
	adder  float64
}

// prices names each price once, in the order in which the year meets them.
type prices struct {
	of    *Tariff
	named map[priceOf]string
	list  yaml.Node
	err   error
}

// day is a day of a month as stretches of hours.
func (p *prices) day(month int, row *[24]uint8) []hours {
	var out []hours
	for from := 0; from < 24; {
		to := from + 1
		for to < 24 && row[to] == row[from] {
			to++
		}
		out = append(out, hours{Hours: fmt.Sprintf("%d to %d", from, to), Period: p.name(priceOf{row[from], p.of.Adder[month]})})
		from = to
	}
	return out
}

func (p *prices) name(of priceOf) string {
	if name, there := p.named[of]; there {
		return name
	}
	name := fmt.Sprintf("price-%d", len(p.named)+1)
	p.named[of] = name
	var tiers []tier
	for i, t := range p.of.Periods[of.period].Tiers {
		rate := plain(t.price() + of.adder)
		if err := price(fmt.Sprintf("energyratestructure[%d][%d].rate", of.period, i), rate); err != nil && p.err == nil {
			p.err = err
		}
		tiers = append(tiers, tier{Rate: rate, Up: t.Most, Daily: t.Daily, Sell: t.Sell})
	}
	var value yaml.Node
	if err := value.Encode(tiers); err != nil && p.err == nil {
		p.err = err
	}
	value.Style = yaml.FlowStyle
	p.list.Kind = yaml.MappingNode
	p.list.Content = append(p.list.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: name}, &value)
	return name
}

// plain is a sum of rates without the dust of binary fractions: 0.1 and 0.02
// are 0.12, and no utility prints a tenth decimal.
func plain(v float64) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', 9, 64), 64)
	if err != nil {
		return v
	}
	return out
}
