package panel

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// layout collects the lines of one worksheet.
type layout struct {
	in    *Input
	lines []Line
}

func (l *layout) add(key, what string, given, used working.Term, out float64, src *working.Source) {
	l.lines = append(l.lines, Line{"panel.line." + key, what, given, used, voltAmps(out), src})
}

func voltAmps(x float64) working.Term { return working.Num("out", x, "VA") }
func given(x float64, u string) working.Term {
	return working.Num("given", x, u)
}
func used(x float64, u string) working.Term { return working.Num("used", x, u) }

// percent is a factor as it is printed.
func percent(x float64) working.Term { return working.Num("used", 100*x, "%") }

// worksheet lays one permitted method out, in its own order.
func (in *Input) worksheet(o *Outcome, capacity Capacity) Worksheet {
	t := in.tally()
	l := &layout{in: in, lines: make([]Line, 0, 32)}
	switch o.Method {
	case ExistingDwelling:
		l.existing(&t, o)
	case OptionalDwelling:
		l.optional(&t, o)
	case MeasuredDemand:
		l.measured(o)
	case MobileHome:
		l.mobile(&t)
	case General:
		l.general(&t)
	}
	l.chargers(&t, o)
	l.closing(o, capacity)
	return Worksheet{o.Method, l.lines}
}

// connectedLines are the lines that open every sheet by floor area.
func (l *layout) circuits(t *tally) {
	r, in := l.in.Rules, l.in
	l.add("floor_area", "", given(float64(in.FloorArea), "ft²"), used(r.lighting.perSqFt, "VA/ft²"), t.lighting, r.lighting.src)
	l.add("small_appliance", "", given(float64(in.SmallCirc), "circuits"), used(r.small.perCircuit, "VA"), t.small, r.small.src)
	l.add("laundry", "", given(float64(in.LaundryCir), "circuits"), used(r.laundry.perCircuit, "VA"), t.laundry, r.laundry.src)
}

// plates are the appliances at nameplate, one line each.
func (l *layout) plates(src *working.Source) {
	for i := range l.in.Loads {
		x := &l.in.Loads[i]
		if x.VA == 0 || l.in.Rules.loads[x.Kind].class == ClassCharger {
			continue
		}
		l.add("load."+x.Kind.String(), x.Kind.String(), given(float64(x.VA), "VA"), used(float64(x.Count), "×"), float64(x.VA)*float64(x.Count), src)
	}
}

// bracket is the total, its first part in full and the rest at a factor.
func (l *layout) bracket(total, first, rest float64, src *working.Source) {
	head := min(total, first)
	l.add("connected", "", working.Term{}, working.Term{}, total, src)
	l.add("first", "", given(head, "VA"), percent(1), head, src)
	l.add("rest", "", given(total-head, "VA"), percent(rest), (total-head)*rest, src)
}

func (l *layout) existing(t *tally, o *Outcome) {
	e, in := &l.in.Rules.existing, l.in
	l.circuits(t)
	l.plates(o.Source)
	if o.HVAC == 0 && in.roomHeaters() && o.General > va(t.connected()) {
		l.add("room_heaters", "", given(float64(in.Heat.Units), "units"), working.Term{}, float64(in.Heat.VA), o.Source)
	}
	l.bracket(float64(o.General), e.first, e.rest, o.Source)
	if o.HVAC > 0 {
		f := heatFactors{1, 1, 1}
		if in.roomHeaters() {
			f.resistance = 0 // they are on their own sheet, which came out smaller
		}
		l.heat(f, float64(o.HVAC), o.Source)
	}
}

func (l *layout) optional(t *tally, o *Outcome) {
	x := &l.in.Rules.optional
	l.circuits(t)
	l.plates(o.Source)
	l.bracket(float64(o.General), x.first, x.rest, o.Source)
	f := heatFactors{x.strips, x.few, 1}
	if l.in.Heat.Units >= x.manyUnits {
		f.resistance = x.many
	}
	if l.in.Heat.Kind == Storage {
		f.resistance = 1
	}
	l.heat(f, float64(o.HVAC), o.Source)
}

