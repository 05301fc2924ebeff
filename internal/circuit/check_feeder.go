package circuit

import (
	"fmt"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
)

// check refuses a feeder that makes no sense, by the name of its field.
func (j *FeederJob) check() error {
	switch {
	case !(j.Charger >= 6 && j.Charger <= 80):
		return fault.Invalid("feeder.charger_amps", float64(j.Charger), "6 to 80 A")
	case !(j.Other >= 0 && j.Other <= 100):
		return fault.Invalid("feeder.other_amps", float64(j.Other), "0 to 100 A")
	case j.Volts != 208 && j.Volts != 240:
		return fault.Invalid("feeder.volts", float64(j.Volts), "208 or 240 V")
	case j.OldRuns < 0 || j.OldRuns > 8:
		return fault.Invalid("feeder.old_runs", j.OldRuns, "0 to 8")
	case !(j.AtLeast >= 0 && j.AtLeast <= 200):
		return fault.Invalid("feeder.at_least_amps", float64(j.AtLeast), "0 to 200 A")
	case j.Place < edition.Indoor || j.Place > edition.Outdoor:
		return fault.Invalid("feeder.place", j.Place, "indoor, garage or outdoor")
	case j.Terminals != edition.Unmarked && j.Terminals != edition.Marked75:
		return fault.Invalid("feeder.terminals_c", j.Terminals, "75 °C marked or not")
	case !(j.Ambient >= -40 && j.Ambient <= 85):
		return fault.Invalid("feeder.ambient_c", float64(j.Ambient), "-40 to 85 °C")
	case j.Separations < 0 || j.Separations > 20:
		return fault.Invalid("feeder.separations", j.Separations, "0 to 20")
	case j.Methods >= methodSets:
		return fault.Invalid("feeder.methods", j.Methods, "NM-B, EMT, PVC, UF-B, RMC, MC, SER or other")
	case !(j.DropPercent >= 0 && j.DropPercent <= 10):
		return fault.Invalid("feeder.drop_percent", j.DropPercent, "above 0 to 10 %, or 0 for the book's advice")
	case len(j.Moved) > 8:
		return fault.Invalid("feeder.moved", len(j.Moved), "at most 8 circuits")
	}
	for i, m := range j.Moved {
		if !(m.Amps >= 15 && m.Amps <= 60) || m.Poles < 1 || m.Poles > 2 {
			return fault.Invalid(fmt.Sprintf("feeder.moved[%d]", i), fmt.Sprintf("%v A, %d poles", float64(m.Amps), m.Poles), "15 to 60 A, 1 or 2 poles")
		}
	}
	if err := checkDevices("feeder.devices", j.Devices); err != nil {
		return err
	}
	return j.Route.check("feeder")
}
