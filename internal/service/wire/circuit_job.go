package wire

import (
	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"
)

// Year is the year of a code edition on the wire; 0 for none.
func Year(e daybreakv1.CodeEdition) int {
	year := 0
	for _, c := range wordOf(leafAt("place.code_edition").Words, e.Number()) {
		year = year*10 + int(c-'0')
	}
	return year
}

// Job reads a circuit to design. What it leaves out is what the contract says
// beside the field.
func Job(m *daybreakv1.CircuitJob) circuit.Job {
	route, attic := route(m)
	job := circuit.Job{
		Setting:              unit.Amps(m.GetSettingAmps()),
		Rating:               unit.Amps(m.GetRatingAmps()),
		Volts:                unit.Volts(m.GetVolts()),
		Means:                edition.RatingPlate,
		Fastening:            edition.FixedInPlace,
		Connection:           circuit.AnyConnection,
		Plug:                 face(m.Plug),
		Place:                edition.Place(m.GetPlace()),
		Route:                route,
		Terminals:            edition.Unmarked,
		Ambient:              unit.Celsius(or(m.AmbientC, usualAmbient(attic))),
		Concrete:             m.GetConcrete(),
		OtherCurrentCarrying: int(m.GetOtherCurrentCarrying()),
		DropPercent:          m.GetDropPercent(),
	}
	switch m.GetSettingMeans() {
	case daybreakv1.SettingMeans_SETTING_MEANS_RESTRICTED:
		job.Means = edition.RestrictedAccess
	case daybreakv1.SettingMeans_SETTING_MEANS_APP:
		job.Means = edition.AppSlider
	}
	if m.GetFastening() == daybreakv1.Fastening_FASTENING_CORD_CONNECTED {
		job.Fastening = edition.CordConnected
	}
	switch m.GetConnection() {
	case daybreakv1.Connection_CONNECTION_PLUG:
		job.Connection = circuit.WantReceptacle
	case daybreakv1.Connection_CONNECTION_WIRED:
		job.Connection = circuit.WantHardwired
	}
	if m.GetTerminalsC() == 75 {
		job.Terminals = edition.Marked75
	}
	for _, method := range m.GetMethods() {
		job.Methods |= methodOf[method]
	}
	return job
}

var methodOf = map[daybreakv1.WiringMethod]circuit.MethodSet{
	daybreakv1.WiringMethod_WIRING_METHOD_NM_B:          circuit.UseNMB,
	daybreakv1.WiringMethod_WIRING_METHOD_THWN_2_IN_EMT: circuit.UseEMT,
	daybreakv1.WiringMethod_WIRING_METHOD_THWN_2_IN_PVC: circuit.UsePVC,
	daybreakv1.WiringMethod_WIRING_METHOD_OTHER:         circuit.UseOther,
}

// route reads the way and whether it passes an attic.
func route(m *daybreakv1.CircuitJob) (circuit.Route, bool) {
	var out circuit.Route
	attic := false
	for _, s := range m.GetSegments() {
		kind := circuit.SegmentKind(s.GetKind())
		attic = attic || kind == circuit.Attic
		out.Segments = append(out.Segments, circuit.Segment{Kind: kind, Feet: unit.Feet(s.GetFeet())})
	}
	drops := [2]float64{5, 4}
	if attic {
		drops = [2]float64{8, 8}
	}
	out.PanelDrop = unit.Feet(or(m.PanelDropFeet, drops[0]))
	out.DeviceDrop = unit.Feet(or(m.DeviceDropFeet, drops[1]))
	return out, attic
}

// usualAmbient is the hottest air along a run when nobody told it, °C.
func usualAmbient(attic bool) float64 {
	if attic {
		return 50
	}
	return 30
}
