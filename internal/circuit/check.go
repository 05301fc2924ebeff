package circuit

import (
	"fmt"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// check refuses a job that makes no sense, by the name of its field.
func (j *Job) check(ed edition.Edition) error {
	switch {
	case !(j.Setting >= 6 && j.Setting <= 80):
		return fault.Invalid("circuit.setting_amps", float64(j.Setting), "6 to 80 A")
	case j.Rating != 0 && !(j.Rating >= j.Setting && j.Rating <= 80):
		return fault.Invalid("circuit.rating_amps", float64(j.Rating), "the setting to 80 A")
	case j.Volts != 120 && j.Volts != 208 && j.Volts != 240:
		return fault.Invalid("circuit.volts", float64(j.Volts), "120, 208 or 240 V")
	case j.Means < edition.RatingPlate || j.Means > edition.AppSlider:
		return fault.Invalid("circuit.setting_means", j.Means, "rating plate, restricted access or app")
	case j.Fastening != edition.FixedInPlace && j.Fastening != edition.CordConnected:
		return fault.Invalid("circuit.fastening", j.Fastening, "fixed in place or cord-connected")
	case j.Connection > WantHardwired:
		return fault.Invalid("circuit.connection", j.Connection, "any, receptacle or hardwired")
	case j.Place < edition.Indoor || j.Place > edition.Outdoor:
		return fault.Invalid("circuit.place", j.Place, "indoor, garage or outdoor")
	case j.Terminals != edition.Unmarked && j.Terminals != edition.Marked75:
		return fault.Invalid("circuit.terminals_c", j.Terminals, "75 °C marked or not")
	case !(j.Ambient >= -40 && j.Ambient <= 85):
		return fault.Invalid("circuit.ambient_c", float64(j.Ambient), "-40 to 85 °C")
	case j.Methods >= methodSets:
		return fault.Invalid("circuit.methods", j.Methods, "NM-B, EMT, PVC, UF-B, RMC, MC or other")
	case j.OtherCurrentCarrying < 0 || j.OtherCurrentCarrying > 40:
		return fault.Invalid("circuit.other_current_carrying", j.OtherCurrentCarrying, "0 to 40")
	case !(j.DropPercent >= 0 && j.DropPercent <= 10):
		return fault.Invalid("circuit.drop_percent", j.DropPercent, "above 0 to 10 %, or 0 for the book's advice")
	}
	if r := j.Hot.Rank(); r > 0 && (r > len(ed.Sizes()) || ed.Sizes()[r-1] != j.Hot) {
		return fault.Invalid("circuit.hot", j.Hot.String(), "a size of "+ed.Name())
	}
	if err := j.checkSite(); err != nil {
		return err
	}
	if j.MaxDevice != 0 && !(j.MaxDevice >= 10 && j.MaxDevice <= 200) {
		return fault.Invalid("circuit.max_device_amps", float64(j.MaxDevice), "10 to 200 A, or 0 for no such limit")
	}
	if j.Plug != "" && len(j.Plug) > 16 {
		return fault.Invalid("circuit.plug", j.Plug, "a configuration such as 14-50")
	}
	if err := checkDevices("circuit.devices", j.Devices); err != nil {
		return err
	}
	return j.Route.check("circuit")
}

func checkDevices(field string, list []unit.Amps) error {
	for i, d := range list {
		if !unit.Finite(d) || d < 10 || d > 800 || (i > 0 && d <= list[i-1]) {
			return fault.Invalid(fmt.Sprintf("%s[%d]", field, i), float64(d), "10 to 800 A, ascending")
		}
	}
	return nil
}

func (j *Job) checkSite() error {
	switch {
	case j.Structure >= structures:
		return fault.Invalid("circuit.structure", j.Structure, "the same building, one without a supply or one with")
	case j.Separations < 0 || j.Separations > 20:
		return fault.Invalid("circuit.separations", j.Separations, "0 to 20")
	case !(j.RoofGap >= 0 && j.RoofGap <= 120):
		return fault.Invalid("circuit.roof_gap_inches", float64(j.RoofGap), "0 to 120 in")
	case !(j.Whip >= 0 && j.Whip <= 6):
		return fault.Invalid("circuit.whip_feet", float64(j.Whip), "0 to 6 ft")
	case !(j.FeederPercent >= 0 && j.FeederPercent <= 10):
		return fault.Invalid("circuit.feeder_percent", j.FeederPercent, "0 to 10 %")
	}
	return nil
}

func (r *Route) check(of string) error {
	if len(r.Segments) == 0 || len(r.Segments) > 16 {
		return fault.Invalid(of+".route.segments", len(r.Segments), "1 to 16 stretches")
	}
	for i, s := range r.Segments {
		if s.Kind < OpenFraming || s.Kind >= segmentKinds {
			return fault.Invalid(fmt.Sprintf("%s.route.segments[%d].kind", of, i), s.Kind, "a kind of stretch")
		}
		if !(s.Feet >= 0 && s.Feet <= 2000) {
			return fault.Invalid(fmt.Sprintf("%s.route.segments[%d].feet", of, i), float64(s.Feet), "0 to 2000 ft")
		}
		if s.Over >= edition.Burial(edition.BurialKinds) {
			return fault.Invalid(fmt.Sprintf("%s.route.segments[%d].over", of, i), s.Over, "a row of the cover table, or nothing")
		}
		if s.Ground >= grounds {
			return fault.Invalid(fmt.Sprintf("%s.route.segments[%d].ground", of, i), s.Ground, "a kind of ground")
		}
		if !(s.DeepestCover >= 0 && s.DeepestCover <= 120) {
			return fault.Invalid(fmt.Sprintf("%s.route.segments[%d].deepest_cover_inches", of, i), float64(s.DeepestCover), "0 to 120 in")
		}
	}
	if !(r.PanelDrop >= 0 && r.PanelDrop <= 100) {
		return fault.Invalid(of+".route.panel_drop_feet", float64(r.PanelDrop), "0 to 100 ft")
	}
	if !(r.DeviceDrop >= 0 && r.DeviceDrop <= 100) {
		return fault.Invalid(of+".route.device_drop_feet", float64(r.DeviceDrop), "0 to 100 ft")
	}
	return nil
}
