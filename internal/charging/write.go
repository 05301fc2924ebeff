package charging

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"

	"daybreak/internal/fault"
)

// headBytes is how far the header of a file of vehicles may reach.
const headBytes = 64 << 10

// ReadListed reads either file of vehicles, told apart by its columns: the US
// fuel-economy file ([ReadFuelEconomy]) or our own ([ReadVehicles]).
func ReadListed(from io.Reader, file string, p Priors) (Import, error) {
	whole := bufio.NewReaderSize(from, headBytes)
	begin, _ := whole.Peek(headBytes) // an error comes again where the file is read
	r := csv.NewReader(bytes.NewReader(begin))
	r.Comment = '#'
	head, err := r.Read()
	has := func(column string) bool {
		return slices.ContainsFunc(head, func(s string) bool { return strings.TrimPrefix(strings.TrimSpace(s), "\ufeff") == column })
	}
	switch {
	case err == nil && has("atvType"):
		return ReadFuelEconomy(whole, file, p)
	case err != nil || has("kwh_per_100mi") || bytes.IndexByte(begin, 0) >= 0:
		return ReadVehicles(whole, file, p)
	}
	return Import{}, fault.InFile(file, 1, "header", strings.Join(head, ","), "the columns of the US fuel-economy file, atvType among them, or our own, kwh_per_100mi among them")
}

// listedColumns are those of our own file of vehicles.
var listedColumns = [...]string{
	"id", "label", "class", "year", "kwh_per_100mi", "electric_range_mi", "petrol_backup", "charge240_h",
	"usable_kwh", "onboard_ac_kw", "onboard_ac_amps", "inlet", "dc_inlet", "dc_peak_kw",
}

// WriteListed writes vehicles as the file that [ReadVehicles] reads. What no
// row told stays empty, so that it is unsure there too.
func WriteListed(to io.Writer, list []Listed) error {
	w := csv.NewWriter(to)
	if err := w.Write(listedColumns[:]); err != nil {
		return err
	}
	for _, l := range list {
		year, petrol := "", "no"
		if l.Year != 0 {
			year = strconv.Itoa(l.Year)
		}
		if l.Petrol {
			petrol = "yes"
		}
		err := w.Write([]string{
			l.ID, l.Label, l.Class, year, digits(float64(l.Consumption), -1), digits(float64(l.Range), -1), petrol, l.printedHours(),
			ifTold(l.Usable), ifTold(l.OnboardKW), ifTold(l.OnboardAmps), l.Inlet.ifTold(), l.DCInlet.ifTold(), ifTold(l.DCPeak),
		})
		if err != nil {
			return err
		}
	}
	w.Flush()
	return w.Error()
}

func digits(v float64, n int) string { return strconv.FormatFloat(v, 'f', n, 64) }

func ifTold[T ~float64](s Span[T]) string {
	if !s.Told {
		return ""
	}
	return digits(float64(s.Likely), -1)
}

func (g Guess) ifTold() string {
	if !g.Told {
		return ""
	}
	return g.Word
}

// printedHours has as many decimals as the row had: they say how far the time
// was rounded.
func (l Listed) printedHours() string {
	if !l.Hours.Told {
		return ""
	}
	half, n := float64(l.Hours.High-l.Hours.Likely), 0
	for ; half < 0.4 && n < 6; n++ {
		half *= 10
	}
	return digits(float64(l.Hours.Likely), n)
}