// heatFactors are how a method takes heat and cooling that stand outside a
// bracket.
type heatFactors struct{ strips, resistance, cooling float64 }

// heat is the heat and the cooling by the method's factors, then the one that
// counts.
func (l *layout) heat(f heatFactors, counts float64, src *working.Source) {
	h, cool := &l.in.Heat, float64(l.in.Cooling)
	heating := h.nameplate() > 0
	switch h.Kind {
	case HeatPumpAlone, HeatPumpWithStrips:
		l.add("compressor", "", given(float64(h.Compressor), "VA"), percent(1), float64(h.Compressor), src)
		if h.Kind == HeatPumpWithStrips {
			l.add("strips", "", given(float64(h.VA), "VA"), percent(f.strips), float64(h.VA)*f.strips, src)
		}
	case Resistance, Storage:
		if heating && f.resistance > 0 {
			l.add("heaters", "", given(float64(h.VA), "VA"), percent(f.resistance), float64(h.VA)*f.resistance, src)
		}
	}
	if cool > 0 {
		l.add("cooling", "", given(cool, "VA"), percent(f.cooling), cool*f.cooling, src)
	}
	if heating || cool > 0 {
		l.add("heat_or_cooling", "", working.Term{}, working.Term{}, counts, src)
	}
}

func (l *layout) measured(o *Outcome) {
	m, in := &l.in.Rules.measured, l.in
	peak := 1000 * float64(in.Measured.Peak)
	factor := 1.0
	if row := rowFor(m.intervals, float64(in.Measured.IntervalMin)); row != nil {
		factor = row[1]
	}
	l.add("peak", "", given(float64(in.Measured.Peak), "kW"), working.Term{}, peak, o.Source)
	l.add("interval", "", given(float64(in.Measured.IntervalMin), "min"), percent(factor), peak*factor, o.Source)
	l.add("peak_factor", "", given(peak*factor, "VA"), percent(m.factor), m.factor*peak*factor, o.Source)
	l.add("power_factor", "", given(m.factor*peak*factor, "W"), used(m.powerFactor, ""), m.factor*peak*factor/m.powerFactor, o.Source)
	if in.Measured.Record == ThirtyDays {
		season := max(in.Heat.nameplate(), float64(in.Cooling))
		l.add("season", "", given(season, "VA"), working.Term{}, season, o.Source)
	}
}

func (l *layout) mobile(t *tally) {
	r, in := l.in.Rules, l.in
	src := r.mobile.src
	l.add("mobile_lighting", "", given(float64(in.FloorArea), "ft²"), percent(r.mobile.rest), r.mobileLighting(float64(in.FloorArea)), src)
	if t.rangePlates > 0 {
		l.add("mobile_range", "", given(t.rangePlates, "VA"), working.Term{}, r.mobileRange(t.rangePlates/1000), src)
	}
	for i := range in.Loads {
		x := &in.Loads[i]
		if x.VA > 0 && x.Kind != Range && r.loads[x.Kind].class != ClassCharger {
			l.add("load."+x.Kind.String(), x.Kind.String(), given(float64(x.VA), "VA"), used(float64(x.Count), "×"), float64(x.VA)*float64(x.Count), src)
		}
	}
	l.heat(heatFactors{1, 1, 1}, max(in.Heat.nameplate(), float64(in.Cooling)), src)
	l.motor(t)
}

