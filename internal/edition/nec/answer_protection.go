package nec

import (
	"math"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// hair forgives the last bits of a product such as 1.25 × 48.
const hair = 1e-9

func positive(field string, a unit.Amps) error {
	if !(a > 0) || math.IsInf(float64(a), 0) {
		return fault.Invalid(field, float64(a), "more than 0 A")
	}
	return nil
}

// NextDevice is the next standard rating at or above a current.
//
// Source: NEC 240.6(A).
func (b *Book) NextDevice(a unit.Amps) (edition.Cited[unit.Amps], error) {
	if err := positive("current", a); err != nil {
		return edition.Cited[unit.Amps]{}, err
	}
	for _, d := range b.devices {
		if d.Value >= a-hair {
			return d, nil
		}
	}
	return edition.Cited[unit.Amps]{}, b.silent("a standard device for "+unit.Print(a, 1)+" A", "ratings end at 800 A here")
}

// LargestDevice is the standard rating the ampacity reaches, or the next one
// above when the ampacity is not itself standard, within the small-conductor
// limit. It holds for one outlet; it never lends ampacity to a load.
//
// Source: NEC 240.4(B), 240.4(D).
func (b *Book) LargestDevice(s edition.Size, m edition.Material, ampacity unit.Amps) (edition.Cited[unit.Amps], error) {
	if err := b.known(s, m); err != nil {
		return edition.Cited[unit.Amps]{}, err
	}
	if err := positive("ampacity", ampacity); err != nil {
		return edition.Cited[unit.Amps]{}, err
	}
	largest := b.devices[0]
	for _, d := range b.devices {
		if float64(d.Value) > b.nextLimit.Value {
			break
		}
		largest = d
		if d.Value >= ampacity-hair {
			break
		}
	}
	if e := &b.small[m][s.Rank()]; e.there && e.cited.Value < largest.Value {
		return e.cited, nil
	}
	return largest, nil
}

// ContinuousFactor is 1.25.
//
// Source: NEC 210.19(A), 210.20(A), 625.41.
func (b *Book) ContinuousFactor() edition.Cited[float64] { return b.continuous }

// ReceptacleFits asks at least the circuit of a single receptacle.
//
// Source: NEC 210.21(B)(1).
func (b *Book) ReceptacleFits(receptacle, device unit.Amps) edition.Cited[bool] {
	return edition.Cited[bool]{Value: receptacle >= device, Source: b.single}
}

// SharedReceptacleFits follows the table for two or more receptacles.
//
// Source: NEC Table 210.21(B)(3).
func (b *Book) SharedReceptacleFits(receptacle, device unit.Amps) edition.Cited[bool] {
	for i := range b.sharedSizes {
		if row := &b.sharedSizes[i]; row.circuit == device {
			return edition.Cited[bool]{Value: receptacle >= row.smallest && receptacle <= row.largest, Source: row.source}
		}
	}
	return edition.Cited[bool]{Value: false, Source: b.single}
}

// ReceptacleShare is 0.8.
//
// Source: NEC Table 210.21(B)(2).
func (b *Book) ReceptacleShare() edition.Cited[float64] { return b.share }

// GroundingConductor is the first row at or above the device.
//
// Source: NEC Table 250.122.
func (b *Book) GroundingConductor(device unit.Amps, m edition.Material) (edition.Cited[edition.Size], error) {
	if err := positive("device", device); err != nil {
		return edition.Cited[edition.Size]{}, err
	}
	if m != edition.Copper && m != edition.Aluminium {
		return edition.Cited[edition.Size]{}, fault.Invalid("material", m, "copper or aluminium")
	}
	for i := range b.grounding {
		if device <= b.grounding[i].to {
			return b.grounding[i].size[m], nil
		}
	}
	return edition.Cited[edition.Size]{}, b.silent("grounding conductor of "+unit.Print(device, 0)+" A", "the table here ends at 800 A")
}

// GroundingIncreased grows a wire-type grounding conductor in proportion of
// circular mils. A shortage under 0.1 % is table rounding; it is never larger
// than the hots.
//
// Source: NEC 250.122(B), 250.122(A).
func (b *Book) GroundingIncreased(device unit.Amps, m edition.Material, minimum, installed edition.Size) (edition.Cited[edition.IncreasedGround], error) {
	base, err := b.GroundingConductor(device, m)
	if err != nil {
		return edition.Cited[edition.IncreasedGround]{}, err
	}
	for _, s := range []edition.Size{minimum, installed} {
		if err := b.known(s, m); err != nil {
			return edition.Cited[edition.IncreasedGround]{}, err
		}
	}
	ratio := math.Max(1, float64(b.cmil[installed.Rank()].Value/b.cmil[minimum.Rank()].Value))
	need := float64(b.cmil[base.Value.Rank()].Value) * ratio
	out := edition.IncreasedGround{Need: edition.CircularMils(need), Size: installed}
	for r := base.Value.Rank(); r < installed.Rank(); r++ {
		if float64(b.cmil[r].Value) >= need*(1-b.rounding.Value) {
			out.Size = b.sizes[r-1]
			break
		}
	}
	if base.Value.Rank() >= installed.Rank() {
		out.Size = installed
	}
	src := b.increase
	if ratio == 1 {
		src = base.Source
	}
	return edition.Cited[edition.IncreasedGround]{Value: out, Source: src}, nil
}

// CableGround is what the cable usually has; read the jacket.
func (b *Book) CableGround(m edition.Method, s edition.Size) (edition.Cited[edition.Size], error) {
	if err := b.known(s, edition.Copper); err != nil {
		return edition.Cited[edition.Size]{}, err
	}
	grounds := b.grounds
	if m == edition.SER {
		grounds = b.serGrounds
	}
	if e := &grounds[s.Rank()]; e.there && m.Cable() {
		return e.cited, nil
	}
	return edition.Cited[edition.Size]{}, b.silent("grounding conductor in that cable of "+s.String(), "none is listed")
}

// ElectrodeConductor is by the largest service conductor.
//
// Source: NEC Table 250.66.
func (b *Book) ElectrodeConductor(s edition.Size, m edition.Material) (edition.Cited[edition.ElectrodeSizes], error) {
	if err := b.known(s, m); err != nil {
		return edition.Cited[edition.ElectrodeSizes]{}, err
	}
	for i := range b.electrode {
		if row := &b.electrode[i]; float64(b.cmil[s.Rank()].Value) <= row.to[m]+hair {
			return edition.Cited[edition.ElectrodeSizes]{Value: row.sizes, Source: row.source}, nil
		}
	}
	return edition.Cited[edition.ElectrodeSizes]{}, b.silent("electrode conductor for "+s.String(), "the table has no such row")
}
