package outlet

import (
	"strconv"

	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Judge lays every rule that ships with the program beside the outlet: the
// worst verdict and the least cap stand. It adds its steps to the sheet, which
// may be nil. A word that is not on its list, a receptacle without a row, a
// breaker outside 10 to 125 A or a number that is none is a fault naming the
// field.
//
// Source: NFPA 70, section beside each rule of rules.yaml.
func Judge(e Existing, sheet *working.Sheet) (Verdict, error) {
	b, err := ours()
	if err != nil {
		return Verdict{}, err
	}
	return b.Judge(e, sheet)
}

// Judge is [Judge] by this book of rules.
//
// Source: NFPA 70, section beside each rule of the book.
func (b *Rulebook) Judge(e Existing, sheet *working.Sheet) (Verdict, error) {
	if err := b.check(&e); err != nil {
		return Verdict{}, err
	}
	j := &judgement{book: b, e: &e, face: b.find(e.Receptacle), sheet: sheet}
	if err := j.readWire(); err != nil {
		return Verdict{}, err
	}
	j.readLimits()
	s := j.show()
	v := Verdict{Now: j.cap, After: Read(j.cap)}
	for i := range b.rules {
		r := &b.rules[i]
		if !r.matches(e.Year, &s) {
			continue
		}
		j.matched = append(j.matched, r)
		v.Reasons = append(v.Reasons, r.reason)
		v.Word = max(v.Word, r.verdict)
		if r.limits {
			v.Now = min(v.Now, r.now)
		}
		if r.never {
			v.After = Reading[unit.Amps]{}
		}
		sheet.Add(working.Step{Rule: r.reason.Words, In: working.In(working.Word("receptacle", e.Receptacle)),
			Out: working.Word("verdict", r.verdict.String()), Source: r.reason.Source})
	}
	v.Plan = j.plan(v.Now)
	v.Ways = j.ways(&v)
	v.Verify = j.verify()
	j.conclude(&v)
	return v, nil
}

// judgement is one outlet under the rules.
type judgement struct {
	book    *Rulebook
	e       *Existing
	face    *Receptacle
	sheet   *working.Sheet
	matched []*rule

	wire      unit.Amps // what the wire carries; 0 when it is not read
	bears     unit.Amps // largest breaker the wire bears; 0 when it is not read
	aluminium bool
	withoutEq unit.Amps // least of breaker, face and wire, before the equipment
	cap       unit.Amps // largest standard setting within every limit
}

// show puts the outlet into the words the rules look at.
func (j *judgement) show() shown {
	e, face := j.e, j.face
	var s shown
	s[byReceptacle] = 1 << face.bit
	s.word(byAmps, strconv.Itoa(int(face.Amps)))
	s.word(byLevel, strconv.Itoa(face.Level()))
	s.word(byBreaker, j.breakerFit())
	s.word(byBreakerAmps, choose(e.Breaker == Read[unit.Amps](40), "40", "other"))
	s.word(byWire, j.wireFit())
	s.word(bySharing, e.Sharing)
	set, _ := e.Condition.Get()
	s[byCondition] = uint32(set)
	if j.aluminium {
		s[byCondition] |= 1 << indexOf(conditions[:], "aluminium")
	}
	s.word(byGrade, e.Grade)
	s.word(byLocation, e.Location)
	s.word(byCover, e.InUseCover)
	short, known := e.ReachShort.Get()
	s.word(byReach, choose(!known, "unread", choose(short > 0, "short", "reaches")))
	s.word(byGFCI, e.GFCI)
	s.word(byEquipmentFit, j.equipmentFit())
	s.word(bySetting, j.setting())
	s.word(byEquipment, e.Equipment.Kind)
	s.word(byAdapter, e.Adapter)
	s.word(bySupply, strconv.Itoa(int(e.Supply)))
	s.word(byChargers, choose(e.Chargers > 1, "several", "one"))
	return s
}

func (j *judgement) breakerFit() string {
	breaker, known := j.e.Breaker.Get()
	least, most := j.face.Breakers()
	switch {
	case !known:
		return "unread"
	case breaker > most:
		return "over"
	case breaker < least:
		return "under"
	}
	return "within"
}

func (j *judgement) wireFit() string {
	breaker, known := j.e.Breaker.Get()
	switch {
	case j.wire == 0:
		return "unread"
	case known && breaker > j.bears:
		return "over"
	}
	return "borne"
}

func (j *judgement) equipmentFit() string {
	most, known := j.e.Equipment.Max.Get()
	switch {
	case !known:
		return "unread"
	case most > j.withoutEq:
		return "over"
	}
	return "within"
}

func (j *judgement) conclude(v *Verdict) {
	if !j.sheet.Keeping() {
		return
	}
	j.sheet.Add(working.Step{Rule: "outlet.verdict.now", In: working.In(working.Num("cap", j.cap, "A"), working.Word("verdict", v.Word.String())),
		Out: working.Num("now", v.Now, "A"), Source: judged})
	if v.Plan != v.Now {
		j.sheet.Add(working.Step{Rule: "outlet.verdict.plan", In: working.In(working.Num("now", v.Now, "A")), Out: working.Num("plan", v.Plan, "A"), Source: judged})
	}
	if after, ok := v.After.Get(); ok {
		j.sheet.Add(working.Step{Rule: "outlet.verdict.after", Out: working.Num("after", after, "A"), Source: judged})
	} else {
		j.sheet.Add(working.Step{Rule: "outlet.verdict.never", Out: working.Word("after", "none"), Source: judged})
	}
	for _, w := range v.Ways {
		j.sheet.Add(working.Step{Rule: "outlet.way." + string(w.Kind), In: working.In(working.Num("breaker", w.Breaker, "A")),
			Out: working.Num("setting", w.Setting, "A"), Source: judged})
	}
}

// judged is the source of what follows from the rules together.
var judged = &working.Source{Publication: "common practice", Status: working.Judgement}

func choose(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}
