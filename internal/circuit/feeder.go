package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// FeederJob is one feeder to design, from a panel to another that the
// charger's circuit will start from: in a detached building, or beside a panel
// that is full. Every field is known, as in Job.
type FeederJob struct {
	Charger   unit.Amps // what the charger counts for, continuous, 6 to 80 A
	Other     unit.Amps // drawn beside it, 0 to 100 A; a 120 V load is taken on both hots
	Volts     unit.Volts
	Detached  bool           // the panel fed stands in another building
	OldRuns   int            // supplies that building has today: all are taken out
	Moved     []MovedCircuit // circuits fed anew from the panel, at most 8
	AtLeast   unit.Amps      // wanted rating; 0 for the least that will do
	Place     edition.Place  // of the panel fed
	Route     Route          // from panel to panel
	Terminals edition.Marking
	// Aluminium is whether both ends are marked for aluminium conductors.
	Aluminium   bool
	Ambient     unit.Celsius
	Concrete    bool
	Separations int
	Methods     MethodSet // 0 for all that fit
	DropPercent float64   // as in Job
	Devices     []unit.Amps
	Cost        func(*Candidate) float64
}

// MovedCircuit is an older circuit fed anew from the panel.
type MovedCircuit struct {
	Amps  unit.Amps // 15 to 60
	Poles int       // 1 or 2
	GFCI  bool
}

// Fed is the panel at the end of a feeder.
type Fed struct {
	Amps    unit.Amps // of its bus, at least
	Spaces  int       // full spaces needed
	Main    bool      // with a main device, the building's disconnect
	Place   edition.Place
	Rods    int          // ground rods
	RodWire edition.Size // their conductor, bare copper
	RodFeet unit.Feet
	Moved   []MovedCircuit
	Removed int // old supplies taken out
}

// FeederResult is a finished feeder.
type FeederResult struct {
	Outcome    Outcome
	Reason     Reason
	WouldDo    []Remedy
	Demand     unit.Amps // 125 % of the charger and the rest
	Drawn      unit.Amps // really drawn, what the voltage drop is reckoned at
	Device     unit.Amps // in the panel it comes from
	Panel      Fed
	Chosen     Candidate // its Neutral is insulated and kept apart from ground
	Candidates []Candidate
	Losers     []Candidate
	Notes      []Note
	Takeoff    Takeoff
}

// leastFeeder is the smallest feeder put in: the least disconnect a building
// with a panel may have, and the smallest subpanel sold.
//
// Source: NEC 225.39(D); common practice beside a panel.
const leastFeeder unit.Amps = 60

// DesignFeeder sizes a feeder and names the panel it feeds. The circuit from
// that panel is a Job with Structure SameStructure and FeederPercent set to
// Chosen.DropPercent.
//
// Source: NEC 215.2, 215.3, 225.30 to 225.39, 250.32, 240.4; the largest drop is
// the book's advice.
func DesignFeeder(ed edition.Edition, job FeederJob, sheet *working.Sheet) (FeederResult, error) {
	if err := job.check(); err != nil {
		return FeederResult{}, err
	}
	run := job.run()
	d := newDesign(ed, &run)
	d.neutral, d.other = true, job.Other
	fed := job.fed(ed)
	d.fed = &fed
	if err := d.runFeeder(&job); err != nil {
		return FeederResult{}, err
	}
	if sheet.Keeping() {
		d.explainFeeder(sheet)
	}
	r := &d.res
	return FeederResult{Outcome: r.Outcome, Reason: r.Reason, WouldDo: r.WouldDo, Demand: r.Design, Drawn: r.Load + job.Other,
		Device: r.Device, Panel: fed, Chosen: r.Chosen, Candidates: r.Candidates, Losers: r.Losers, Notes: r.Notes, Takeoff: r.Takeoff}, nil
}

// run is the feeder in the words of a job: how it goes, and what limits it. A
// buried feeder is pulled in one, without a splice on its way.
//
// Source: common practice.
func (j *FeederJob) run() Job {
	if j.Methods == 0 && j.Route.buried() {
		j.Methods = UseEMT | UsePVC | UseUFB
		if j.Route.shallow() {
			j.Methods |= UseRMC
		}
	}
	return Job{Setting: j.Charger, Volts: j.Volts, Place: j.Place, Route: j.Route, Terminals: j.Terminals, Ambient: j.Ambient,
		Concrete: j.Concrete, Separations: j.Separations, Methods: j.Methods, DropPercent: j.DropPercent, Devices: j.Devices, Cost: j.Cost}
}

