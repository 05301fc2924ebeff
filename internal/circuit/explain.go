package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// explain writes the working of a finished design. It asks the edition again
// for the cells behind the figures, so the hot path carries no sources.
func (d *design) explain(sheet *working.Sheet) {
	e := explainer{design: d, sheet: sheet}
	e.loadAndDevice()
	if d.res.Outcome != Designed {
		return
	}
	e.wires()
	e.drop()
	e.termination()
	e.buried()
	e.structure()
}

// wires explains each part of the chosen candidate.
func (e *explainer) wires() {
	for i := range e.res.Chosen.Parts {
		if p := &e.res.Chosen.Parts[i]; p.Method != 0 {
			e.conductor(i, p)
			e.grounding(p)
			e.raceway(p)
		}
	}
}

type explainer struct {
	*design
	sheet *working.Sheet
}

func (e *explainer) add(rule string, out working.Term, src *working.Source, in ...working.Term) {
	e.sheet.Add(working.Step{Rule: rule, In: working.In(in...), Out: out, Source: src})
}

func amp(name string, a unit.Amps) working.Term { return working.Num(name, a, "A") }

func yesNo(name string, b bool) working.Term {
	if b {
		return working.Word(name, "yes")
	}
	return working.Word(name, "no")
}

func (e *explainer) loadAndDevice() {
	job, r := e.job, &e.res
	counts := e.ed.SettingCounts(job.Means, job.Fastening)
	e.add("circuit.load", amp("load", r.Load), counts.Source, amp("rating", e.rating), amp("setting", job.Setting), yesNo("counts", r.Load < e.rating))
	factor := e.ed.ContinuousFactor()
	e.add("circuit.design_current", amp("design", r.Design), factor.Source, working.Num("factor", factor.Value, ""), amp("load", r.Load))
	if r.Device == 0 {
		return
	}
	if next, err := e.ed.NextDevice(r.Device); err == nil {
		e.add("circuit.device", amp("device", r.Device), next.Source, amp("design", r.Design))
	}
	individual := e.ed.IndividualCircuit(r.Load, job.Volts)
	e.add("circuit.individual", yesNo("individual", individual.Value), individual.Source, amp("load", r.Load), working.Num("volts", job.Volts, "V"))
}

func (e *explainer) conductor(i int, p *Part) {
	w := edition.Wire{Method: p.Method, Size: p.Hot, Material: p.Metal}
	size := working.Word("size", p.Hot.String())
	method := working.Word("method", MethodName(p.Method, p.Raceway))
	demand := e.demand(&wiring{method: p.Method, metal: p.Metal})
	c, err := CheckConductor(e.ed, w, demand)
	if err != nil {
		return
	}
	starts := e.route[e.res.Chosen.spans[i].a]
	fit := e.ed.FitIn(p.Method, p.Raceway, starts.Kind.run(e.job.Place))
	e.add("circuit.method", method, fit.Source, working.Num("feet", p.Feet, "ft"))
	e.add("circuit.terminals", amp("ampacity", c.Terminals.Value), c.Terminals.Source, size, method, amp("design", e.res.Design))
	e.add("circuit.conditions", amp("ampacity", c.Conditions.Value), c.Conditions.Source, size,
		working.Num("ambient", e.ambient, "°C"), working.Num("together", demand.Surroundings.CurrentCarrying, ""), amp("load", e.res.Load+e.other))
	e.add("circuit.protection", amp("largest", c.Largest.Value), c.Largest.Source, size, amp("device", e.res.Device))
}

func (e *explainer) grounding(p *Part) {
	base, err := e.ed.GroundingConductor(e.res.Device, edition.Copper)
	if err != nil {
		return
	}
	ground := working.Word("ground", p.Ground.String())
	if p.Method.Cable() {
		if has, err := e.ed.CableGround(p.Method, p.Hot); err == nil {
			e.add("circuit.ground.cable", ground, has.Source, working.Word("least", base.Value.String()), working.Word("size", p.Hot.String()))
		}
		return
	}
	if p.minimum == p.Hot {
		e.add("circuit.ground", ground, base.Source, amp("device", e.res.Device))
		return
	}
	if inc, err := e.ed.GroundingIncreased(e.res.Device, edition.Copper, p.minimum, p.Hot); err == nil {
		e.add("circuit.ground.increased", ground, inc.Source, working.Word("least", base.Value.String()),
			working.Word("minimum", p.minimum.String()), working.Word("size", p.Hot.String()), working.Num("need", inc.Value.Need, "cmil"))
	}
}

