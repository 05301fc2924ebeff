package charging

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Import is what a file of vehicles came to: every row is a vehicle, a named
// refusal, or passed over as no plug-in car.
type Import struct {
	Listed  []Listed
	Refused []*fault.Fault
	Passed  int
}

// Vehicles are the listed ones with likely values filled in.
func (i Import) Vehicles() []Vehicle {
	out := make([]Vehicle, 0, len(i.Listed))
	for _, l := range i.Listed {
		out = append(out, l.Vehicle())
	}
	return out
}

// MostImportBytes is how much of a vehicle file is read: the whole US file of
// some fifty thousand rows is a third of it.
const MostImportBytes = 64 << 20

// record is one row by column name.
type record struct {
	at     map[string]int
	fields []string
	err    error
	called map[string]string // a leaf's column in this file, where that has another name
}

func (r *record) text(column string) string {
	if i, there := r.at[column]; there && i < len(r.fields) {
		return strings.TrimSpace(r.fields[i])
	}
	return ""
}

// number is a field's value; an empty one or none is 0 and false.
func (r *record) number(column string, low, high float64) (float64, bool) {
	s := r.text(column)
	if s == "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !unit.Finite(v) || v < low || v > high {
		if r.err == nil {
			r.err = fault.Invalid(column, s, fmt.Sprintf("a number from %v to %v", low, high))
		}
		return 0, false
	}
	return v, true
}

// importRows reads rows of a file with a header that names at least the columns
// needed, in any order, and gathers what each comes to.
func importRows(from io.Reader, file string, needed []string, p Priors, each func(*record) (Listed, bool)) (Import, error) {
	r := csv.NewReader(guard(from, file, MostImportBytes))
	r.Comment = '#'
	r.ReuseRecord = true
	head, err := r.Read()
	if err != nil {
		return Import{}, broken(file, err, needed)
	}
	at := map[string]int{}
	for i, name := range head {
		name = strings.TrimPrefix(strings.TrimSpace(name), "\ufeff")
		if _, twice := at[name]; twice {
			return Import{}, fault.InFile(file, 1, name, "a column twice", "each column once")
		}
		at[name] = i
	}
	for _, name := range needed {
		if _, there := at[name]; !there {
			return Import{}, fault.InFile(file, 1, name, "no such column", "the columns "+strings.Join(needed, ", "))
		}
	}
	var out Import
	seen := map[string]bool{}
	for {
		fields, err := r.Read()
		if err == io.EOF {
			return out, nil
		}
		var count *csv.ParseError
		if errors.As(err, &count) && errors.Is(count.Err, csv.ErrFieldCount) {
			out.Refused = append(out.Refused, fault.InFile(file, count.Line, "", fmt.Sprintf("%d fields", len(fields)), fmt.Sprintf("%d fields", len(head))))
			continue
		}
		if err != nil {
			return Import{}, broken(file, err, needed)
		}
		line, _ := r.FieldPos(0)
		one := record{at: at, fields: fields}
		l, wanted := each(&one)
		if !wanted {
			out.Passed++
			continue
		}
		err = one.err
		if err == nil {
			err = l.complete(p)
		}
		if err == nil && seen[l.ID] {
			err = fault.Invalid("id", l.ID, "each id once")
		}
		if err != nil {
			f, _ := fault.As(err)
			placed := *f
			placed.Reason, placed.File, placed.Line = "INVALID_DATA", file, line
			if column, other := one.called[placed.Field]; other {
				placed.Field = column
			}
			out.Refused = append(out.Refused, &placed)
			continue
		}
		seen[l.ID] = true
		out.Listed = append(out.Listed, l)
	}
}