// fed is the panel: a main device and rods in another building, lugs alone
// beside the first. Bare 6 AWG may run open to a rod, where 8 AWG is guarded.
//
// Source: NEC 225.31, 225.39, 250.32, 250.53(A)(2), 250.64(B), 250.66(A); the
// length of the electrode conductor is common practice.
func (j *FeederJob) fed(ed edition.Edition) Fed {
	f := Fed{Place: j.Place, Spaces: 2, Moved: j.Moved}
	for _, m := range j.Moved {
		f.Spaces += m.Poles
	}
	if j.Detached {
		const rodFeet = 20
		rods := ed.StructureRods(edition.OwnPanel)
		f.Main, f.Removed, f.Rods, f.RodWire, f.RodFeet = true, j.OldRuns, rods.Value, ed.RodConductor().Value, rodFeet
	}
	return f
}

func (d *design) runFeeder(job *FeederJob) error {
	for _, step := range []func() (bool, error){
		func() (bool, error) { return d.feederDevice(job) },
		d.serveRoute,
		func() (bool, error) { return d.feederCandidates(job) },
		d.rankCandidates,
		d.takeOff,
	} {
		if ok, err := step(); err != nil || !ok {
			d.res.Notes = d.notes[:d.noted:d.noted]
			return err
		}
	}
	d.res.Outcome = Designed
	if d.fed.Removed > 0 {
		d.note(NoteReplaceOldSupply)
	}
	d.note(NoteNeutralApart)
	if d.res.Chosen.Parts[0].Metal == edition.Aluminium || d.res.Chosen.lastPart().Metal == edition.Aluminium {
		d.note(NoteAluminiumTerminals)
	}
	d.note(NoteTorque)
	d.note(NoteLicensed)
	d.res.Notes = d.notes[:d.noted:d.noted]
	return nil
}

// feederDevice takes the charger at 125 %, the rest as it is, and the next
// standard device, not below the least feeder.
func (d *design) feederDevice(job *FeederJob) (bool, error) {
	r := &d.res
	r.Load, r.Poles, r.Hardwired = job.Charger, 2, true
	r.Design = DesignCurrent(d.ed, job.Charger).Value + job.Other
	least := max(r.Design, leastFeeder, job.AtLeast)
	if job.Detached {
		least = max(least, d.ed.StructureDisconnect(edition.OwnPanel).Value)
	}
	next, err := d.ed.NextDevice(least)
	if err != nil {
		return false, err
	}
	r.Device = next.Value
	if shelf := job.Devices; len(shelf) > 0 {
		i := 0
		for i < len(shelf) && shelf[i] < r.Device {
			i++
		}
		if i == len(shelf) {
			return false, d.fail(NothingStocked, LowerSetting)
		}
		r.Device = shelf[i]
	}
	d.fed.Amps, r.Labels = r.Device, CircuitLabel
	if job.Detached {
		r.Labels |= DisconnectLabel
	}
	if job.Route.buried() {
		r.Labels |= BuriedLabel
	}
	advice := d.ed.DropAdvice().Value
	if d.limit = job.DropPercent; d.limit == 0 {
		d.limit = advice.BranchPercent
	}
	return true, nil
}

// feederCandidates tries copper, and aluminium where both ends take it.
func (d *design) feederCandidates(job *FeederJob) (bool, error) {
	wanted := job.Methods
	d.methods &^= UseSER
	if ok, err := d.sizeCandidates(); !job.Aluminium || err != nil {
		return ok, err
	}
	copper := d.res
	d.res.Outcome, d.res.Reason, d.res.WouldDo = 0, NoReason, nil
	d.single, d.metal = edition.XHHW2, edition.Aluminium
	d.methods &^= UseNMB | UseMC | UseUFB
	if wanted == 0 || wanted&UseSER != 0 {
		d.methods |= UseSER
	}
	kept := d.res.Candidates
	ok, err := d.sizeCandidates()
	if err != nil {
		return false, err
	}
	d.res.Candidates = append(kept, d.res.Candidates...)
	if len(d.res.Candidates) > 0 {
		d.res.Outcome, d.res.Reason, d.res.WouldDo = 0, NoReason, nil
		return true, nil
	}
	d.res.Outcome, d.res.Reason, d.res.WouldDo = copper.Outcome, copper.Reason, copper.WouldDo
	return ok, nil
}
