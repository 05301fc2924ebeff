package quote

import (
	"daybreak/internal/facts"
	"daybreak/internal/unit"
)

// ladder is the output settings offered on a new 240 or 208 V circuit, amperes.
//
// Source: common practice; each is 80 % of a standard device (NEC 240.6(A)).
var ladder = []unit.Amps{16, 24, 32, 40, 48}

// largest is the settings above the ladder, weighed only when asked for.
var largest = []unit.Amps{64, 80}

// standard are all of them, smallest first.
var standard = append(append([]unit.Amps{}, ladder...), largest...)

// settings are the settings worth weighing, smallest first.
func (w *weighing) settings() []unit.Amps {
	all := standard[:len(ladder)]
	if w.wished() > ladder[len(ladder)-1] {
		all = standard
	}
	n := 0
	for n < len(all) && all[n] <= w.top() {
		n++
	}
	return all[:n]
}

// waysAt is how a new circuit may end at a setting; 0 where a way is not open.
func (w *weighing) waysAt(setting unit.Amps) (ways [2]Way) {
	plugs := setting <= w.ed.PlugInLimit().Value
	if plugs && (w.onlyPlug() || w.ownedServes(setting)) {
		ways[0] = NewReceptacle
	}
	if !plugs || !w.onlyPlug() {
		ways[1] = Hardwired
	}
	return ways
}

// top is the largest setting worth weighing: the next standard one above what
// the car takes.
func (w *weighing) top() unit.Amps {
	for _, s := range standard {
		if s >= w.need.CarAmps {
			return s
		}
	}
	return standard[len(standard)-1]
}

// ownedServes reports whether the driver's own plug-in unit serves a new circuit
// at a setting: its plug's face may stand behind the breaker, and the unit is
// rated for the setting or locked down to it.
func (w *weighing) ownedServes(setting unit.Amps) bool {
	face, ok := faces[w.ownedPlug]
	if !w.owned || !ok || face.Level() != 2 {
		return false
	}
	least, most := face.Breakers()
	breaker := setting * unit.Amps(w.ed.ContinuousFactor().Value)
	fits := breaker >= least && breaker <= most
	return fits && (setting == w.ownedAmps || setting < w.ownedAmps && w.ownedMeans == facts.SettingMeansRestricted)
}

func (w *weighing) onlyPlug() bool { return w.facts.Wishes.Connection.Is(facts.ConnectionPlug) }