// ReadFuelEconomy reads the US fuel-economy vehicles file in its published
// columns. Rows of cars without a plug are passed over; each other row is a
// vehicle or a refusal that names line and column. Zero means not published.
//
// Source: US EPA and DOE fuel-economy vehicles file; 40 CFR 600.311-12
func ReadFuelEconomy(from io.Reader, file string, p Priors) (Import, error) {
	needed := []string{"id", "year", "make", "model", "VClass", "atvType", "range", "rangeA", "combE", "charge240"}
	source := &working.Source{Publication: "US fuel-economy vehicles file", Section: file, Status: working.Verified}
	return importRows(from, file, needed, p, func(r *record) (Listed, bool) {
		kind := r.text("atvType")
		if kind != "EV" && kind != "Plug-in Hybrid" {
			return Listed{}, false
		}
		l := Listed{Class: r.text("VClass"), Petrol: kind == "Plug-in Hybrid", Source: source}
		if id := r.text("id"); id != "" {
			l.ID = "us-" + id
		}
		year, _ := r.number("year", 1990, 2100)
		l.Year = int(year)
		l.Label = strings.TrimSpace(r.text("year") + " " + r.text("make") + " " + r.text("model"))
		column := "range"
		if l.Petrol {
			column = "rangeA"
		}
		r.called = map[string]string{"electric_range_mi": column, "kwh_per_100mi": "combE", "label": "model"}
		miles, _ := r.number(column, 0, 1000)
		rate, _ := r.number("combE", 0, 1000)
		l.Range, l.Consumption = unit.Miles(miles), Consumption(rate)
		l.Hours = r.hours("charge240")
		return l, true
	})
}

// hours are a charge time within the rounding of the digits printed.
func (r *record) hours(column string) Span[unit.Hours] {
	v, _ := r.number(column, 0, 200)
	if v == 0 {
		return Span[unit.Hours]{}
	}
	half := 0.5
	if _, digits, point := strings.Cut(r.text(column), "."); point {
		for range min(len(digits), 6) {
			half /= 10
		}
	}
	return Span[unit.Hours]{Low: unit.Hours(max(v-half, v/2)), Likely: unit.Hours(v), High: unit.Hours(v + half), Told: true}
}

// ReadVehicles reads our own file of vehicles: id, label, kwh_per_100mi,
// electric_range_mi and petrol_backup are needed; class, year, charge240_h,
// usable_kwh, onboard_ac_kw, onboard_ac_amps, inlet, dc_inlet and dc_peak_kw may
// be left empty, and are then unsure.
func ReadVehicles(from io.Reader, file string, p Priors) (Import, error) {
	needed := []string{"id", "label", "kwh_per_100mi", "electric_range_mi", "petrol_backup"}
	source := &working.Source{Publication: file, Status: working.SecondHand}
	return importRows(from, file, needed, p, func(r *record) (Listed, bool) {
		r.called = map[string]string{"charge240": "charge240_h"}
		l := Listed{ID: r.text("id"), Label: r.text("label"), Class: r.text("class"), Source: source}
		year, _ := r.number("year", 1990, 2100)
		rate, _ := r.number("kwh_per_100mi", 0, 1000)
		miles, _ := r.number("electric_range_mi", 0, 1000)
		l.Year, l.Consumption, l.Range = int(year), Consumption(rate), unit.Miles(miles)
		l.Petrol = r.word("petrol_backup", "yes", "no") == "yes"
		l.Hours = r.hours("charge240_h")
		if v, there := r.number("usable_kwh", 1, 250); there {
			l.Usable = told(unit.KilowattHours(v))
		}
		if v, there := r.number("onboard_ac_kw", 1, 25); there {
			l.OnboardKW = told(unit.Kilowatts(v))
		}
		if v, there := r.number("onboard_ac_amps", 6, 110); there {
			l.OnboardAmps = told(unit.Amps(v))
		}
		if v, there := r.number("dc_peak_kw", 0, 500); there {
			l.DCPeak = told(unit.Kilowatts(v))
		}
		l.Inlet = r.guess("inlet", "J1772", "J3400")
		l.DCInlet = r.guess("dc_inlet", "CCS1", "J3400", "CHAdeMO", "none")
		return l, true
	})
}

// guess is a word of a closed list, or empty.
func (r *record) guess(column string, accepted ...string) Guess {
	if r.text(column) == "" {
		return Guess{}
	}
	return Guess{Word: r.word(column, accepted...), Told: true}
}

func (r *record) word(column string, accepted ...string) string {
	s := r.text(column)
	for _, a := range accepted {
		if s == a {
			return s
		}
	}
	if r.err == nil {
		r.err = fault.Invalid(column, s, fmt.Sprintf("one of %v", accepted))
	}
	return s
}
