package panel

import (
	"math"

	"daybreak/internal/unit"
)

// LightingDemand is general lighting with the small-appliance and laundry
// circuits after the demand tiers, for one dwelling or for units of one area.
// Area in all, circuits in all.
//
// Source: NEC 220.52 and Table 220.42 (220.45 from 2023).
func (r *Rules) LightingDemand(area unit.SquareFeet, small, laundry int) unit.VoltAmps {
	return unit.VoltAmps(r.tiered(r.generalVA(float64(area), small, laundry)))
}

// generalVA is the connected lighting, small-appliance and laundry load.
func (r *Rules) generalVA(area float64, small, laundry int) float64 {
	return area*r.lighting.perSqFt + float64(small)*r.small.perCircuit + float64(laundry)*r.laundry.perCircuit
}

func (r *Rules) tiered(va float64) float64 {
	t := &r.tiers
	first := math.Min(va, t.first)
	next := math.Max(0, math.Min(va, t.nextTo)-t.first)
	rest := math.Max(0, va-t.nextTo)
	return first + next*t.nextFactor + rest*t.restFactor
}

// FastenedDemand is the group of fastened-in-place appliances at 75 % when
// there are four or more of the size the edition counts. Cooking, dryers, heat,
// cooling and chargers are never in it.
//
// Source: NEC 220.53.
func (r *Rules) FastenedDemand(va []unit.VoltAmps) unit.VoltAmps {
	var g fastenedGroup
	for _, x := range va {
		g.add(r, float64(x), 1)
	}
	return unit.VoltAmps(g.demand(r))
}

// fastenedGroup gathers the appliances of 220.53. Those below the size the
// edition counts stay at full load and make no fourth.
type fastenedGroup struct {
	count       int
	group, full float64
}

func (g *fastenedGroup) add(r *Rules, va float64, count int) {
	if va >= r.fastened.leastVA {
		g.count += count
		g.group += va * float64(count)
		return
	}
	g.full += va * float64(count)
}

func (g *fastenedGroup) connected() float64 { return g.group + g.full }

func (g *fastenedGroup) demand(r *Rules) float64 {
	if g.count >= r.fastened.least {
		return g.group*r.fastened.factor + g.full
	}
	return g.connected()
}

// DryerDemand is the load of household dryers: each at 5000 VA or its plate,
// the larger, then the table.
//
// Source: NEC 220.54 and Table 220.54.
func (r *Rules) DryerDemand(va []unit.VoltAmps) unit.VoltAmps {
	var d dryers
	for _, x := range va {
		d.add(r, float64(x), 1)
	}
	return unit.VoltAmps(d.demand(r))
}

type dryers struct {
	count int
	va    float64
}

func (d *dryers) add(r *Rules, va float64, count int) {
	d.count += count
	d.va += math.Max(va, r.dryer.least) * float64(count)
}

func (d *dryers) demand(r *Rules) float64 {
	row := rowFor(r.dryer.rows, float64(d.count))
	if row == nil {
		return 0
	}
	percent := row[1] - row[2]*(float64(d.count)-row[0])
	return d.va * percent / 100
}

// rowFor finds the last row whose first column is not above x.
func rowFor(rows [][]float64, x float64) (found []float64) {
	for _, row := range rows {
		if row[0] > x {
			break
		}
		found = row
	}
	return found
}
