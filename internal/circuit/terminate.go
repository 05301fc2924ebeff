package circuit

import (
	"errors"

	"daybreak/internal/edition"
)

// Safer is the reading to plan on where a rule may be read in two ways.
func Safer(r edition.Requirement) edition.Requirement {
	if r == edition.AskAHJ {
		return edition.Required
	}
	return r
}

// terminate decides how the charger meets the circuit. It stands before the
// conductors, since a four-wire receptacle needs a neutral.
func (d *design) terminate() (ok bool, err error) {
	r, job := &d.res, d.job
	over := r.Load > d.ed.PlugInLimit().Value
	switch {
	case over:
		r.Hardwired = true
		if job.Connection == WantReceptacle {
			d.note(NoteHardwiredAbove40)
		}
	case job.Connection == WantHardwired:
		r.Hardwired = true
	case job.Connection == AnyConnection && job.Plug == "":
		r.Hardwired = job.Volts > 120
	}
	if r.Hardwired && job.Place == edition.Outdoor {
		d.note(NoteHardwiredOutdoors)
	}
	connection := edition.Hardwired
	if !r.Hardwired {
		connection = edition.PlugIn
		if ok, err := d.receptacle(); !ok || err != nil {
			return false, err
		}
	}
	return true, d.protectAndLabel(connection)
}

func (d *design) protectAndLabel(connection edition.Connection) (err error) {
	r, job := &d.res, d.job
	r.GroundFault, err = d.ed.GroundFault(job.Place, connection, r.Device)
	if errors.Is(err, edition.ErrUnanswerable) {
		// The book is silent: the authority decides, and the device is priced.
		r.GroundFault = edition.Cited[edition.Requirement]{Value: edition.AskAHJ}
	} else if err != nil {
		return err
	}
	r.GFCI = Safer(r.GroundFault.Value) == edition.Required
	if r.GroundFault.Value == edition.AskAHJ {
		d.note(NoteAskAHJGroundFault)
	}
	r.Disconnect = d.ed.Disconnect(connection, r.Load).Value
	r.Individual = d.ed.IndividualCircuit(r.Load, job.Volts).Value
	r.Coupler = d.ed.CouplerHeight(job.Place).Value
	r.Labels = CircuitLabel
	if r.Load < d.rating {
		r.Labels |= SettingLabel
	}
	r.StructureDisconnect = job.Structure != SameStructure
	if job.Structure == UnfedStructure {
		d.note(NoteStructureDisconnect)
	}
	if r.Disconnect || r.StructureDisconnect {
		r.Labels |= DisconnectLabel
	}
	if job.Route.buried() {
		r.Labels |= BuriedLabel
	}
	return nil
}

// receptacle picks the plug's own face, or the smallest that fits the device,
// four-wire where there is one, as most chargers' plugs are.
func (d *design) receptacle() (ok bool, err error) {
	job := d.job
	var best edition.Face
	for i := range d.ed.Faces() {
		f := &d.ed.Faces()[i].Value
		if !f.New || !f.Ground || (f.Volts > 120) != (job.Volts > 120) {
			continue
		}
		if !d.ed.ReceptacleFits(f.Amps, d.res.Device).Value || (job.Plug != "" && job.Plug != f.Config) {
			continue
		}
		if best.Amps == 0 || f.Amps < best.Amps || (f.Amps == best.Amps && f.Neutral) {
			best = *f
		}
	}
	if best.Amps == 0 {
		return false, d.fail(NoReceptacle, Hardwire, LargerPlug, LowerSetting)
	}
	out := job.Place == edition.Outdoor
	d.res.Receptacle = Receptacle{
		Config: best.Config, Amps: best.Amps, Neutral: best.Neutral && job.Volts > 120,
		TamperResistant:  d.ed.TamperResistant(best.Amps).Value,
		WeatherResistant: out && d.ed.WeatherResistant(best.Amps).Value, InUseCover: out,
	}
	return true, nil
}
