package outlet

import (
	"errors"

	"daybreak/internal/edition"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// readWire asks the code book what the wire carries and which breaker it
// bears. A wire of unknown metal counts as copper for "the breaker is too
// large even so", and as unread for everything else.
//
// Source: NFPA 70, Table 310.16, 240.4(B), 240.4(D), 334.80.
func (j *judgement) readWire() error {
	c := j.e.Conductor
	j.aluminium = c.Material == "al"
	if c.Size == Unknown {
		return nil
	}
	size, err := j.e.Book.SizeNamed(c.Size)
	if err != nil {
		return unanswered(err)
	}
	metal := edition.Copper
	if j.aluminium {
		metal = edition.Aluminium
	}
	column := unit.Celsius(60)
	if c.Method == "raceway" {
		column = 75
	}
	carries, err := j.e.Book.TableAmpacity(size, metal, column)
	if err != nil {
		return unanswered(err)
	}
	bears, err := j.e.Book.LargestDevice(size, metal, carries.Value)
	if err != nil {
		return unanswered(err)
	}
	if breaker, read := j.e.Breaker.Get(); c.Material == Unknown && !(read && breaker > bears.Value) {
		return nil
	}
	j.wire, j.bears = carries.Value, bears.Value
	j.sheet.Add(working.Step{Rule: "outlet.wire.carries",
		In:  working.In(working.Word("size", size.String()), working.Word("metal", c.Material), working.Num("column", column, "°C")),
		Out: working.Num("ampacity", carries.Value, "A"), Source: carries.Source})
	j.sheet.Add(working.Step{Rule: "outlet.wire.bears", In: working.In(working.Num("ampacity", carries.Value, "A")),
		Out: working.Num("breaker", bears.Value, "A"), Source: bears.Source})
	return nil
}

// unanswered turns "the book has no answer" into "not read", which the rules
// have words for; anything else stays an error.
func unanswered(err error) error {
	if errors.Is(err, edition.ErrUnanswerable) {
		return nil
	}
	return err
}

// readLimits takes the least of what breaker, face, wire and equipment allow.
//
// Source: NFPA 70, 210.20(A), Table 210.21(B)(2), 625.42.
func (j *judgement) readLimits() {
	factor := j.e.Book.ContinuousFactor()
	least := j.face.Most
	j.sheet.Add(working.Step{Rule: "outlet.cap.face", In: working.In(working.Num("amps", j.face.Amps, "A")),
		Out: working.Num("limit", j.face.Most, "A"), Source: faceShare})
	if breaker, read := j.e.Breaker.Get(); read {
		limit := breaker / unit.Amps(factor.Value)
		least = min(least, limit)
		j.sheet.Add(working.Step{Rule: "outlet.cap.breaker", In: working.In(working.Num("breaker", breaker, "A"), working.Num("factor", factor.Value, "")),
			Out: working.Num("limit", limit, "A"), Source: factor.Source})
	}
	if j.wire > 0 {
		limit := j.wire / unit.Amps(factor.Value)
		least = min(least, limit)
		j.sheet.Add(working.Step{Rule: "outlet.cap.wire", In: working.In(working.Num("ampacity", j.wire, "A"), working.Num("factor", factor.Value, "")),
			Out: working.Num("limit", limit, "A"), Source: factor.Source})
	}
	j.withoutEq = j.book.settingWithin(least)
	if most, known := j.e.Equipment.Max.Get(); known {
		least = min(least, most)
		j.sheet.Add(working.Step{Rule: "outlet.cap.equipment", Out: working.Num("limit", most, "A"), Source: judged})
	}
	j.cap = j.book.settingWithin(least)
	j.sheet.Add(working.Step{Rule: "outlet.cap.setting", In: working.In(working.Num("limit", least, "A")), Out: working.Num("setting", j.cap, "A"), Source: judged})
}

var faceShare = &working.Source{Publication: "NFPA 70 (NEC)", Section: "Table 210.21(B)(2)", Status: working.Verified}

// settingWithin is the largest setting equipment offers within a limit, or 0.
func (b *Rulebook) settingWithin(limit unit.Amps) unit.Amps {
	var out unit.Amps
	for _, s := range b.settings {
		if float64(s) <= float64(limit)+1e-9 {
			out = s
		}
	}
	return out
}

// setting tells what holds the equipment down, and whether the book counts it.
//
// Source: NFPA 70, 625.42(B).
func (j *judgement) setting() string {
	if j.e.Equipment.Setting != "locked" {
		return j.e.Equipment.Setting
	}
	fastening := edition.CordConnected
	if j.e.Equipment.Kind == "fastened" {
		fastening = edition.FixedInPlace
	}
	return choose(j.e.Book.SettingCounts(edition.RestrictedAccess, fastening).Value, "locked", "uncounted")
}

// plan is the setting to plan on while a reading is missing: the least breaker
// the face may stand behind, and nothing for equipment that may draw more than
// the circuit allows.
func (j *judgement) plan(now unit.Amps) unit.Amps {
	if _, read := j.e.Breaker.Get(); !read {
		least, _ := j.face.Breakers()
		now = min(now, j.book.settingWithin(least/unit.Amps(j.e.Book.ContinuousFactor().Value)))
	}
	if j.equipmentFit() == "over" && j.e.Equipment.Setting == Unknown {
		now = 0
	}
	return now
}

// verify lists what the matching rules and the missing readings ask to see.
func (j *judgement) verify() []Check {
	e := j.e
	_, breaker := e.Breaker.Get()
	_, looked := e.Condition.Get()
	_, reach := e.ReachShort.Get()
	big := j.face.Level() == 2 && j.face.Amps >= 30
	missing := map[Check]bool{
		CheckCondition: !looked,
		CheckWire:      j.wire == 0 && j.face.Level() == 2,
		CheckBreaker:   !breaker,
		CheckSharing:   e.Sharing == Unknown,
		CheckGrade:     e.Grade == Unknown && big,
		CheckGFCI:      e.GFCI == Unknown,
		CheckCover:     e.InUseCover == Unknown && e.Location == "outdoor",
		CheckReach:     !reach,
		CheckSetting:   e.Equipment.Setting == Unknown && j.equipmentFit() == "over",
	}
	for _, r := range j.matched {
		for _, c := range r.verify {
			missing[c] = true
		}
	}
	var out []Check
	for _, c := range checkOrder {
		if missing[c] {
			out = append(out, c)
		}
	}
	return out
}