func (e *explainer) raceway(p *Part) {
	if p.Raceway == edition.NoRaceway {
		return
	}
	tightest := p.Raceway
	if p.Riser != edition.NoRaceway {
		tightest = p.Riser
	}
	full, err := e.ed.RacewayFor(tightest, e.contents(p))
	if err != nil {
		return
	}
	e.add("circuit.fill", working.Word("trade", string(p.Trade)+" in "+RacewayName(tightest)), full.Source,
		working.Num("fill", p.FillPercent, "%"), working.Num("conductors", p.Conductors()+1+e.job.OtherCurrentCarrying, ""))
}

func (e *explainer) drop() {
	c := &e.res.Chosen
	for i := range c.Parts {
		p := &c.Parts[i]
		if p.Method == 0 {
			break
		}
		z, err := chargerImpedance(e.ed, edition.Wire{Method: p.Method, Size: p.Hot, Material: p.Metal}, p.Raceway)
		if err != nil {
			return
		}
		v := 2 * float64(e.res.Load+e.other) * float64(z.Value) * float64(p.Feet) / 1000
		e.add("circuit.drop.part", working.Num("drop", v, "V"), z.Source, amp("load", e.res.Load+e.other),
			working.Num("ohms", z.Value, "Ω/kft"), working.Num("feet", p.Feet, "ft"))
	}
	advice := e.ed.DropAdvice()
	e.add("circuit.drop", working.Num("percent", c.DropPercent, "%"), advice.Source,
		working.Num("drop", c.DropVolts, "V"), working.Num("volts", e.job.Volts, "V"), working.Num("limit", e.limit, "%"))
}

var requirementWords = [...]string{"", "no", "yes", "ask the AHJ"}
var placeWords = [...]string{"", "indoors", "in a garage", "outdoors"}

func (e *explainer) termination() {
	r := &e.res
	place := working.Word("place", placeWords[e.job.Place])
	connection := edition.PlugIn
	how := "hardwired"
	if r.Hardwired {
		connection = edition.Hardwired
	} else {
		how = "by a receptacle"
		if face, ok := faceNamed(e.ed, r.Receptacle.Config); ok {
			fits := e.ed.ReceptacleFits(face.Value.Amps, r.Device)
			e.add("circuit.receptacle", working.Word("config", r.Receptacle.Config), fits.Source, amp("receptacle", r.Receptacle.Amps), amp("device", r.Device))
		}
	}
	limit := e.ed.PlugInLimit()
	e.add("circuit.connection", working.Word("connection", how), limit.Source, amp("load", r.Load), amp("limit", limit.Value), place)
	e.add("circuit.ground_fault", working.Word("required", requirementWords[r.GroundFault.Value]), r.GroundFault.Source,
		working.Word("connection", how), place, amp("device", r.Device), yesNo("priced", r.GFCI))
	disconnect := e.ed.Disconnect(connection, r.Load)
	e.add("circuit.disconnect", yesNo("disconnect", r.Disconnect), disconnect.Source, amp("load", r.Load))
	height := e.ed.CouplerHeight(e.job.Place)
	e.add("circuit.coupler", working.Num("height", height.Value, "in"), height.Source, place)
}

// RuleKeys are the working rules this room can emit; each has its words.
func RuleKeys() []string {
	return []string{"circuit.load", "circuit.design_current", "circuit.device", "circuit.individual", "circuit.method",
		"circuit.terminals", "circuit.conditions", "circuit.protection", "circuit.ground", "circuit.ground.cable",
		"circuit.ground.increased", "circuit.fill", "circuit.drop.part", "circuit.drop", "circuit.receptacle",
		"circuit.cover", "circuit.riser", "circuit.structure", "circuit.electrode", "circuit.roof",
		"circuit.feeder.demand", "circuit.feeder.device", "circuit.supplies",
		"circuit.connection", "circuit.ground_fault", "circuit.disconnect", "circuit.coupler", "circuit.allowed"}
}
