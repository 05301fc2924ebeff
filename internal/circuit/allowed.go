package circuit

import (
	"errors"
	"math"

	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Existing is a circuit already there, as far as it is known. A zero in an
// optional field leaves that limit out.
type Existing struct {
	Device     unit.Amps       // breaker handle, required
	Receptacle string          // configuration, "14-50"; "" when hardwired
	Wire       edition.Wire    // zero when it was not seen
	Marking    edition.Marking // with a wire; Unmarked when not known
	Ambient    unit.Celsius    // with a wire; hottest air along it
	// CurrentCarrying conductors together with this wire's own; 0 counts as 2.
	CurrentCarrying int
	Equipment       unit.Amps // most the charger takes; 0 for no such limit
}

// Binding is what limits a setting.
type Binding uint8

// What may bind, or stop the use altogether. A tie names the earlier.
const (
	ByDevice Binding = iota + 1
	ByReceptacle
	ByConductor
	ByEquipment
	StopNoGround
	StopReceptacleBelowCircuit
	StopDeviceAboveConductor
	StopTooLittle
)

var bindingWords = [...]string{"", "device", "receptacle", "conductor", "equipment",
	"no equipment ground", "receptacle rated below circuit", "device too large for conductor", "too little to charge"}

// String is the binding in a few words.
func (b Binding) String() string { return bindingWords[b] }

// Allowance is what may be set on an existing circuit.
type Allowance struct {
	Setting unit.Amps // whole amperes, 0 when stopped
	Binding Binding
}

// Allowed is the inverse of Design: the floor of the least of 80 % of device
// and receptacle, terminal ampacity over 125 %, corrected ampacity and the
// equipment. It stops first on a receptacle without equipment ground, one
// rated below its circuit, and a device too large for the conductor.
//
// Source: NEC 625.41, 210.19(A), 210.21(B), 240.4 as the edition answers them.
func Allowed(ed edition.Edition, e Existing, sheet *working.Sheet) (Allowance, error) {
	if !(e.Device >= 10 && e.Device <= 800) {
		return Allowance{}, fault.Invalid("existing.device_amps", float64(e.Device), "10 to 800 A")
	}
	if !(e.Equipment >= 0 && e.Equipment <= 800) {
		return Allowance{}, fault.Invalid("existing.equipment_amps", float64(e.Equipment), "0 to 800 A")
	}
	out := limit{Binding: ByDevice, amps: float64(e.Device) / ed.ContinuousFactor().Value, source: ed.ContinuousFactor().Source}
	if e.Receptacle != "" {
		if stop, err := out.receptacle(ed, &e); err != nil || stop != 0 {
			return Allowance{Binding: stop}, err
		}
	}
	if !e.Wire.Size.None() {
		if stop, err := out.wire(ed, &e); err != nil || stop != 0 {
			return Allowance{Binding: stop}, err
		}
	}
	if e.Equipment > 0 {
		out.least(ByEquipment, float64(e.Equipment), nil)
	}
	a := Allowance{Setting: unit.Amps(math.Floor(out.amps + hair)), Binding: out.Binding}
	if a.Setting < ed.SmallestSetting().Value {
		a = Allowance{Binding: StopTooLittle}
	}
	if sheet.Keeping() {
		sheet.Add(working.Step{Rule: "circuit.allowed", Source: out.source,
			In:  working.In(working.Num("device", e.Device, "A"), working.Word("binding", a.Binding.String())),
			Out: working.Num("setting", a.Setting, "A")})
	}
	return a, nil
}

// limit is the least limit met so far.
type limit struct {
	Binding Binding
	amps    float64
	source  *working.Source
}

func (l *limit) least(b Binding, amps float64, src *working.Source) {
	if amps < l.amps-hair {
		*l = limit{b, amps, src}
	}
}

func (l *limit) receptacle(ed edition.Edition, e *Existing) (stop Binding, err error) {
	face, ok := faceNamed(ed, e.Receptacle)
	if !ok {
		return 0, fault.Invalid("existing.receptacle", e.Receptacle, "a configuration such as 14-50")
	}
	if !face.Value.Ground {
		return StopNoGround, nil
	}
	fits := ed.ReceptacleFits(face.Value.Amps, e.Device).Value
	// A 15 A face is met as a duplex, which counts as two receptacles.
	if face.Value.Amps <= smallestDevice {
		fits = fits || ed.SharedReceptacleFits(face.Value.Amps, e.Device).Value
	}
	if !fits {
		return StopReceptacleBelowCircuit, nil
	}
	share := ed.ReceptacleShare()
	l.least(ByReceptacle, float64(face.Value.Amps)*share.Value, share.Source)
	return 0, nil
}

func (l *limit) wire(ed edition.Edition, e *Existing) (stop Binding, err error) {
	marking := e.Marking
	if marking == 0 {
		marking = edition.Unmarked
	}
	s := edition.Surroundings{Ambient: e.Ambient, CurrentCarrying: max(e.CurrentCarrying, 2)}
	t, err := ed.TerminalAmpacity(e.Wire, marking, e.Device)
	if err != nil {
		return 0, err
	}
	c, err := ed.Ampacity(e.Wire, s)
	if errors.Is(err, edition.ErrUnanswerable) {
		return StopDeviceAboveConductor, nil
	} else if err != nil {
		return 0, err
	}
	largest, err := ed.LargestDevice(e.Wire.Size, e.Wire.Material, min(t.Value, c.Value))
	if err != nil {
		return 0, err
	}
	if e.Device > largest.Value {
		return StopDeviceAboveConductor, nil
	}
	l.least(ByConductor, float64(t.Value)/ed.ContinuousFactor().Value, t.Source)
	l.least(ByConductor, float64(c.Value), c.Source)
	return 0, nil
}

func faceNamed(ed edition.Edition, config string) (edition.Cited[edition.Face], bool) {
	for _, f := range ed.Faces() {
		if f.Value.Config == config {
			return f, true
		}
	}
	return edition.Cited[edition.Face]{}, false
}

// ReceptacleOn tells whether one receptacle of a configuration may be alone on
// a circuit of a device.
//
// Source: NEC 210.21(B)(1).
func ReceptacleOn(ed edition.Edition, config string, device unit.Amps) (edition.Cited[bool], error) {
	face, ok := faceNamed(ed, config)
	if !ok {
		return edition.Cited[bool]{}, fault.Invalid("receptacle", config, "a configuration such as 14-50")
	}
	return ed.ReceptacleFits(face.Value.Amps, device), nil
}
