package panel

import (
	"math"

	"daybreak/internal/unit"
)

// CookingColumn says which part of the cooking table is used.
type CookingColumn uint8

const (
	// ColumnC is the maximum demand column with the raises of notes 1 and 2.
	ColumnC CookingColumn = iota
	// ColumnsAB is note 3: percentages for units of at most 8.75 kW.
	ColumnsAB
	// LeastPermitted is the smallest demand the table and its notes permit,
	// never above the nameplates.
	LeastPermitted
)

// CookingDemand is the feeder or service load of household cooking equipment.
// Under [ColumnsAB] units above 8.75 kW are taken by column C beside it.
//
// Source: NEC 220.55 and Table 220.55, notes 1 to 3.
func (r *Rules) CookingDemand(ratings []unit.Kilowatts, column CookingColumn) unit.VoltAmps {
	var c cooking
	for _, kw := range ratings {
		c.add(r, float64(kw), 1)
	}
	switch column {
	case ColumnC:
		return unit.VoltAmps(c.columnC(r))
	case ColumnsAB:
		return unit.VoltAmps(c.columnsAB(r))
	}
	return unit.VoltAmps(c.demand(r))
}

// cooking gathers cooking units by the classes of the table.
type cooking struct {
	small              float64 // VA of units too small for the table, at nameplate
	count              int     // units in the table
	plate              float64 // kW of all units in the table
	raised             float64 // kW with 12 put for any below
	inA, inB, big      int
	kwA, kwB           float64
	bigPlate, bigRaise float64
}

func (c *cooking) add(r *Rules, kw float64, count int) {
	k, n := &r.cooking, float64(count)
	if kw <= k.least {
		c.small += 1000 * kw * n
		return
	}
	c.count += count
	c.plate += kw * n
	c.raised += math.Max(kw, k.cTo) * n
	switch {
	case kw < k.aBelow:
		c.inA, c.kwA = c.inA+count, c.kwA+kw*n
	case kw <= k.bTo:
		c.inB, c.kwB = c.inB+count, c.kwB+kw*n
	default:
		c.big, c.bigPlate, c.bigRaise = c.big+count, c.bigPlate+kw*n, c.bigRaise+math.Max(kw, k.cTo)*n
	}
}

// columnC is the demand in VA of all units by column C.
func (c *cooking) columnC(r *Rules) float64 { return c.small + r.columnC(c.count, c.raised) }

// columnC is the demand in VA of so many units whose ratings, with 12 kW put
// for any below, sum to raised kW.
func (r *Rules) columnC(count int, raised float64) float64 {
	row := rowFor(r.cooking.rows, float64(count))
	if row == nil {
		return 0
	}
	kw := row[3] + row[4]*(float64(count)-row[0])
	// A major fraction is half a kilowatt or more; the tiny step keeps 12.5 one
	// where the mean of several ratings is not exact in binary.
	over := math.Floor(raised/float64(count) - r.cooking.cTo + 0.5 + 1e-9)
	return 1000 * kw * (1 + r.cooking.raise*math.Max(0, over))
}

// columnsAB is note 3 for the units it covers, column C for larger ones.
func (c *cooking) columnsAB(r *Rules) float64 {
	va := c.small + r.columnC(c.big, c.bigRaise)
	if row := rowFor(r.cooking.rows, float64(c.inA)); row != nil {
		va += 1000 * c.kwA * row[1] / 100
	}
	if row := rowFor(r.cooking.rows, float64(c.inB)); row != nil {
		va += 1000 * c.kwB * row[2] / 100
	}
	return va
}

// demand is the least the section permits; nameplates may always be used.
func (c *cooking) demand(r *Rules) float64 {
	return math.Min(c.small+1000*c.plate, math.Min(c.columnC(r), c.columnsAB(r)))
}
