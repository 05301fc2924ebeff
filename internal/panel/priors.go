package panel

import (
	"errors"
	"io/fs"
	"math"
	"strconv"

	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Chance is a value and its share.
type Chance[T any] struct {
	Value T
	P     float64
}

// Distribution is what to think of a fact nobody knows. Shares sum to one.
type Distribution[T any] []Chance[T]

// At gives the value below which a share u of the distribution lies, for
// drawing: u from 0 to 1, anything beyond taken to the nearer end.
func (d Distribution[T]) At(u float64) (v T) {
	sum := 0.0
	for i := range d {
		v = d[i].Value
		if sum += d[i].P; u < sum {
			break
		}
	}
	return v
}

// Told is whether something was said, and what.
type Told uint8

// The words.
const (
	Unsaid Told = iota
	ToldNo
	ToldYes
)

// Region is a part of the country, as far as a prior differs by it.
type Region uint8

// The regions.
const (
	RegionUnknown Region = iota
	California
	ArizonaHawaii
	Northeast
	South
	Elsewhere
	regionCount
)

var regionNames = []string{"unknown", "california", "arizona_hawaii", "northeast", "south", "elsewhere"}

// Era is when a home was built, as an index of the table of eras; 0 is
// unknown. Obtain one with [Priors.Era].
type Era uint8

const eraCount = 6

// Home is what is known of a home when the rest is to be drawn. Its zero value
// knows nothing.
type Home struct {
	Era          Era
	Dwelling     Dwelling
	Zone         Zone
	Region       Region
	FloorArea    unit.SquareFeet // 0 while unsaid; it only shifts odds
	ElectricHeat Told
	Source       Told // solar or battery
	SpaOrPool    Told
}

// Priors are the distributions for facts a household does not know. They are
// read-only.
type Priors struct {
	doc     priorsDoc
	service [5]serviceTable // by Dwelling
	share   [4][zoneCount]float64
	heat    [zoneCount][]float64
	dryer   [regionCount]float64
	solar   [regionCount]float64
	chance  [loadKinds]float64
	outlets Distribution[string]
}

// The rows of Priors.share.
const (
	shareHeat = iota
	shareWater
	shareCooking
	shareCooling
)

type regionValues map[string]float64

func (v regionValues) all(r *resolver, field string) (out [regionCount]float64) {
	for i := range regionCount {
		x, ok := v[regionNames[i]]
		if !ok || !share(x) {
			r.refuse(0, field+"."+regionNames[i], x, "a share of 0 to 1 for every region, and for unknown")
		}
		out[i] = x
	}
	return out
}

func share(x float64) bool { return x >= 0 && x <= 1 }

// OpenPriors reads priors.yaml. Every row of shares must sum to one, every
// table must name every era, zone and region it is keyed by.
func OpenPriors(fsys fs.FS) (*Priors, error) {
	r := &resolver{file: "priors.yaml"}
	p := &Priors{}
	if err := decodeFile(fsys, r.file, &p.doc, &r.root); err != nil {
		return nil, err
	}
	d := &p.doc
	p.checkEras(r)
	p.service = [5]serviceTable{d.Service.House, d.Service.Row, d.Service.Flat, d.Service.Mobile, d.Service.House}
	for i, t := range p.service {
		if len(t.Shares) != eraCount {
			r.refuse(0, "service_amps."+dwellingNames[i], len(t.Shares), "a row for each of the six eras")
		}
		for _, row := range t.Shares {
			r.sums("service_amps."+dwellingNames[i], row, len(t.Amps))
		}
	}
	p.share = [4][zoneCount]float64{
		d.Fuel.Heat.all(r, "fuel.electric_main_heat"), d.Fuel.Water.all(r, "fuel.electric_water_heating"),
		d.Fuel.Cooking.all(r, "fuel.electric_cooking_any"), d.Fuel.Cooling.all(r, "fuel.air_conditioning"),
	}
	p.heat = [zoneCount][]float64{d.Heat.Any, d.Heat.Cold, d.Heat.Mixed, d.Heat.Dry, d.Heat.Hot, d.Heat.Marine}
	for z, row := range p.heat {
		r.sums("heat."+zoneNames[z], row, 4)
	}
	r.sums("cooling", []float64{d.Cooling.Window, d.Cooling.Central, d.Cooling.Mini}, 3)
	p.dryer, p.solar = d.Dryer.Electric.all(r, "dryer.electric"), d.Source.Solar.all(r, "source.solar")
	r.sums("source.kinds", d.Source.Kinds, 3)
	r.sums("free_spaces.with_pair", d.FreeSpaces.Pair, 5)
	r.sums("free_spaces.without", d.FreeSpaces.Without, 5)
	p.checkRest(r)
	p.readOutlets(r)
	l := &d.Loads
	p.chance[PoolPump], p.chance[Spa], p.chance[WellPump] = l.Pool, l.Spa, l.Well
	p.chance[Sauna], p.chance[Welder], p.chance[ExistingCharger] = l.Sauna, l.Welder, l.Charger
	if err := errors.Join(r.faults...); err != nil {
		return nil, err
	}
	return p, nil
}

var dwellingNames = []string{"house", "row", "flat", "mobile", "other"}

// String is the word of the dwelling.
func (d Dwelling) String() string { return nameOf(dwellingNames, int(d)) }

// sums refuses a row of shares that does not sum to one.
func (r *resolver) sums(field string, row []float64, n int) {
	sum := 0.0
	ok := len(row) == n
	for _, x := range row {
		sum += x
		ok = ok && share(x)
	}
	if !ok || math.Abs(sum-1) > 1e-6 {
		r.refuse(0, field, row, "shares that sum to one")
	}
}

func (p *Priors) checkEras(r *resolver) {
	stock := make([]float64, 0, eraCount)
	for i, e := range p.doc.Eras {
		stock = append(stock, e.Stock)
		if i > 0 && e.Before <= p.doc.Eras[i-1].Before {
			r.refuse(0, "eras."+e.Name, e.Before, "years in ascending order")
		}
	}
	r.sums("eras", stock, eraCount)
}

func (p *Priors) checkRest(r *resolver) {
	d := &p.doc
	r.eraShares("free_pair.by_era", d.FreePair.ByEra)
	r.eraShares("fuses.by_era", d.Fuses.ByEra)
	r.eraShares("failure_list.by_era", d.Failure.ByEra)
	r.eraShares("large_outlet.attached_garage_by_era", d.LargeOutlet.Garage)
	if len(d.Fuel.ByEra) != eraCount {
		r.refuse(0, "fuel.heat_odds_by_era", len(d.Fuel.ByEra), "a factor for each of the six eras")
	}
	for _, row := range d.FreePair.ByService {
		if len(row) != 2 || !share(row[1]) {
			r.refuse(0, "free_pair.by_service", row, "a rating and a share a row")
		}
	}
	parking := make([]float64, 0, 3)
	for _, row := range d.Parking.Rows {
		if len(row) != 4 || !(row[1] <= row[2] && row[2] <= row[3]) {
			r.refuse(0, "panel_to_parking", row, "a share and low, likely and high feet a row")
			return
		}
		parking = append(parking, row[0])
	}
	r.sums("panel_to_parking", parking, len(parking))
	for _, x := range [...][2]string{
		{"service_amps", d.Service.Status}, {"fuel", d.Fuel.Status}, {"heat", d.Heat.Status}, {"cooling", d.Cooling.Status},
		{"dryer", d.Dryer.Status}, {"loads", d.Loads.Status}, {"source", d.Source.Status}, {"free_pair", d.FreePair.Status},
		{"free_spaces", d.FreeSpaces.Status}, {"fuses", d.Fuses.Status}, {"failure_list", d.Failure.Status},
		{"supply_208", d.Wye.Status}, {"outlet_near", d.OutletNear.Status}, {"large_outlet", d.LargeOutlet.Status},
		{"panel_to_parking", d.Parking.Status}, {"aluminium_branch", d.Aluminium.Status},
	} {
		if !working.Status(x[1]).Known() {
			r.refuse(0, x[0]+".status", x[1], "verified, from memory, computed or engineering judgement")
		}
	}
}

// eraShares refuses a row that is not a share for each era.
func (r *resolver) eraShares(field string, row []float64) {
	ok := len(row) == eraCount
	for _, x := range row {
		ok = ok && share(x)
	}
	if !ok {
		r.refuse(0, field, row, "a share of 0 to 1 for each of the six eras")
	}
}

// readOutlets reads the faces of large outlets with their shares.
func (p *Priors) readOutlets(r *resolver) {
	shares := make([]float64, 0, len(p.doc.LargeOutlet.Kinds))
	for _, row := range p.doc.LargeOutlet.Kinds {
		x := -1.0
		if len(row) == 2 {
			if v, err := strconv.ParseFloat(row[1], 64); err == nil {
				x = v
			}
			p.outlets = append(p.outlets, Chance[string]{row[0], x})
		}
		shares = append(shares, x)
	}
	r.sums("large_outlet.kinds", shares, len(shares))
}
