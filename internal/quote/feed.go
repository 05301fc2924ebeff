package quote

import (
	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/facts"
	"daybreak/internal/unit"
)

// branchFeet is the way from a new panel in a detached building to the
// charger.
//
// Source: common practice; the panel goes up where the car is charged.
const branchFeet unit.Feet = 8

// buildingAmps is what else such a building draws: a light and a receptacle,
// 1 500 W at 120 V.
//
// Source: engineering judgement.
const buildingAmps unit.Amps = 12.5

// drawn is the circuit of an option. In a building that is fed today it starts
// from a new panel there, at the end of one four-wire feeder.
//
// Source: NEC 225.30 to 225.39, 250.32.
func (w *weighing) drawn(o *Option) (circuit.Result, error) {
	job := w.job(o)
	if !w.fed() {
		return circuit.Design(w.ed, job, w.full)
	}
	job.Route = circuit.Route{Segments: []circuit.Segment{{Kind: w.lastKind(), Feet: branchFeet}}}
	job.Methods = w.dryMethods()
	load := o.Setting
	for {
		f, err := circuit.DesignFeeder(w.ed, w.feeder(load), w.full)
		if err != nil {
			return circuit.Result{}, err
		}
		o.Feeder = &f
		if f.Outcome != circuit.Designed {
			return circuit.Result{Outcome: f.Outcome, Reason: f.Reason, WouldDo: f.WouldDo, Load: load}, nil
		}
		job.FeederPercent = f.Chosen.DropPercent
		r, err := circuit.Design(w.ed, job, w.full)
		if err != nil || r.Load <= load {
			return r, err
		}
		load = r.Load // the plate counts, not the setting
	}
}

// lastKind is what the run goes along where the car is charged.
func (w *weighing) lastKind() circuit.SegmentKind {
	if w.where == edition.Outdoor {
		return circuit.Outside
	}
	s := w.route.circuit.Segments
	if last := s[len(s)-1].Kind; last != circuit.Trench && last != circuit.Outside {
		return last
	}
	return circuit.Surface
}

// feeder is the feeder wanted, with the old run's light and receptacle fed
// anew from the panel it ends at.
func (w *weighing) feeder(charger unit.Amps) circuit.FeederJob {
	j := circuit.FeederJob{
		Charger:   charger,
		Other:     buildingAmps,
		Volts:     w.supply,
		Detached:  true,
		OldRuns:   1,
		Moved:     []circuit.MovedCircuit{{Amps: 15, Poles: 1, GFCI: true}},
		Place:     w.where,
		Route:     w.route.circuit,
		Terminals: w.route.terminals,
		Ambient:   w.route.ambient,
		Concrete:  w.route.concrete,
		Methods:   w.methods(),
		Cost:      w.costOf,
	}
	return j
}

// sayBuried says what is looked at where a run lies in the ground or a building
// is fed anew.
func (w *weighing) sayBuried(o *Option) {
	say := func(key string) { o.Verify = append(o.Verify, Said(key)) }
	if w.digs() {
		say("quote.verify.dig")
		if w.facts.Route.TrenchUnderDrive.Is(true) {
			say("quote.verify.under_drive")
		}
	}
	if o.Feeder == nil {
		return
	}
	say("quote.verify.one_feeder")
	if w.facts.Place.DetachedFeed.Is(facts.DetachedFeedFourWire) {
		say("quote.verify.four_wire")
	}
}

// digPaths are the leaves that must have been told for a buried run to be firm.
func (w *weighing) digPaths(paths []string) []string {
	if w.apart() {
		paths = append(paths[:len(paths):len(paths)], "place.detached_feed")
	}
	if w.digs() {
		paths = append(paths[:len(paths):len(paths)], "route.trench_feet", "route.trench_surface", "route.trench_under_drive", "route.soil")
	}
	return paths
}
