package charging

import (
	"fmt"
	"io/fs"
	"strings"
	"time"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Months holds a value for each month, January first.
type Months [12]unit.Fahrenheit

// Coldest is the month with the lowest mean, the earlier one at a tie.
func (m Months) Coldest() (time.Month, unit.Fahrenheit) {
	at := 0
	for i, f := range m {
		if f < m[at] {
			at = i
		}
	}
	return time.Month(at + 1), m[at]
}

func (m Months) check() error {
	for i, f := range m {
		if within("", f, -80, 130, "") != nil { // the name is made only when it is needed
			return within(fmt.Sprintf("tavg_f[%d]", i), f, -80, 130, "°F")
		}
	}
	return nil
}

// Station is a place whose monthly normals are known.
type Station struct {
	ID       string // WBAN number where there is one
	Country  string
	Region   string
	Location string
	Period   string // years the normals are of
	Mean     Months // normal daily mean temperature
	Source   *working.Source
}

// Climates is the table of stations. It is read-only after loading.
type Climates struct {
	rows []Station
	byID map[string]int
}

const climateFile = "climate.csv"

var climateColumns = []string{"id", "country", "region", "location", "period",
	"tavg_f_01", "tavg_f_02", "tavg_f_03", "tavg_f_04", "tavg_f_05", "tavg_f_06",
	"tavg_f_07", "tavg_f_08", "tavg_f_09", "tavg_f_10", "tavg_f_11", "tavg_f_12", "status", "source"}

// LoadClimates reads climate.csv. Each broken row is a fault with file, line
// and column.
func LoadClimates(fsys fs.FS) (Climates, error) {
	c := Climates{byID: map[string]int{}}
	err := readTable(fsys, climateFile, climateColumns, func(w *row) {
		s := Station{
			ID: w.text("id"), Country: w.text("country"), Region: w.text("region"),
			Location: w.text("location"), Period: w.text("period"), Source: w.source(w.fields["id"]),
		}
		for i := range s.Mean {
			s.Mean[i] = unit.Fahrenheit(w.number(climateColumns[5+i], -80, 130))
		}
		if _, twice := c.byID[s.ID]; twice {
			w.refuse("id", s.ID, "each id once")
		}
		c.byID[s.ID] = len(c.rows)
		c.rows = append(c.rows, s)
	})
	if err != nil {
		return Climates{}, err
	}
	return c, nil
}

// List returns all stations in the order of the table.
func (c Climates) List() []Station { return append([]Station(nil), c.rows...) }

// Station returns a station by its id, or by its location's name without
// regard to case; an unknown one is a NotFound fault.
func (c Climates) Station(id string) (Station, error) {
	if i, there := c.byID[id]; there {
		return c.rows[i], nil
	}
	for _, s := range c.rows {
		if strings.EqualFold(s.Location, id) {
			return s, nil
		}
	}
	return Station{}, fault.NotFound("climate_station", id)
}
