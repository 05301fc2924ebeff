package pricing

import "math"

// z90 is the standard normal quantile at 0.9.
//
// Source: standard normal distribution, computed.
const z90 = 1.2815515655446004

// spread works out how far the subtotal and the total may move. Within a trade
// the same crew, house and supplier move all lines together, between trades
// they do not; so the sum of lows is never shown as a low.
//
// Each float product stands in its own conversion, which keeps a processor
// from fusing it into the following addition: bills are the same everywhere.
//
// Source: Swanson's rule, or PERT where the book holds true extremes;
// correlation within a trade from the price book, engineering judgement.
func (t *tally) spread(f *Figures) {
	if t.n == 0 {
		return
	}
	share, fixed := t.permitSlope(f)
	taxRate := t.place.tax.rate.float()
	var lines, allIn moments
	for i := range t.entries() {
		e := &t.room[i]
		mean, variance := t.moments(e)
		factor := 1 + share
		if t.place.tax.taxable.Has(e.class) {
			factor += taxRate
		}
		lines.add(e.trade, mean, variance)
		allIn.add(e.trade, float64(mean*factor), float64(variance*float64(factor*factor)))
	}
	lines.mean -= float64(f.Discount[Likely])
	allIn.mean += fixed - t.discounted(f, share, taxRate)
	f.Spread = lines.spread(t.book.allowances.rho)
	f.AllIn = allIn.spread(t.book.allowances.rho)
}

// discounted is what the discount takes off the total, its permit and tax
// with it.
func (t *tally) discounted(f *Figures, share, taxRate float64) float64 {
	d := float64(f.Discount[Likely])
	if d == 0 {
		return 0
	}
	taxed := int64(0)
	for i := range t.entries() {
		if t.place.tax.taxable.Has(t.room[i].class) {
			taxed += t.room[i].discount[Likely]
		}
	}
	return float64(d*(1+share)) + float64(taxRate*float64(taxed))
}

// permitSlope splits the permit into what moves with the subtotal and what
// stands.
func (t *tally) permitSlope(f *Figures) (share, fixed float64) {
	fee := f.Permit[Likely]
	p := t.place.permit
	if t.work.Permits == 0 || p.kind != "valuation" || f.Subtotal[Likely] <= p.floor || fee == p.minimum {
		return 0, float64(fee)
	}
	rate := p.rate.float()
	return rate, float64(fee) - float64(rate*float64(f.Subtotal[Likely]))
}

// moments gives mean and variance of a line. The minimum charge counts at its
// likely amount, since it falls where labour rises.
func (t *tally) moments(e *entry) (mean, variance float64) {
	low, likely, high := float64(e.amount[Low]), float64(e.amount[Likely]), float64(e.amount[High])
	if e.kind == ChargeLine && e.ref == chargeMinimum {
		return likely, 0
	}
	if t.book.extremes {
		sd := (high - low) / 6
		return (low + float64(4*likely) + high) / 6, float64(sd * sd)
	}
	mean = float64(0.3*low) + float64(0.4*likely) + float64(0.3*high)
	l, m, h := low-mean, likely-mean, high-mean
	return mean, float64(0.3*float64(l*l)) + float64(0.4*float64(m*m)) + float64(0.3*float64(h*h))
}

// moments of a bill, trade by trade.
type moments struct {
	mean     float64
	sd       [maxTrades]float64 // Σ s of a trade
	variance [maxTrades]float64 // Σ s²
}

func (m *moments) add(trade uint8, mean, variance float64) {
	m.mean += mean
	m.sd[trade] += math.Sqrt(variance)
	m.variance[trade] += variance
}

func (m *moments) spread(rho float64) Spread {
	sum := 0.0
	for i := range m.sd {
		together := float64(m.sd[i]*m.sd[i]) - m.variance[i]
		sum += m.variance[i] + float64(rho*together)
	}
	sd := math.Sqrt(max(sum, 0))
	reach := float64(z90 * sd)
	return Spread{Mean: m.mean, SD: sd, P10: m.mean - reach, P90: m.mean + reach}
}

// round gives a statistic in whole minor units, for showing.
func round(x float64) int64 { return int64(math.RoundToEven(x)) }
