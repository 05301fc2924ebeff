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

// UnitsDemand takes the connected load of each dwelling. Each must
// have electric cooking, and electric heat or cooling; fewer than three units
// are refused.
//
// Source: NEC 220.84 and its table.
func (r *Rules) UnitsDemand(units int, perUnit unit.VoltAmps) (UnitsDemand, error) {
	if units < r.multifamily.leastUnits || units > 10_000 {
		return UnitsDemand{}, fault.Invalid("units", units, "3 to 10 000 dwellings")
	}
	if !(perUnit >= 0 && perUnit <= 1e6) {
		return UnitsDemand{}, fault.Invalid("connected_va_per_unit", float64(perUnit), "0 to 1 000 000 VA")
	}
	row := rowFor(r.multifamily.rows, float64(units))
	return UnitsDemand{row[1], perUnit * unit.VoltAmps(float64(units)*row[1]/100)}, nil
}

// TwoFamilyDemand is the load of two dwellings on one supply.
type TwoFamilyDemand struct {
	Optional unit.VoltAmps // three like them, by the optional method
	Use      unit.VoltAmps // the lesser of that and the general method
}

// TwoFamilyDemand is the lesser of the general method for two dwellings and
// the optional method for three like them, given the load of each sheet before
// the percentage.
//
// Source: NEC 220.85.
func (r *Rules) TwoFamilyDemand(general, threeConnected unit.VoltAmps) (TwoFamilyDemand, error) {
	d, err := r.UnitsDemand(r.multifamily.leastUnits, threeConnected/unit.VoltAmps(r.multifamily.leastUnits))
	if err != nil {
		return TwoFamilyDemand{}, err
	}
	return TwoFamilyDemand{d.Load, min(general, d.Load)}, nil
}