func (l *layout) general(t *tally) {
	r := l.in.Rules
	g := l.in.generalLines(t)
	l.circuits(t)
	l.add("tiers", "", given(t.lighting+t.small+t.laundry, "VA"), working.Term{}, g.lighting, r.tiers.src)
	if t.fastened.connected() > 0 {
		key, factor := "fastened_few", 1.0
		if t.fastened.count >= r.fastened.least {
			key, factor = "fastened", r.fastened.factor
		}
		l.add(key, "", given(t.fastened.connected(), "VA"), percent(factor), g.fastened, r.fastened.src)
	}
	if t.other > 0 {
		l.add("other", "", given(t.other, "VA"), percent(1), t.other, r.fastened.src)
	}
	if t.dryers.count > 0 {
		l.add("dryers", "", given(t.dryerPlates, "VA"), working.Term{}, g.dryers, r.dryer.src)
	}
	if t.cookingPlates > 0 {
		l.add("cooking", "", given(t.cookingPlates, "VA"), working.Term{}, g.cooking, r.cooking.src)
	}
	f := heatFactors{1, 1, 1}
	if float64(l.in.Cooling) < l.in.Heat.nameplate() {
		f.cooling = r.noncoincident.lesserCooling
	}
	l.heat(f, g.hvac, r.noncoincident.src)
	l.motor(t)
}

func (l *layout) motor(t *tally) {
	if m := l.in.largestMotor(t); m > 0 {
		r := l.in.Rules
		l.add("motor", "", given(m, "VA"), percent(r.motors.adder), m*r.motors.adder, r.motors.src)
	}
}

// chargers are the load before the job, and the new chargers by each reading.
func (l *layout) chargers(t *tally, o *Outcome) {
	r, c := l.in.Rules, &t.chargers
	if c.oldCont > 0 && o.Method != MeasuredDemand {
		l.add("chargers_there", "", given(c.oldFull, "VA"), percent(r.continuous.factor), c.oldCont, r.continuous.src)
	}
	l.add("before", "", working.Term{}, working.Term{}, float64(o.Base), o.Source)
	if len(l.in.Chargers) == 0 {
		return
	}
	setting := working.Word("given", "more than one")
	if a := l.in.asked(); a > 0 {
		setting = given(float64(a), "A")
	}
	l.charger("charger_continuous", setting, r.continuous.factor, c.newCont, r.continuous.src)
	l.total(o, Continuous)
	l.charger("charger_full", setting, 1, c.newFull, r.charger.src)
	l.total(o, Full)
	if !o.NoLiteral {
		l.add("charger_literal", "", setting, percent(r.existing.rest), float64(o.VA[Literal])-(float64(o.Base)-c.oldCont), o.Source)
		l.total(o, Literal)
	}
}

// charger is one reading of the new chargers. Where the edition's least load
// is more than the rating gives, the line says so.
func (l *layout) charger(key string, setting working.Term, factor, counts float64, src *working.Source) {
	plates := 0.0
	for _, c := range l.in.Chargers {
		plates += float64(c.Setting) * float64(c.Volts)
	}
	if counts > plates*factor+slack {
		l.add("charger_least", "", setting, used(l.in.Rules.charger.leastVA, "VA"), counts, l.in.Rules.charger.src)
		return
	}
	l.add(key, "", setting, percent(factor), counts, src)
}

func (l *layout) total(o *Outcome, r Reading) {
	l.lines = append(l.lines, Line{"panel.line.total_" + r.String(), "", given(float64(o.VA[r]), "VA"), used(float64(l.in.Volts), "V"),
		working.Num("out", o.Amps[r], "A"), o.Source})
}

// closing compares with the capacity.
func (l *layout) closing(o *Outcome, c Capacity) {
	src := l.in.Rules.capacity
	l.lines = append(l.lines, Line{"panel.line.rating." + c.SetBy.String(), c.SetBy.String(), working.Term{}, working.Term{}, working.Num("out", c.Amps, "A"), src})
	key, spare := "panel.line.spare", o.spare(c.Amps)
	if spare < 0 {
		key, spare = "panel.line.short", -spare
	}
	l.lines = append(l.lines, Line{key, "", given(float64(c.Amps), "A"), used(float64(o.Amps[Continuous]), "A"), working.Num("out", unit.Amps(spare), "A"), src})
}
