package outlet

import (
	"slices"

	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// ways lists what could be made of the same wires, least work first. The
// breaker may become smaller to suit wire or face, never larger.
func (j *judgement) ways(v *Verdict) []Way {
	var out []Way
	if v.Word <= UseLower {
		if v.Plan > 0 {
			breaker, _ := j.e.Breaker.Get()
			out = append(out, Way{Kind: AsItIs, Setting: v.Plan, Breaker: breaker, Receptacle: j.face.ID, Lasting: v.Word == Use})
		}
		return out
	}
	if w, ok := j.setDown(v); ok {
		out = append(out, w)
	}
	if w, ok := j.putRight(); ok {
		out = append(out, w)
	}
	if w, ok := j.wiredIn(); ok {
		out = append(out, w)
	}
	return out
}

// open reports whether every matching rule leaves a way open.
func (j *judgement) open(k WayKind) bool {
	return !slices.ContainsFunc(j.matched, func(r *rule) bool { return !r.anyWay && !slices.Contains(r.ways, k) })
}

// asked gathers the work the matching rules ask for.
func (j *judgement) asked() map[WorkKind]bool {
	need := map[WorkKind]bool{}
	for _, r := range j.matched {
		for _, k := range r.work {
			need[k] = true
		}
	}
	return need
}

// setDown keeps the outlet and locks equipment somebody owns at what the
// circuit bears. Wire and breaker must have been read.
func (j *judgement) setDown(v *Verdict) (Way, bool) {
	breaker, read := j.e.Breaker.Get()
	if !j.open(SetDown) || j.face.Level() == 1 || !read || j.wireFit() != "borne" || j.equipmentFit() != "over" || j.setting() != "locked" {
		return Way{}, false
	}
	setting, ok := v.After.Get()
	for _, r := range j.matched {
		if r.limits && r.now > 0 {
			setting = min(setting, r.now)
		}
	}
	need := j.asked()
	delete(need, NewReceptacle)
	need[LockSetting] = true
	return Way{Kind: SetDown, Setting: setting, Breaker: breaker, Receptacle: j.face.ID,
		Work: j.list(need, breaker, j.face, setting)}, ok && setting > 0
}

// putRight keeps a receptacle on the circuit: the one that suits wire and
// breaker, with the breaker made smaller where they ask for it.
func (j *judgement) putRight() (Way, bool) {
	if !j.open(PutRight) {
		return Way{}, false
	}
	face, breaker := j.faceFor(j.breakerFor())
	if face == nil {
		return Way{}, false
	}
	limit := min(face.Most, breaker/j.factor())
	if j.wire > 0 {
		limit = min(limit, j.wire/j.factor())
	}
	if most, known := j.e.Equipment.Max.Get(); known {
		limit = min(limit, most)
	}
	need := j.asked()
	if face != j.face {
		need[NewReceptacle] = true
	}
	changed := j.changed(breaker)
	need[NewBreaker] = changed
	if j.e.GFCI == Yes {
		need[GFCIBreaker] = changed && j.groundFault(edition.PlugIn, breaker)
	} else if need[NewReceptacle] && j.groundFault(edition.PlugIn, breaker) {
		need[GFCIBreaker] = true
	}
	setting := j.book.settingWithin(limit)
	return Way{Kind: PutRight, Setting: setting, Breaker: breaker, Receptacle: face.ID,
		Work: j.list(need, breaker, face, setting), Lasting: true}, setting > 0
}

// wiredIn takes the receptacle away and wires the equipment to the circuit.
func (j *judgement) wiredIn() (Way, bool) {
	if !j.open(WiredIn) || j.face.Level() == 1 {
		return Way{}, false
	}
	breaker := j.breakerFor()
	limit := breaker / j.factor()
	if j.wire > 0 {
		limit = min(limit, j.wire/j.factor())
	}
	need := j.asked()
	delete(need, NewReceptacle)
	delete(need, WeatherCover)
	delete(need, LockSetting)
	delete(need, MountEquipment)
	delete(need, GFCIBreaker)
	need[Hardwire] = true
	need[NewBreaker] = j.changed(breaker)
	need[GFCIBreaker] = (j.e.GFCI != Yes || j.changed(breaker)) && j.groundFault(edition.Hardwired, breaker)
	setting := j.book.settingWithin(limit)
	return Way{Kind: WiredIn, Setting: setting, Breaker: breaker, Work: j.list(need, breaker, j.face, setting), Lasting: true}, setting > 0
}

func (j *judgement) factor() unit.Amps { return unit.Amps(j.e.Book.ContinuousFactor().Value) }

func (j *judgement) changed(breaker unit.Amps) bool {
	now, read := j.e.Breaker.Get()
	return read && now != breaker
}

// breakerFor is the breaker the wires may keep: the one that is there, made
// smaller when the wire does not bear it, or when the wire is not read and the
// face may not stand behind it. Unread, it is the least the face asks.
func (j *judgement) breakerFor() unit.Amps {
	breaker, read := j.e.Breaker.Get()
	least, most := j.face.Breakers()
	switch {
	case !read:
		breaker = least
	case j.wire == 0:
		breaker = min(breaker, most)
	}
	if j.wire > 0 {
		breaker = min(breaker, j.bears)
	}
	return breaker
}

// faceFor finds the receptacle of the same series that makes most of a
// breaker; the present one where it is as good. The breaker comes down where
// no face of the series may stand behind it.
//
// Source: NFPA 70, Table 210.21(B)(3), 625.44.
func (j *judgement) faceFor(breaker unit.Amps) (best *Receptacle, rating unit.Amps) {
	for _, r := range j.book.receptacles {
		named, _ := r.charging.in(j.e.Year)
		span, _ := r.chargingBreakers.in(j.e.Year)
		then := min(breaker, span[1])
		if r.series == "" || r.series != j.face.series || named == "no" || then < span[0] {
			continue
		}
		better := best == nil || then > rating ||
			(then == rating && best != j.face && (r == j.face || r.Amps > best.Amps))
		if better {
			best, rating = r, then
		}
	}
	return best, rating
}

// groundFault asks the book on the safer side: an unknown place is outdoors, a
// rule with two readings counts, and so does a question without an answer.
//
// Source: NFPA 70, 210.8, 406.4(D)(3), 625.54.
func (j *judgement) groundFault(c edition.Connection, breaker unit.Amps) bool {
	place := map[string]edition.Place{"indoor": edition.Indoor, "garage": edition.Garage}[j.e.Location]
	if place == 0 {
		place = edition.Outdoor
	}
	answer, err := j.e.Book.GroundFault(place, c, breaker)
	return err != nil || answer.Value != edition.NotRequired
}

// list writes the work down in the order of the job.
func (j *judgement) list(need map[WorkKind]bool, breaker unit.Amps, face *Receptacle, setting unit.Amps) []Work {
	if need[GFCIBreaker] {
		delete(need, NewBreaker)
	}
	var out []Work
	for _, k := range workOrder {
		if !need[k] {
			continue
		}
		w := Work{Kind: k}
		switch k {
		case NewBreaker, GFCIBreaker:
			w.Amps, w.Poles = breaker, face.Level()
		case NewReceptacle:
			named, _ := face.charging.in(j.e.Year)
			w.Receptacle, w.Grade = face.ID, choose(named == "listed", "ev_listed", "industrial")
		case WeatherCover:
			w.Receptacle = face.ID
		case LockSetting, Hardwire:
			w.Amps = setting
		case MoveOutlet:
			w.Feet, _ = j.e.ReachShort.Get()
		}
		out = append(out, w)
	}
	return out
}
