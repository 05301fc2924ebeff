package tariff

// plan is a year of charging by the hour, with what was not to be had.
type plan struct {
	kWh   []float64 // of each hour of the year, charging alone
	unmet float64   // needed, and beyond what the nights can take
}

// atOnce charges at full power from coming home until done.
func (c *Charging) atOnce(y *year) plan {
	p := plan{kWh: make([]float64, y.hours)}
	c.nights(y, func(n *night) {
		left := n.need
		for i := 0; i < n.n && left > 0; i++ {
			take := min(left, n.kWh[i])
			p.kWh[(n.first+i)%y.hours] += take
			left -= take
		}
		p.unmet += max(left, 0)
	})
	return p
}

// caps are the most of each hour of a month, charging and household together.
type caps struct {
	peak float64 // of every hour
	dear float64 // of hours whose demand is charged by their time
}

// cheapest charges each night in its cheapest hours. Energy priced by the hour
// makes nights independent, and of each night the cheapest hours first is the
// least cost there is: an hour exchanged for a dearer one never saves.
func (t *Tariff) cheapest(c *Charging, y *year) plan {
	price := t.prices(c, y)
	if len(t.Flat.Rates) == 0 && len(t.Timed.Rates) == 0 {
		return t.fill(c, y, price, nil)
	}
	return t.fill(c, y, price, t.sparing(c, y, price))
}

// fill takes the hours of each night by rising price, the earlier one at a tie.
func (t *Tariff) fill(c *Charging, y *year, price []float64, months *[12]caps) plan {
	p := plan{kWh: make([]float64, y.hours)}
	c.nights(y, func(n *night) {
		left := t.take(c, y, n, price, months, n.need, p.kWh)
		if left > 0 && months != nil { // departure comes before a lower peak
			left = t.take(c, y, n, price, nil, left, p.kWh)
		}
		p.unmet += left
	})
	return p
}

// take charges a night's need in its cheapest hours within the caps and returns
// what is left of it.
func (t *Tariff) take(c *Charging, y *year, n *night, price []float64, months *[12]caps, need float64, into []float64) float64 {
	var order [25]int
	for i := range n.n { // insertion keeps the order of equal prices
		j := i
		for ; j > 0 && price[(n.first+order[j-1])%y.hours] > price[(n.first+i)%y.hours]; j-- {
			order[j] = order[j-1]
		}
		order[j] = i
	}
	for _, i := range order[:n.n] {
		if need <= 0 {
			break
		}
		h := (n.first + i) % y.hours
		most := n.kWh[i] - into[h]
		if months != nil {
			most = min(most, t.room(c, y, h, &months[y.month[h]])-into[h])
		}
		if take := min(need, most); take > 0 {
			into[h] += take
			need -= take
		}
	}
	return max(need, 0)
}

// room is what the caps leave an hour for charging.
func (t *Tariff) room(c *Charging, y *year, h int, m *caps) float64 {
	most := m.peak
	if t.dear(y, h) > 0 {
		most = min(most, m.dear)
	}
	return max(most-c.house(h), 0)
}

// house is what the household takes beside charging.
func (c *Charging) house(h int) float64 { return float64(c.House[h%24]) }

// dear is the charge for demand at an hour by its time.
func (t *Tariff) dear(y *year, h int) float64 {
	if len(t.Timed.Rates) == 0 {
		return 0
	}
	m := y.month[h]
	cal := y.months[m]
	return t.Timed.Rates[t.Timed.row(cal, (h-y.from[m])/24)[h%24]]
}

// prices is what a kWh more costs in each hour: of its period, the tier in which
// the household's month ends before charging. Where one period has tiers every
// hour has the same price; where several have, this orders them.
func (t *Tariff) prices(c *Charging, y *year) []float64 {
	out := make([]float64, 0, y.hours)
	for m, cal := range y.months {
		var used [mostPeriods]float64
		for d := range cal.days {
			for h, p := range t.row(cal, d) {
				used[p] += c.house(h)
			}
		}
		var marginal [mostPeriods]float64
		for i := range t.Periods {
			marginal[i] = t.Periods[i].next(used[i], cal.days) + t.Adder[m]
		}
		for d := range cal.days {
			for _, p := range t.row(cal, d) {
				out = append(out, marginal[p])
			}
		}
	}
	return out
}

func (t *Tariff) row(c calendar, day int) *[24]uint8 {
	if c.weekend(day) {
		return &t.Weekend[c.month]
	}
	return &t.Weekday[c.month]
}

// next is the price of a kWh beyond those used.
func (p *Period) next(used float64, days int) float64 {
	for _, tier := range p.Tiers {
		if most := tier.most(days); most == 0 || used < most {
			return tier.price()
		}
	}
	return p.Tiers[len(p.Tiers)-1].price()
}
