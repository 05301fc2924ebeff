package nec

import (
	"fmt"
	"math"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
)

// insulation is the row of areas a method's conductor has.
func insulation(m edition.Method, bare bool) int {
	switch {
	case bare:
		return 2
	case m == edition.XHHW2:
		return 1
	}
	return 0
}

func (b *Book) conductorArea(p edition.Pull) (float64, error) {
	if err := b.known(p.Size, edition.Copper); err != nil {
		return 0, err
	}
	if p.Count < 1 || p.Count > 100 {
		return 0, fault.Invalid("pulls.count", p.Count, "1 to 100")
	}
	if !p.Bare && p.Method.Cable() {
		return 0, b.silent("the area of a cable in a raceway", "cables are not drawn into raceways here")
	}
	e := &b.area[insulation(p.Method, p.Bare)][p.Size.Rank()]
	if !e.there {
		return 0, b.silent("area of "+p.Size.String(), "Chapter 9 gives none here")
	}
	return float64(e.cited.Value) * float64(p.Count), nil
}

func (b *Book) areasOf(r edition.Raceway) ([]entry[edition.SquareInches], error) {
	if int(r) >= len(b.raceways) || b.raceways[r] == nil {
		return nil, fault.Invalid("raceway", r, "a raceway of "+b.name)
	}
	return b.raceways[r], nil
}

// RacewayFor sums plain areas, grounding conductor included, without rounding.
//
// Source: NEC Chapter 9 Tables 1, 4, 5 and 8.
func (b *Book) RacewayFor(r edition.Raceway, c edition.Contents) (edition.Cited[edition.Filled], error) {
	areas, err := b.areasOf(r)
	if err != nil {
		return edition.Cited[edition.Filled]{}, err
	}
	sum, n := 0.0, 0
	for _, p := range c.Pulls {
		if p.Count == 0 {
			continue
		}
		a, err := b.conductorArea(p)
		if err != nil {
			return edition.Cited[edition.Filled]{}, err
		}
		sum, n = sum+a, n+p.Count
	}
	if n == 0 {
		return edition.Cited[edition.Filled]{}, fault.Invalid("pulls", 0, "at least one conductor")
	}
	share := &b.fill[min(n, len(b.fill))-1]
	if c.Nipple {
		share = &b.nipple
	}
	for i := range areas {
		if !areas[i].there {
			continue
		}
		area := float64(areas[i].cited.Value)
		if sum <= area*share.Value/100+hair {
			return edition.Cited[edition.Filled]{Value: edition.Filled{Trade: b.trades[i], FillPercent: 100 * sum / area}, Source: areas[i].cited.Source}, nil
		}
	}
	return edition.Cited[edition.Filled]{}, b.silent("a raceway for those conductors", "the largest trade size here is too small")
}

// RacewayCount is how many like conductors fit; a fraction of 0.8 counts whole.
//
// Source: NEC Chapter 9 Table 1 and its note 7.
func (b *Book) RacewayCount(r edition.Raceway, t edition.Trade, m edition.Method, s edition.Size) (edition.Cited[int], error) {
	areas, err := b.areasOf(r)
	if err != nil {
		return edition.Cited[int]{}, err
	}
	each, err := b.conductorArea(edition.Pull{Count: 1, Size: s, Method: m})
	if err != nil {
		return edition.Cited[int]{}, err
	}
	for i := range b.trades {
		if b.trades[i] != t || !areas[i].there {
			continue
		}
		area := float64(areas[i].cited.Value)
		for k := len(b.fill) - 1; k >= 0; k-- {
			n := int(math.Floor(area*b.fill[k].Value/100/each + 1 - b.countUp + hair))
			if n > k {
				if k < len(b.fill)-1 {
					n = k + 1
				}
				return edition.Cited[int]{Value: n, Source: areas[i].cited.Source}, nil
			}
		}
		return edition.Cited[int]{Value: 0, Source: areas[i].cited.Source}, nil
	}
	return edition.Cited[int]{}, b.silent("trade size "+fmt.Sprintf("%.12q", t), "that raceway does not come in it")
}

// SleeveFor guards one buried cable in PVC 80.
//
// Source: NEC Chapter 9 Table 1 and its notes 5 and 9; engineering judgement.
func (b *Book) SleeveFor(m edition.Method, s edition.Size, conductors int) (edition.Cited[edition.Trade], error) {
	if err := b.known(s, edition.Copper); err != nil {
		return edition.Cited[edition.Trade]{}, err
	}
	if conductors == 2 || conductors == 3 {
		if e := &b.sleeves[s.Rank()][conductors-2]; e.there && m == edition.UFB {
			return e.cited, nil
		}
	}
	return edition.Cited[edition.Trade]{}, b.silent("a sleeve for "+s.String()+" cable", "widths are entered for UF-B to 1 AWG")
}

