package panel

import (
	"sort"

	"daybreak/internal/unit"
)

// FlipFact is a fact that may change the verdict by itself.
type FlipFact uint8

// The closed list of facts that are tried.
const (
	FlipLoad FlipFact = iota
	FlipHeat
	FlipCooling
	FlipSetting
	FlipPeak
	FlipEdition
)

// String is the word of the fact.
func (f FlipFact) String() string {
	return nameOf([]string{"load", "heat", "cooling", "setting", "measured_peak", "edition"}, int(f))
}

// Flip is the smallest change of one fact that changes the verdict, one way.
type Flip struct {
	Fact     FlipFact
	Load     LoadKind // FlipLoad: which one
	From, To float64  // VA each of a load, heat and cooling in VA, setting in A, peak in kW, the year of an edition
	Verdict  Verdict  // the verdict at To
}

// The steps of the search, and how far a fact may go.
const (
	flipStepVA     = 1
	flipMostVA     = 40_000
	flipHeatMostVA = 60_000
	flipStepKW     = 0.01
	flipLeastKW    = 0.1
	flipMostKW     = 60
)

// Flips lists, for each fact of a closed list, the smallest change down and up
// that changes the verdict, to 1 VA, 0.01 kW or one setting. Facts that can be
// read off a plate come first. A load, heat or peak is left out where the
// general method decides, since its demand steps are not in order.
//
// Source: NEC 220.82, 220.83, 220.87; the search is ours.
func Flips(in Input, b *Book) ([]Flip, error) {
	if err := in.check(allMethods); err != nil {
		return nil, err
	}
	in.Management = Management{}
	now, by := in.verdict()
	s := flipSearch{now: now}
	if by != General {
		in.flipLoads(&s)
		in.flipHeat(&s)
		in.flipPeak(&s)
	}
	in.flipSettings(&s)
	if b != nil {
		in.flipEditions(&s, b)
	}
	sort.SliceStable(s.found, func(i, j int) bool { return s.found[i].Fact < s.found[j].Fact })
	return s.found, nil
}

// verdict is the verdict without management, and the method that gives it.
func (in *Input) verdict() (Verdict, Method) {
	var all [methodCount]Outcome
	best := in.run(in.Supply.Capacity().Amps, &all)
	return all[best].Verdict, best
}

// flipSearch finds the first change along a fact whose verdict only falls, or
// only rises, in the direction tried.
type flipSearch struct {
	now   Verdict
	found []Flip
}

// along tries a fact from its value to an end in equal steps.
func (s *flipSearch) along(f Flip, end, step float64, at func(x float64) Verdict) {
	span := end - f.From
	if span < 0 {
		step, span = -step, -span
	}
	n := int(span/max(step, -step) + 1e-6)
	if n == 0 || at(f.From+float64(n)*step) == s.now {
		return
	}
	k := 1 + sort.Search(n-1, func(i int) bool { return at(f.From+float64(i+1)*step) != s.now })
	f.To = f.From + float64(k)*step
	f.Verdict = at(f.To)
	s.found = append(s.found, f)
}

func (in *Input) flipLoads(s *flipSearch) {
	trial := *in
	trial.Loads = append([]Load(nil), in.Loads...)
	for i, l := range in.Loads {
		f := Flip{Fact: FlipLoad, Load: l.Kind, From: float64(l.VA)}
		at := func(x float64) Verdict {
			trial.Loads[i].VA = va(x)
			v, _ := trial.verdict()
			return v
		}
		s.along(f, 0, flipStepVA, at)
		s.along(f, flipMostVA, flipStepVA, at)
		trial.Loads[i].VA = l.VA
	}
}

func (in *Input) flipHeat(s *flipSearch) {
	trial := *in
	if in.Heat.Kind != NoElectricHeat && in.Heat.Kind != HeatPumpAlone {
		at := func(x float64) Verdict {
			trial.Heat.VA = va(x)
			v, _ := trial.verdict()
			return v
		}
		f := Flip{Fact: FlipHeat, From: float64(in.Heat.VA)}
		s.along(f, 0, flipStepVA, at)
		s.along(f, flipHeatMostVA, flipStepVA, at)
		trial.Heat.VA = in.Heat.VA
	}
	if in.Cooling > 0 {
		at := func(x float64) Verdict {
			trial.Cooling = va(x)
			v, _ := trial.verdict()
			return v
		}
		f := Flip{Fact: FlipCooling, From: float64(in.Cooling)}
		s.along(f, 0, flipStepVA, at)
		s.along(f, flipMostVA, flipStepVA, at)
	}
}

// flipPeak tries the peak only where one is known; where none is, the measure
// [FindPeak] names the one that would do.
func (in *Input) flipPeak(s *flipSearch) {
	if in.Measured.Record == NoRecord {
		return
	}
	trial := *in
	at := func(x float64) Verdict {
		trial.Measured.Peak = unit.Kilowatts(x)
		v, _ := trial.verdict()
		return v
	}
	f := Flip{Fact: FlipPeak, From: float64(in.Measured.Peak)}
	s.along(f, flipLeastKW, flipStepKW, at)
	s.along(f, flipMostKW, flipStepKW, at)
}

// flipSettings walks the settings down, then up, from the one asked for.
func (in *Input) flipSettings(s *flipSearch) {
	asked := float64(in.asked())
	if asked == 0 {
		return
	}
	trial := *in
	trial.Chargers = append([]Charger(nil), in.Chargers...)
	try := func(a float64) bool {
		trial.Chargers[0].Setting = unit.Amps(a)
		v, _ := trial.verdict()
		if v == s.now {
			return false
		}
		s.found = append(s.found, Flip{Fact: FlipSetting, From: asked, To: a, Verdict: v})
		return true
	}
	steps := in.Rules.setting.standard
	for i := len(steps) - 1; i >= 0; i-- {
		if steps[i] < asked && try(steps[i]) {
			break
		}
	}
	for _, a := range steps {
		if a > asked && try(a) {
			break
		}
	}
}

// flipEditions tries every other edition of the book.
func (in *Input) flipEditions(s *flipSearch, b *Book) {
	for i, year := range b.editions {
		trial := *in
		trial.Rules = b.rules[i]
		if year == in.Rules.year || trial.check(allMethods) != nil {
			continue
		}
		if v, _ := trial.verdict(); v != s.now {
			s.found = append(s.found, Flip{Fact: FlipEdition, From: float64(in.Rules.year), To: float64(year), Verdict: v})
		}
	}
}
