package quote

import (
	"strings"

	"daybreak/internal/panel"
	"daybreak/internal/working"
)

// managed is the same circuit with a charger that is throttled so that the
// service stays within its rating. The lawful setpoint is the one the panel's
// own check allows; when its signal is lost the charger falls back to what
// would fit unmanaged.
func (w *weighing) managed(o Option) (Option, error) {
	before := w.equipmentRating(&o)
	o.ID += "-managed"
	o.Managed = true
	if w.equipmentRating(&o) != before {
		// A charger that can be managed has another plate: the circuit is its own.
		w.full = afresh(w.full)
		if err := w.design(&o); err != nil {
			return o, err
		}
	}
	in := w.load
	in.Chargers = []panel.Charger{{Setting: loadOf(&o), Volts: o.Volts, Circuit: panel.NewCircuit}}
	in.Management = panel.Management{Kind: panel.MeasuredService, Setpoint: w.rules.MaxSetpoint(o.Panel.Capacity.Amps)}
	for _, m := range o.Panel.Measures {
		if m.Kind == panel.ManageEnergy {
			in.Management.Setpoint, in.Management.FailSafe = m.Setpoint, min(m.FailSafe, o.Setting)
		}
	}
	o.Setpoint, o.FailSafe = in.Management.Setpoint, in.Management.FailSafe
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

// afresh is a sheet of the same kind, empty.
func afresh(s *working.Sheet) *working.Sheet {
	if !s.Keeping() {
		return nil
	}
	return &working.Sheet{}
}
