package quote

import (
	"daybreak/internal/charging"
	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/edition"
	"daybreak/internal/panel"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

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
	if err := w.newCircuits(); err != nil {
		return err
	}
	return w.remedies()
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
	if err := w.design(&o); err != nil {
		return o, err
	}
	if err := w.newPanel(&o); err != nil {
		return o, err
	}
	return o, w.priceCircuit(&o)
}

// design sizes the circuit of an option and says what it gives.
func (w *weighing) design(o *Option) error {
	design, err := w.drawn(o)
	if err != nil {
		return err
	}
	o.Circuit, o.Breaker = &design, design.Device
	return w.hours(o, design.Receptacle.Amps)
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

// job is the circuit wanted, for the designer.
func (w *weighing) job(o *Option) circuit.Job {
	j := circuit.Job{
		Setting:    o.Setting,
		Volts:      o.Volts,
		Means:      edition.RatingPlate,
		Fastening:  edition.FixedInPlace,
		Connection: circuit.WantHardwired,
		Place:      w.where,
		Route:      w.route.circuit,
		Terminals:  w.route.terminals,
		Ambient:    w.route.ambient,
		Concrete:   w.route.concrete,
		Structure:  w.route.structure,
		Methods:    w.methods(),
		Cost:       w.costOf,
	}
	if o.Way == NewReceptacle {
		j.Connection = circuit.WantReceptacle
		j.Fastening = edition.CordConnected
		j.Plug = w.ownedPlugFor(o.Setting, o.Volts)
	}
	if rating := w.equipmentRating(o); rating > o.Setting {
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
