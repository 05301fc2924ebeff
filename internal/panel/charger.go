package panel

import (
	"math"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// ChargerLoad is what a charger adds to a calculation.
type ChargerLoad struct {
	Full       unit.VoltAmps // nameplate, or the edition's least
	Continuous unit.VoltAmps // 125 % of the setting, never below Full
}

// ChargerLoad gives the load of a charger at its lawful setting. The edition's
// least load is not itself taken at 125 %. An unknown plate is refused in
// editions that give no load for it.
//
// Source: NEC 220.57 (2023), 120.57 (2026), 625.41, 625.42, 230.42(A).
func (r *Rules) ChargerLoad(c Charger) (ChargerLoad, error) {
	if c.Plate == PlateUnknown {
		if r.charger.unknownVA == 0 {
			return ChargerLoad{}, fault.Invalid("chargers.setting", "an unknown rating", "a rating in amperes: this edition gives no load for an unknown one")
		}
		return ChargerLoad{unit.VoltAmps(r.charger.unknownVA), unit.VoltAmps(r.charger.unknownVA)}, nil
	}
	full, cont := r.chargerVA(float64(c.Setting) * float64(c.Volts))
	return ChargerLoad{unit.VoltAmps(full), unit.VoltAmps(cont)}, nil
}

func (r *Rules) chargerVA(plate float64) (full, continuous float64) {
	full = math.Max(plate, r.charger.leastVA)
	return full, math.Max(full, plate*r.continuous.factor)
}

// chargers sums the charging loads of a calculation: those the job adds, and
// those that stand already.
type chargers struct {
	newFull, newCont float64
	oldFull, oldCont float64
}

// chargers takes the edition's least load for each charger, so two small ones
// count it twice.
func (in *Input) chargers() (c chargers) {
	for i := range in.Chargers {
		load, err := in.Rules.ChargerLoad(in.Chargers[i])
		if err != nil {
			continue // refused by check before any method runs
		}
		c.newFull, c.newCont = c.newFull+float64(load.Full), c.newCont+float64(load.Continuous)
	}
	for i := range in.Loads {
		l := &in.Loads[i]
		if in.Rules.loads[l.Kind].class != ClassCharger || l.VA == 0 {
			continue
		}
		full, cont := in.Rules.chargerVA(float64(l.VA))
		c.oldFull, c.oldCont = c.oldFull+full*float64(l.Count), c.oldCont+cont*float64(l.Count)
	}
	return c
}