// BoxFill sums the volume allowances.
//
// Source: NEC 314.16(B).
func (b *Book) BoxFill(c edition.BoxContents) (edition.Cited[edition.CubicInches], error) {
	sum := 0.0
	for _, p := range c.Conductors {
		if p.Count == 0 {
			continue
		}
		v, err := b.volume(p.Size)
		if err != nil {
			return edition.Cited[edition.CubicInches]{}, err
		}
		sum += v * float64(p.Count)
	}
	grounds, largest := 0, 0.0
	for _, p := range c.Grounds {
		if p.Count == 0 {
			continue
		}
		v, err := b.volume(p.Size)
		if err != nil {
			return edition.Cited[edition.CubicInches]{}, err
		}
		grounds, largest = grounds+p.Count, math.Max(largest, v)
	}
	if grounds > 0 {
		sum += largest * (1 + b.boxRules.further*math.Max(0, float64(grounds)-b.boxRules.free))
	}
	if !c.Clamp.None() {
		v, err := b.volume(c.Clamp)
		if err != nil {
			return edition.Cited[edition.CubicInches]{}, err
		}
		sum += v * b.boxRules.clamps
	}
	if !c.Device.None() {
		v, err := b.volume(c.Device)
		if err != nil {
			return edition.Cited[edition.CubicInches]{}, err
		}
		sum += v * b.boxRules.gang * float64(max(1, c.Gangs))
	}
	return edition.Cited[edition.CubicInches]{Value: edition.CubicInches(sum), Source: b.boxSource}, nil
}

func (b *Book) volume(s edition.Size) (float64, error) {
	if err := b.known(s, edition.Copper); err != nil {
		return 0, err
	}
	e := &b.allowance[s.Rank()]
	if !e.there {
		return 0, b.silent("box volume of "+s.String(), "no allowance is given above 6 AWG; 314.28 asks by raceway size")
	}
	return float64(e.cited.Value), nil
}

// BoxFor is the smallest listed box of at least that volume.
//
// Source: NEC Table 314.16(A).
func (b *Book) BoxFor(v edition.CubicInches) (edition.Cited[edition.Box], error) {
	if !(v >= 0) {
		return edition.Cited[edition.Box]{}, fault.Invalid("volume", float64(v), "0 in³ or more")
	}
	for _, box := range b.boxes {
		if box.Value.Volume >= v-hair {
			return box, nil
		}
	}
	return edition.Cited[edition.Box]{}, b.silent("a standard box for that volume", "the table here ends at 42 in³")
}

// Supports is how the method is fastened; PVC by its trade size.
//
// Source: NEC 334.30, 358.30, 352.30 and the like.
func (b *Book) Supports(m edition.Method, r edition.Raceway, t edition.Trade) (edition.Cited[edition.Supports], error) {
	key := ""
	switch r {
	case edition.NoRaceway:
		key = [edition.MethodKinds]string{edition.NMB: "NM-B", edition.UFB: "UF-B", edition.SER: "SER", edition.MC: "MC"}[min(int(m), edition.MethodKinds-1)]
	case edition.PVC40, edition.PVC80:
		switch t {
		case "1/2", "3/4", "1":
			key = "PVC to 1"
		case "1-1/4", "1-1/2", "2":
			key = "PVC to 2"
		default:
			key = "PVC to 3"
		}
	case edition.EMT:
		key = "EMT"
	case edition.RMC, edition.AluminiumConduit:
		key = "RMC"
	case edition.IMC:
		key = "IMC"
	case edition.FMC:
		key = "FMC"
	case edition.LFMC:
		key = "LFMC"
	case edition.LFNCA, edition.LFNCB:
		key = "LFNC"
	case edition.ENT:
		key = "ENT"
	}
	s, ok := b.supports[key]
	if !ok {
		return s, b.silent("supports of that method", "no article is entered for it")
	}
	return s, nil
}

// FitIn is by cable when there is no raceway, else by raceway. A cable inside
// a raceway outdoors is as wet as the raceway (300.9), so it is judged as cable.
//
// Source: NEC 334.10, 334.12, 334.15, 300.9, 352.10, 358.10.
func (b *Book) FitIn(m edition.Method, r edition.Raceway, run edition.Run) edition.Cited[edition.Fitness] {
	if run < 1 || int(run) >= len(b.places) || int(m) >= edition.MethodKinds || int(r) >= edition.RacewayKinds {
		return edition.Cited[edition.Fitness]{Value: edition.Unfit, Source: b.places[edition.DryConcealed].source}
	}
	p := &b.places[run]
	f := p.raceway[r]
	if m.Cable() {
		f = p.cable[m]
	}
	if f == 0 {
		f = edition.Unfit
	}
	return edition.Cited[edition.Fitness]{Value: f, Source: p.source}
}

// CoverDepth is a cell of the cover table.
//
// Source: NEC Table 300.5(A) (before 2023: Table 300.5).
func (b *Book) CoverDepth(where edition.Burial, what edition.BuriedWiring) (edition.Cited[edition.Cover], error) {
	if where < 1 || int(where) >= edition.BurialKinds || what < 1 || int(what) >= edition.BuriedWiringKinds {
		return edition.Cited[edition.Cover]{}, fault.Invalid("burial", where, "a row and a column of the cover table")
	}
	return b.cover[where][what], nil
}

// Bends is 360 degrees between pull points.
//
// Source: NEC 358.26, 352.26.
func (b *Book) Bends() edition.Cited[float64] { return b.bends }
