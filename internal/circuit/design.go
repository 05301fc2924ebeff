package circuit

import (
	"daybreak/internal/edition"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Design sizes the branch circuit for a job by an edition. Steps go to the
// sheet, which may be nil. The error is a fault naming the field of the job
// that makes no sense; a circuit that cannot be built is a result.
//
// Source: the eight steps of a branch circuit, sections in the working.
func Design(ed edition.Edition, job Job, sheet *working.Sheet) (Result, error) {
	if err := job.check(ed); err != nil {
		return Result{}, err
	}
	d := newDesign(ed, &job)
	if err := d.run(); err != nil {
		return Result{}, err
	}
	if d.res.Outcome == Impossible {
		d.res.MostHere = mostHere(ed, job)
	}
	if sheet.Keeping() {
		d.explain(sheet)
	}
	return d.res, nil
}

func newDesign(ed edition.Edition, job *Job) design {
	return design{ed: ed, job: job, single: edition.THWN2, metal: edition.Copper}
}

// design is one job on the bench.
type design struct {
	ed      edition.Edition
	job     *Job
	res     Result
	rating  unit.Amps // of the plate
	other   unit.Amps // beside the charger, on a feeder
	neutral bool      // a neutral is pulled
	fed     *Fed      // the panel at the end of a feeder
	methods MethodSet
	limit   float64          // of voltage drop, per cent
	route   []stretch        // drops merged in
	ambient unit.Celsius     // along the run, a roof's heat on it
	single  edition.Method   // conductors in raceways
	metal   edition.Material // of those conductors
	changes bool             // cable was given up for changing too often
	sized   [mostSized]sizedWire
	nSized  int
	notes   [12]Note
	noted   int
}

// mostSized is four cables and two single conductors, these also as if marked.
const mostSized = 8

// sizedWire is the smallest size of a wiring, found once for the whole job.
type sizedWire struct {
	method edition.Method
	metal  edition.Material
	column int
	Sized
}

// run works in the order an electrician does. A step that ends the design
// leaves its outcome in the result.
func (d *design) run() error {
	for _, step := range []func() (bool, error){
		d.load,           // 1 what the charger counts for
		d.device,         // 2 overcurrent device
		d.terminate,      // 7 plug or hardwired: decides the neutral
		d.serveRoute,     // 6 what this room wires
		d.sizeCandidates, // 3 conductors, 4 drop, 5 grounding, 6 raceway
		d.rankCandidates, // cheapest that meets all limits
		d.takeOff,        // 8 materials
	} {
		if ok, err := step(); err != nil || !ok {
			d.res.Notes = d.notes[:d.noted:d.noted]
			return err
		}
	}
	d.res.Outcome = Designed
	d.note(NoteTorque)
	d.note(NoteLicensed)
	d.res.Notes = d.notes[:d.noted:d.noted]
	return nil
}

func (d *design) load() (bool, error) {
	job := d.job
	d.rating = max(job.Rating, job.Setting)
	d.res.Load = LoadCurrent(d.ed, d.rating, job.Setting, job.Means, job.Fastening).Value
	if d.res.Load > job.Setting {
		d.note(NoteSettingDoesNotCount)
	}
	d.res.Design = DesignCurrent(d.ed, d.res.Load).Value
	d.res.Poles = 2
	if job.Volts == 120 {
		d.res.Poles = 1
	}
	advice := d.ed.DropAdvice().Value
	d.limit = job.DropPercent
	if d.limit == 0 {
		d.limit = max(0, min(advice.BranchPercent, advice.TotalPercent-job.FeederPercent))
	}
	return true, nil
}

func (d *design) device() (bool, error) {
	next, err := DeviceFor(d.ed, d.res.Load)
	if err != nil {
		return false, err
	}
	device := max(next.Value, smallestDevice)
	if shelf := d.job.Devices; len(shelf) > 0 {
		i := 0
		for i < len(shelf) && shelf[i] < device {
			i++
		}
		if i == len(shelf) {
			return false, d.fail(NothingStocked, LowerSetting)
		}
		device = shelf[i]
	}
	if d.job.MaxDevice > 0 && device > d.job.MaxDevice {
		return false, d.fail(DeviceAboveEquipment, LowerSetting)
	}
	d.res.Device = device
	return true, nil
}

// serveRoute stops where this room does not wire the way asked for.
func (d *design) serveRoute() (bool, error) {
	var onStack [18]Segment
	laid := d.job.Route.lay(d.job.Place, onStack[:0])
	for i := range laid {
		s := &laid[i]
		if s.Kind == Trench && s.Over == 0 {
			d.res.Outcome, d.res.Reason = NotServed, UndergroundRoute
			return false, nil
		}
	}
	d.route = risers(laid, d.ed.EmergingHeight().Value)
	d.methods = d.job.Methods
	if d.methods&UseXHHW2 != 0 {
		d.single = edition.XHHW2
	}
	if d.methods &^= UseXHHW2; d.methods == 0 {
		d.methods = UseNMB | UseEMT | UsePVC
		if d.job.Route.buried() {
			d.methods |= UseUFB
		}
		if d.job.Route.shallow() {
			d.methods |= UseRMC
		}
	}
	if d.methods == UseOther {
		d.res.Outcome, d.res.Reason = NotServed, OtherMethodWanted
		return false, nil
	}
	if d.job.Structure == SuppliedAlready && d.ed.Supplies().Value == 1 {
		d.note(NoteSecondSupplyForCars)
		return false, d.fail(SecondSupply, OneFeeder, AskElectrician)
	}
	if d.job.Route.buried() {
		d.note(NoteCallBeforeDigging)
	}
	return true, d.warm()
}

// warm takes the air along the run for what it is above a roof in sun.
func (d *design) warm() error {
	d.ambient = d.job.Ambient
	if !d.job.OverRoof {
		return nil
	}
	roof, err := d.ed.RooftopAmbient(d.job.Ambient, d.job.RoofGap)
	d.ambient = roof.Value
	return err
}

// fail ends the design as impossible. It returns nil for the caller's error.
func (d *design) fail(r Reason, would ...Remedy) error {
	d.res.Outcome, d.res.Reason, d.res.WouldDo = Impossible, r, would
	return nil
}

func (d *design) note(n Note) {
	for _, had := range d.notes[:d.noted] {
		if had == n {
			return
		}
	}
	if d.noted < len(d.notes) {
		d.notes[d.noted] = n
		d.noted++
	}
}

// StandardSettings are the charger settings offered, ascending.
//
// Source: common practice; each but 44 fills a standard device at 80 %.
func StandardSettings() []unit.Amps {
	return []unit.Amps{12, 16, 20, 24, 28, 32, 36, 40, 44, 48, 56, 64, 72, 80}
}

// mostHere is the largest standard setting below the job's that could be built
// as the job stands.
func mostHere(ed edition.Edition, job Job) unit.Amps {
	settings := StandardSettings()
	for i := len(settings) - 1; i >= 0; i-- {
		if settings[i] >= job.Setting {
			continue
		}
		lower := job
		lower.Setting, lower.Rating, lower.Means = settings[i], 0, edition.RatingPlate
		d := newDesign(ed, &lower)
		if err := d.run(); err == nil && d.res.Outcome == Designed {
			return settings[i]
		}
	}
	return 0
}
