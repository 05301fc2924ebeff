package panel

import (
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// UnitsDemand is the demand of a building of three or more dwellings by the
// optional method for them: percent and load. House loads, chargers on the
// house panel among them, are added by the general method.
type UnitsDemand struct {
	Percent float64
	Load    unit.VoltAmps
}

// UnitsDemand takes the connected load of every unit together. Each unit must
// have electric cooking, and electric heat or cooling; fewer than three units
// are refused.
//
// Source: NEC 220.84 and its table.
func (r *Rules) UnitsDemand(units int, connected unit.VoltAmps) (UnitsDemand, error) {
	if units < r.multifamily.leastUnits || units > 10_000 {
		return UnitsDemand{}, fault.Invalid("units", units, "3 to 10 000 dwellings")
	}
	if !(connected >= 0 && connected <= 1e9) {
		return UnitsDemand{}, fault.Invalid("connected_va", float64(connected), "0 to 10⁹ VA in all")
	}
	row := rowFor(r.multifamily.rows, float64(units))
	return UnitsDemand{row[1], connected * unit.VoltAmps(row[1]/100)}, nil
}

// TwoFamilyDemand is the lesser of the general method for two dwellings and
// the optional method for three like them.
//
// Source: NEC 220.85.
func (r *Rules) TwoFamilyDemand(general, threeConnected unit.VoltAmps) (use, optional unit.VoltAmps, err error) {
	d, err := r.UnitsDemand(r.multifamily.leastUnits, threeConnected)
	if err != nil {
		return 0, 0, err
	}
	return min(general, d.Load), d.Load, nil
}
