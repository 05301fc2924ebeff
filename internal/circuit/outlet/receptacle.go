package outlet

import (
	"slices"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/fault/datafile"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Receptacle is one configuration a household may have.
type Receptacle struct {
	ID        string     // the configuration, "14-50", or with its device, "5-15 GFCI"
	Name      string     // "NEMA 14-50"
	Rated     unit.Volts // voltage rating of the device
	Nominal   unit.Volts // voltage it gives at home: 120 or 240
	Amps      unit.Amps  // current rating
	Most      unit.Amps  // largest setting on the face
	Poles     int        // poles of the device
	Wires     int        // wires, ground included
	Ground    bool       // has an equipment ground
	Neutral   bool       // has a neutral
	Shape     string     // what it looks like, in plain words
	Uses      string     // where it is met
	Nicknames []string   // what people call it; a nickname never settles it
	Confused  []string   // ids it is taken for
	Source    *working.Source

	breakers         [2]unit.Amps
	chargingBreakers dated[[2]unit.Amps]
	charging         dated[string]
	series           string
	bit              uint
}

// Level is 1 for a 120 V face and 2 for any other.
func (r *Receptacle) Level() int {
	if r.Nominal == 120 {
		return 1
	}
	return 2
}

// Breakers is the least and the most breaker rating the face may stand behind.
//
// Source: NFPA 70, Table 210.21(B)(3).
func (r *Receptacle) Breakers() (least, most unit.Amps) { return r.breakers[0], r.breakers[1] }

// Confusion is a pair of faces that are taken for one another.
type Confusion struct {
	Pair [2]string
	Tell string // what tells them apart
}

// dated holds what changed by edition; the newest year not after the one asked
// for is in force.
type dated[T any] map[int]T

func (d dated[T]) in(year int) (v T, ok bool) {
	newest := 0
	for y := range d {
		if y <= year && y > newest {
			newest = y
		}
	}
	v, ok = d[newest]
	return v, ok
}

type receptacleRow struct {
	ID               string            `yaml:"id"`
	Name             string            `yaml:"name"`
	Rated            float64           `yaml:"rated"`
	Nominal          float64           `yaml:"nominal"`
	Amps             float64           `yaml:"amps"`
	Most             float64           `yaml:"amps_most"`
	Poles            int               `yaml:"poles"`
	Wires            int               `yaml:"wires"`
	Ground           bool              `yaml:"ground"`
	Neutral          bool              `yaml:"neutral"`
	Breakers         []float64         `yaml:"breakers"`
	ChargingBreakers map[int][]float64 `yaml:"charging_breakers"`
	Charging         map[int]string    `yaml:"charging"`
	Series           string            `yaml:"series"`
	Shape            string            `yaml:"shape"`
	Uses             string            `yaml:"uses"`
	Nicknames        []string          `yaml:"nicknames"`
	Confused         []string          `yaml:"confused"`
}

type receptacleFile struct {
	Publication string          `yaml:"publication"`
	Section     string          `yaml:"section"`
	Status      working.Status  `yaml:"status"`
	Unit        string          `yaml:"unit"`
	Receptacles []receptacleRow `yaml:"receptacles"`
	Confusions  []struct {
		Pair []string `yaml:"pair"`
		Tell string   `yaml:"tell"`
	} `yaml:"confusions"`
}

var chargingWords = []string{"no", "portable", "fastened", "yes", "listed"}

func (b *Rulebook) loadReceptacles(doc *receptacleFile, f *datafile.File) error {
	if doc.Publication == "" || !doc.Status.Known() || doc.Unit == "" {
		return fault.InFile(f.Name, 1, "publication", doc.Publication, "a publication, a known status and a unit")
	}
	if n := len(doc.Receptacles); n == 0 || n > 32 {
		return fault.InFile(f.Name, 1, "receptacles", n, "1 to 32 rows")
	}
	for i, row := range doc.Receptacles {
		if field, got, accepted := row.trouble(); field != "" {
			return fault.InFile(f.Name, f.Line("receptacles", i, field), field, got, accepted)
		}
		if b.find(row.ID) != nil {
			return fault.InFile(f.Name, f.Line("receptacles", i, "id"), "id", row.ID, "each receptacle once")
		}
		b.receptacles = append(b.receptacles, row.receptacle(uint(i), doc))
	}
	return b.checkConfusions(doc, f)
}

func (row *receptacleRow) trouble() (field string, got any, accepted string) {
	switch {
	case row.ID == "" || row.Name == "":
		return "id", row.ID, "an id and a name"
	case row.Rated <= 0 || (row.Nominal != 120 && row.Nominal != 240):
		return "nominal", row.Nominal, "a rating, and 120 or 240 V at home"
	case !slices.Contains([]float64{15, 20, 30, 50, 60}, row.Amps):
		return "amps", row.Amps, "15, 20, 30, 50 or 60 A"
	case row.Most <= 0 || row.Most > 0.8*row.Amps+1e-9:
		return "amps_most", row.Most, "at most 80 % of the rating"
	case row.Poles < 2 || row.Poles > 3 || row.Wires != row.Poles+flag(row.Ground):
		return "wires", row.Wires, "one wire a pole and one for the ground"
	case !ordered(row.Breakers):
		return "breakers", row.Breakers, "the least and the most breaker in amperes"
	case row.Shape == "" || row.Uses == "":
		return "shape", row.Shape, "shape and uses in plain words"
	}
	for _, pair := range row.ChargingBreakers {
		if !ordered(pair) {
			return "charging_breakers", pair, "the least and the most breaker in amperes"
		}
	}
	if _, ok := dated[string](row.Charging).in(2017); !ok {
		return "charging", row.Charging, "a word from 2017 on"
	}
	for _, w := range row.Charging {
		if !slices.Contains(chargingWords, w) {
			return "charging", w, strings.Join(chargingWords, ", ")
		}
	}
	return "", nil, ""
}

func flag(b bool) int {
	if b {
		return 1
	}
	return 0
}

func ordered(pair []float64) bool {
	return len(pair) == 2 && pair[0] >= 10 && pair[0] <= pair[1] && pair[1] <= 125
}

func (row *receptacleRow) receptacle(bit uint, doc *receptacleFile) *Receptacle {
	r := &Receptacle{
		ID: row.ID, Name: row.Name, Rated: unit.Volts(row.Rated), Nominal: unit.Volts(row.Nominal),
		Amps: unit.Amps(row.Amps), Most: unit.Amps(row.Most), Poles: row.Poles, Wires: row.Wires,
		Ground: row.Ground, Neutral: row.Neutral, Shape: row.Shape, Uses: row.Uses,
		Nicknames: row.Nicknames, Confused: row.Confused,
		Source:   &working.Source{Publication: doc.Publication, Section: doc.Section, Cell: row.ID, Status: doc.Status},
		breakers: pairOf(row.Breakers), charging: row.Charging, series: row.Series, bit: bit,
		chargingBreakers: dated[[2]unit.Amps]{2017: pairOf(row.Breakers)},
	}
	for year, pair := range row.ChargingBreakers {
		r.chargingBreakers[year] = pairOf(pair)
	}
	return r
}

func pairOf(p []float64) [2]unit.Amps { return [2]unit.Amps{unit.Amps(p[0]), unit.Amps(p[1])} }

func (b *Rulebook) checkConfusions(doc *receptacleFile, f *datafile.File) error {
	for i, row := range doc.Receptacles {
		for _, id := range row.Confused {
			if b.find(id) == nil {
				return fault.InFile(f.Name, f.Line("receptacles", i, "confused"), "confused", id, "ids of this file")
			}
		}
	}
	for i, c := range doc.Confusions {
		if len(c.Pair) != 2 || b.find(c.Pair[0]) == nil || b.find(c.Pair[1]) == nil || c.Tell == "" {
			return fault.InFile(f.Name, f.Line("confusions", i, "pair"), "pair", c.Pair, "two ids of this file and what tells them apart")
		}
		b.confusions = append(b.confusions, Confusion{Pair: [2]string{c.Pair[0], c.Pair[1]}, Tell: c.Tell})
	}
	return nil
}
