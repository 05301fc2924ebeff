package pricing

import (
	"fmt"
	"math/bits"
	"slices"

	"daybreak/internal/pricing/bookfile"
)

func (l *loader) labour(n bookfile.Node) {
	if !n.OK() {
		return
	}
	lab := &l.book.labour
	n.Only("source", "status", "rates", "trip_per_visit", "minimum_labour_and_trip", "multiplier_cap", "tasks", "multipliers")
	n.At("source").Text()
	n.At("status").Word(statuses...)
	rates := n.At("rates")
	rates.Only("electrician", "second_person")
	lab.electrician = l.amount(rates.At("electrician"))
	lab.second = l.amount(rates.At("second_person"))
	if rates.OK() && lab.electrician == 0 {
		rates.At("electrician").Fault("0", "a rate above 0")
	}
	lab.trip = l.amount(n.At("trip_per_visit"))
	lab.minimum = l.amount(n.At("minimum_labour_and_trip"))
	lab.cap = n.At("multiplier_cap").Scaled(2, "1", "10")
	lab.factors = map[Condition]factor{}
	for i := range lab.byID {
		lab.byID[i] = -1
	}
	for _, v := range n.At("tasks").Items() {
		l.task(v)
	}
	for _, p := range n.At("multipliers").Pairs() {
		l.multipliers(p)
	}
}

// maxGroups keeps a product of factors, exact in hundredths, within an int64.
const maxGroups = 4

func (l *loader) task(n bookfile.Node) {
	code := n.At("code").Text()
	if code == "" {
		return
	}
	lab := &l.book.labour
	n = n.Named("tasks." + code)
	n.Only("code", "words", "unit", "hours", "conditions", "two_person", "trade")
	t := task{code: code, words: n.At("words").Text(), unit: n.At("unit").Word(l.units...)}
	t.trade = uint8(max(slices.Index(l.book.trades, "labour"), 0))
	if v := n.Maybe("trade"); v.OK() {
		t.trade = l.trade(v)
	}
	t.hours = l.hours(n.At("hours"))
	if v := n.Maybe("conditions"); v.OK() {
		for _, g := range v.Items() {
			if i := slices.Index(groupNames, g.Word(groupNames...)); i >= 0 {
				t.groups |= 1 << i
			}
		}
	}
	if bits.OnesCount8(uint8(t.groups)) > maxGroups {
		n.At("conditions").Fault("more", "at most 4 groups")
	}
	if v := n.Maybe("two_person"); v.OK() {
		t.twoPerson = v.Flag()
	}
	if slices.ContainsFunc(lab.tasks, func(o task) bool { return o.code == code }) {
		n.At("code").Fault(code, "each task once")
		return
	}
	if i := slices.Index(taskCodes[:], code); i >= 0 {
		lab.byID[i] = int32(len(lab.tasks))
	}
	lab.tasks = append(lab.tasks, t)
}

// hours reads [low, likely, high] of a task, above 0 and at most 80 hours.
func (l *loader) hours(n bookfile.Node) (h [3]int64) {
	list := n.Items()
	if len(list) != len(h) {
		if n.OK() {
			n.Fault(fmt.Sprintf("%d hours", len(list)), "low, likely, high")
		}
		return h
	}
	for i, v := range list {
		h[i] = v.Scaled(4, "0.0001", "80")
	}
	if h[0] > h[1] || h[1] > h[2] {
		n.Fault(fmt.Sprintf("%s, %s, %s", list[0].Text(), list[1].Text(), list[2].Text()), "low <= likely <= high")
	}
	return h
}

func (l *loader) multipliers(p bookfile.Pair) {
	group := slices.Index(groupNames, p.Key)
	if group < 0 {
		p.Value.Fault(p.Key, fmt.Sprint(groupNames))
		return
	}
	for _, v := range p.Value.Items() {
		v.Only("code", "factor")
		code := Condition(v.At("code").Text())
		list := v.At("factor").Items()
		f := factor{group: 1 << group}
		if len(list) != len(f.factor) {
			v.At("factor").Fault(fmt.Sprintf("%d factors", len(list)), "low, likely, high")
			continue
		}
		for i, x := range list {
			f.factor[i] = x.Scaled(2, "0.5", "5")
		}
		if f.factor[0] > f.factor[1] || f.factor[1] > f.factor[2] {
			v.At("factor").Fault("a falling factor", "low <= likely <= high")
		}
		if _, twice := l.book.labour.factors[code]; twice {
			v.At("code").Fault(string(code), "each condition once")
		}
		l.book.labour.factors[code] = f
	}
}
