package panel

import (
	"math"

	"daybreak/internal/unit"
)

// Zone is a climate zone of the residential energy surveys.
type Zone uint8

// The zones.
const (
	ZoneUnknown Zone = iota
	VeryColdCold
	MixedHumid
	MixedDryHotDry
	HotHumid
	Marine
	zoneCount
)

var zoneNames = []string{"unknown", "very_cold_cold", "mixed_humid", "mixed_dry_hot_dry", "hot_humid", "marine"}

// String is the word of the zone.
func (z Zone) String() string { return nameOf(zoneNames, int(z)) }

// ZoneOf finds a zone by its word; any other word is [ZoneUnknown].
func ZoneOf(word string) Zone {
	for i, name := range zoneNames {
		if name == word {
			return Zone(i)
		}
	}
	return ZoneUnknown
}

// zoneValues is a mapping from every zone to a number.
type zoneValues map[string]float64

func (v zoneValues) all(r *resolver, field string) (out [zoneCount]float64) {
	for z := range zoneCount {
		x, ok := v[z.String()]
		if !ok || !unit.Finite(x) || x < 0 {
			r.refuse(0, field+"."+z.String(), x, "a number for every zone, and for unknown")
		}
		out[z] = x
	}
	return out
}

func (z Zone) known() Zone {
	if z >= zoneCount {
		return ZoneUnknown
	}
	return z
}

// CoolingBySize gives the plate of a central unit by its tons, rounded up to
// the next size of the table; above it the last row is scaled.
//
// Source: rated-load current and fan at 240 V, engineering judgement.
func (p *Appliances) CoolingBySize(tons float64) unit.VoltAmps {
	if !(tons > 0) {
		return 0
	}
	for _, row := range p.cooling {
		if tons <= row[0] {
			return unit.VoltAmps(row[1])
		}
	}
	last := p.cooling[len(p.cooling)-1]
	return unit.VoltAmps(last[1] * math.Min(tons, 4*last[0]) / last[0])
}

// CoolingByArea gives the plate of a central unit nobody has read: floor area
// per ton by climate, in half tons from 1.5 to 5.
//
// Source: engineering judgement.
func (p *Appliances) CoolingByArea(area unit.SquareFeet, z Zone) unit.VoltAmps {
	if !(area > 0) {
		return 0
	}
	tons := math.Round(2*float64(area)/p.perTon[z.known()]) / 2
	return p.CoolingBySize(math.Min(5, math.Max(1.5, tons)))
}

// FurnaceByArea gives the kits of an electric furnace, or the strips of a heat
// pump, nobody has read.
//
// Source: engineering judgement.
func (p *Appliances) FurnaceByArea(area unit.SquareFeet, z Zone) unit.VoltAmps {
	if !(area > 0) {
		return 0
	}
	kits := math.Ceil(float64(area) * p.furnace[z.known()] / p.kitW)
	return unit.VoltAmps(kits * p.kitW)
}

// BaseboardByArea gives the room heaters of a house nobody has counted, and
// how many of them have a control of their own.
//
// Source: 10 W per square foot, from memory.
func (p *Appliances) BaseboardByArea(area unit.SquareFeet) (va unit.VoltAmps, units int) {
	if !(area > 0) {
		return 0, p.units
	}
	return unit.VoltAmps(float64(area) * p.base), p.units
}
