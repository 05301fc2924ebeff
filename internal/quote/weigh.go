package quote

import (
	"strings"

	"daybreak/internal/charging"
	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/edition"
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// ladder is the output settings offered on a new 240 or 208 V circuit, amperes.
//
// Source: common practice; each is 80 % of a standard device (NEC 240.6(A)).
var ladder = []unit.Amps{16, 24, 32, 40, 48}

// largest is the settings above the ladder, weighed only when asked for.
var largest = []unit.Amps{64, 80}

// standard are all of them, smallest first.
var standard = append(append([]unit.Amps{}, ladder...), largest...)

// weighing is the work of one composition. Every way is weighed on figures
// alone; those that are shown are then laid out in full, by the same code.
type weighing struct {
	*home
	need    Need
	worst   charging.WorstWeekday
	winter  float64        // consumption of the coldest month, times the label
	sheet   *working.Sheet // of the household; nil on a draw
	full    *working.Sheet // of the option being laid out; nil while weighing
	outlets []judged
	options []Option
}

// weigh lists every way to charge at this home, with circuit, panel check,
// hours and price.
func (w *weighing) weigh() error {
	if err := w.existingWays(); err != nil {
		return err
	}
	return w.newCircuits()
}

// existingWays weighs what could be made of the outlets that are there.
func (w *weighing) existingWays() error {
	var err error
	if w.outlets, err = w.judge(); err != nil {
		return err
	}
	w.options = make([]Option, 0, 16)
	for i := range w.outlets {
		j := &w.outlets[i]
		for _, way := range j.verdict.Ways {
			o, err := w.existing(j, way)
			if err != nil {
				return err
			}
			w.options = append(w.options, o)
		}
	}
	return nil
}

// inFull lays a weighed option out: its working, its worksheets and its bill
// line by line.
func (w *weighing) inFull(o *Option) (Option, error) {
	w.full = &working.Sheet{Steps: make([]working.Step, 0, usualSteps)}
	defer func() { w.full = nil }()
	full, err := w.again(o)
	full.Role, full.Findings, full.Working = o.Role, o.Findings, w.full.Steps
	return full, err
}

// usualSteps is room for the working of most options.
const usualSteps = 128

func (w *weighing) again(o *Option) (Option, error) {
	if o.Way != ExistingOutlet {
		wired, err := w.wired(o.Way, o.Setting, o.Volts)
		if err != nil || !o.Managed {
			return wired, err
		}
		w.full = branched(w.full)
		return w.managed(wired)
	}
	for i := range w.outlets {
		if w.outlets[i].slot != o.OutletSlot {
			continue
		}
		j, err := w.judgeOne(i)
		if err != nil {
			return Option{}, err
		}
		for _, way := range j.verdict.Ways {
			if way.Kind == o.OutletWay.Kind {
				return w.existing(&j, way)
			}
		}
	}
	return *o, nil
}

// existing weighs one thing that could be made of an outlet.
func (w *weighing) existing(j *judged, way outlet.Way) (Option, error) {
	o := Option{
		ID:         j.slot + "-" + string(way.Kind),
		Way:        ExistingOutlet,
		Setting:    way.Setting,
		Breaker:    way.Breaker,
		Volts:      j.volts,
		Outlet:     &j.verdict,
		OutletWay:  way,
		OutletSlot: j.slot,
		Possible:   true,
	}
	receptacle := unit.Amps(0)
	if way.Receptacle != "" {
		receptacle = faces[way.Receptacle].Amps
	}
	if err := w.hours(&o, receptacle); err != nil {
		return o, err
	}
	if w.full.Keeping() {
		o.Care = w.care(&o, j.about)
	}
	for _, c := range j.verdict.Verify {
		o.Verify = append(o.Verify, Said(c.Words()))
	}
	if err := w.existingPanel(&o); err != nil {
		return o, err
	}
	return o, w.priceOutlet(&o, j)
}

// existingPanel checks the service for a 240 V circuit that is there already;
// a 120 V outlet lies inside the general lighting load.
func (w *weighing) existingPanel(o *Option) error {
	if o.Level != charging.Level2 {
		return nil
	}
	in := w.load
	in.Chargers = []panel.Charger{{Setting: o.Setting, Volts: o.Volts, Circuit: panel.ExistingCircuit}}
	return w.check(o, in)
}

func (w *weighing) check(o *Option, in panel.Input) error {
	r, err := panel.Calculate(in, w.full)
	if err != nil {
		return err
	}
	o.Panel = &r
	return nil
}

// newCircuits adds a hardwired option at each setting, a receptacle where one
// was wished or the driver owns a plug, and one 120 V circuit.
func (w *weighing) newCircuits() error {
	if err := w.newCircuit(NewReceptacle, 16, 120); err != nil {
		return err
	}
	for _, s := range w.settings() {
		for _, way := range w.waysAt(s) {
			if way == 0 {
				continue
			}
			if err := w.newCircuit(way, s, w.supply); err != nil {
				return err
			}
		}
	}
	return nil
}

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

// newCircuit weighs one new circuit; where the panel cannot carry it
// unmanaged, the same circuit under energy management is weighed too.
func (w *weighing) newCircuit(way Way, setting unit.Amps, volts unit.Volts) error {
	o, err := w.wired(way, setting, volts)
	if err != nil {
		return err
	}
	w.options = append(w.options, o)
	if o.Level == charging.Level1 || o.Panel.Verdict == panel.Fits || o.Circuit.Outcome != circuit.Designed {
		return nil
	}
	m, err := w.managed(o)
	if err != nil {
		return err
	}
	w.options = append(w.options, m)
	return nil
}

// wired designs, checks and prices a new circuit.
func (w *weighing) wired(way Way, setting unit.Amps, volts unit.Volts) (Option, error) {
	o := Option{
		ID:       newID(way, setting, volts),
		Way:      way,
		Setting:  setting,
		Volts:    volts,
		Possible: true,
	}
	design, err := circuit.Design(w.ed, w.job(way, setting, volts), w.full)
	if err != nil {
		return o, err
	}
	o.Circuit, o.Breaker = &design, design.Device
	if err := w.hours(&o, design.Receptacle.Amps); err != nil {
		return o, err
	}
	if err := w.newPanel(&o); err != nil {
		return o, err
	}
	return o, w.priceCircuit(&o)
}

func newID(way Way, setting unit.Amps, volts unit.Volts) string {
	id := "new-" + way.Word() + "-" + unit.Print(setting, 0)
	if volts == 120 {
		id += "-120v"
	}
	return id
}

func (w *weighing) newPanel(o *Option) error {
	in := w.load
	in.Chargers = []panel.Charger{{Setting: loadOf(o), Volts: o.Volts, Circuit: panel.NewCircuit}}
	return w.check(o, in)
}

// loadOf is the current the charger counts for: the plate's where a lower
// setting does not count in this edition.
func loadOf(o *Option) unit.Amps {
	if o.Circuit != nil && o.Circuit.Load > 0 {
		return o.Circuit.Load
	}
	return o.Setting
}

// managed is the same circuit with a charger that is throttled so that the
// service stays within its rating. The lawful setpoint is the one the panel's
// own check allows; when its signal is lost the charger falls back to what
// would fit unmanaged.
func (w *weighing) managed(o Option) (Option, error) {
	in := w.load
	in.Chargers = []panel.Charger{{Setting: loadOf(&o), Volts: o.Volts, Circuit: panel.NewCircuit}}
	in.Management = panel.Management{Kind: panel.MeasuredService, Setpoint: w.rules.MaxSetpoint(o.Panel.Capacity.Amps)}
	for _, m := range o.Panel.Measures {
		if m.Kind == panel.ManageEnergy {
			in.Management.Setpoint, in.Management.FailSafe = m.Setpoint, m.FailSafe
		}
	}
	o.ID += "-managed"
	o.Managed, o.Setpoint, o.FailSafe = true, in.Management.Setpoint, in.Management.FailSafe
	if err := w.check(&o, in); err != nil {
		return o, err
	}
	return o, w.priceCircuit(&o)
}

// branched is the working of an option that goes on from another's design;
// the other's panel check and bill are left behind.
func branched(s *working.Sheet) *working.Sheet {
	out := &working.Sheet{}
	for _, step := range s.Steps {
		if room, _, _ := strings.Cut(step.Rule, "."); room == "circuit" || room == "charging" {
			out.Steps = append(out.Steps, step)
		}
	}
	return out
}

// job is the circuit wanted, for the designer. In a shared garage of concrete
// it is wired in steel, which takes a knock and feeds no fire.
//
// Source: NEC 358.10, 334.10 for the method; steel in shared garages is common
// practice.
func (w *weighing) job(way Way, setting unit.Amps, volts unit.Volts) circuit.Job {
	j := circuit.Job{
		Setting:    setting,
		Volts:      volts,
		Means:      edition.RatingPlate,
		Fastening:  edition.FixedInPlace,
		Connection: circuit.WantHardwired,
		Place:      w.where,
		Route:      w.route.circuit,
		Terminals:  w.route.terminals,
		Ambient:    w.route.ambient,
		Concrete:   w.route.concrete,
		Cost:       w.costOf,
	}
	if w.route.concrete {
		j.Methods = circuit.UseEMT
	}
	if way == NewReceptacle {
		j.Connection = circuit.WantReceptacle
		j.Fastening = edition.CordConnected
		j.Plug = w.ownedPlugFor(setting, volts)
	}
	if rating := w.equipmentRating(way, setting, volts); rating > setting {
		j.Rating, j.Means = rating, edition.RestrictedAccess
	}
	return j
}

// hours fills power and times of an option.
func (w *weighing) hours(o *Option, receptacle unit.Amps) error {
	breaker := o.Breaker
	if breaker == 0 {
		breaker = o.Setting / 0.8
	}
	rate, err := w.rate(o.Volts, breaker, receptacle, o.Setting)
	if err != nil {
		return err
	}
	o.Rate, o.Level = rate, rate.Level
	return w.times(o)
}
