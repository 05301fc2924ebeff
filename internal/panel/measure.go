package panel

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// MeasureKind is a way to make the charger fit, or to make room for it.
type MeasureKind uint8

// The measures, in the order of what they cost.
const (
	FindPeak       MeasureKind = iota // ask the utility for a year's peak
	OtherMethod                       // another lawful method carries it
	LowerSetting                      // a setting or a rating that still fits
	SharingSwitch                     // a listed switch on the dryer's or range's circuit
	ManageEnergy                      // a system that measures the service and throttles the charger
	RemoveLoad                        // remove or convert one load
	TandemBreakers                    // double two circuits, where the label allows it
	NewPanelboard                     // breakers in place of fuses, at the same rating
	Subpanel                          // spaces, not capacity
	UpgradeService                    // a larger service
	measureKinds
)

var measureNames = [measureKinds]string{"find_peak", "other_method", "lower_setting", "sharing_switch", "manage_energy",
	"remove_load", "tandem_breakers", "new_panelboard", "subpanel", "upgrade_service"}

// String is the word of the measure.
func (k MeasureKind) String() string { return nameOf(measureNames[:], int(k)) }

// Measure is one way out, with what it asks for. Fields that do not belong to
// its kind are zero.
type Measure struct {
	Kind     MeasureKind
	Setting  unit.Amps      // the charger's setting with it
	Counts   SettingCounts  // LowerSetting: on which equipment the setting counts
	Peak     unit.Kilowatts // FindPeak: at or below this 15-minute peak it fits
	Method   Method         // OtherMethod, FindPeak
	Setpoint unit.Amps      // ManageEnergy: what the service is held to
	FailSafe unit.Amps      // ManageEnergy: the charger's current when the signal is lost; 0 is off
	Load     LoadKind       // SharingSwitch, RemoveLoad
	Service  unit.Amps      // UpgradeService: the new rating
	Total    unit.Amps      // continuous load in all with the measure taken; 0 for measures of spaces
	Source   *working.Source
}

// measures lists what would help, cheapest first. Measures of capacity are
// looked for only where the verdict is not [Fits].
func (in *Input) measures(res *Result) []Measure {
	out := make([]Measure, 0, 6)
	add := func(m Measure, ok bool) {
		if ok {
			out = append(out, m)
		}
	}
	short := res.Verdict != Fits
	if short {
		add(in.findPeak(res))
		add(in.otherMethod(res))
		add(in.lowerSetting(res))
		add(in.sharingSwitch(res))
		add(in.manageEnergy(res))
		add(in.removeLoad(res))
	}
	if res.Spaces.Verdict == SpacesByTandem {
		add(Measure{Kind: TandemBreakers, Source: in.Rules.spaces}, true)
	}
	if in.Protection != Breakers {
		add(Measure{Kind: NewPanelboard, Source: in.Rules.newBoard}, true)
	}
	if res.Spaces.Verdict == SpacesBySubpanel {
		add(Measure{Kind: Subpanel, Source: in.Rules.spaces}, true)
	}
	if short {
		add(in.upgradeService(res))
	}
	return out
}

// asked is the setting of the one charger asked for; with several, or an
// unknown plate, none is.
func (in *Input) asked() unit.Amps {
	if len(in.Chargers) == 1 && in.Chargers[0].Plate == PlateKnown {
		return in.Chargers[0].Setting
	}
	return 0
}

// findPeak names the peak at which 220.87 would carry the charger. It is no
// help beside a source, nor where a peak is known already.
func (in *Input) findPeak(res *Result) (Measure, bool) {
	m := &in.Rules.measured
	if in.Measured.Record != NoRecord || in.Source.Kind != NoSource || !in.deciders().has(MeasuredDemand) {
		return Measure{}, false
	}
	c := in.chargers()
	room := float64(res.Capacity.Amps)*float64(in.Volts) - c.newCont
	peak := room * m.powerFactor / m.factor / 1000
	return Measure{Kind: FindPeak, Setting: in.asked(), Peak: unit.Kilowatts(peak), Method: MeasuredDemand, Total: res.Capacity.Amps, Source: m.src}, peak >= 1
}

// otherMethod names a permitted method that fits but is not among those that
// decide by themselves.
func (in *Input) otherMethod(res *Result) (best Measure, ok bool) {
	for m := range methodCount {
		o := &res.Methods[m]
		if o.Refusal != Permitted || o.Decides || o.Verdict != Fits {
			continue
		}
		if !ok || o.Amps[Continuous] < best.Total {
			best, ok = Measure{Kind: OtherMethod, Setting: in.asked(), Method: m, Total: o.Amps[Continuous], Source: o.Source}, true
		}
	}
	return best, ok
}

// lowerSetting is the largest standard setting below the one asked for that
// fits. Where the edition has a least load per charger it may find nothing.
func (in *Input) lowerSetting(res *Result) (Measure, bool) {
	asked := in.asked()
	base, known := in.least(&res.Methods)
	if asked == 0 || !known || in.Chargers[0].Volts != in.Volts {
		return Measure{}, false
	}
	limit := float64(res.Capacity.Amps) * float64(in.Volts)
	a, ok := in.largest(base, limit, Want{AtMost: asked - 0.5})
	_, cont := in.Rules.chargerVA(float64(a) * float64(in.Volts))
	return Measure{Kind: LowerSetting, Setting: a, Counts: in.Rules.setting.counts, Total: va(base + cont).At(in.Volts), Source: in.Rules.setting.src}, ok
}

// sharable are appliances whose circuit a listed switch may lend to a charger.
var sharable = [...]LoadKind{Dryer, Range}

// sharingSwitch puts the charger on the circuit of a dryer or range, the
// appliance first. The larger of the two counts; it is taken in full outside
// the bracket, the appliance out of it.
func (in *Input) sharingSwitch(res *Result) (Measure, bool) {
	if in.Carries != WholeDwelling || len(in.Chargers) != 1 {
		return Measure{}, false
	}
	for _, kind := range sharable {
		i := in.loadOf(kind)
		if i < 0 || in.Loads[i].Count != 1 {
			continue
		}
		plate := float64(in.Loads[i].VA)
		a := in.sharedSetting(in.Loads[i])
		if a == 0 {
			continue
		}
		_, cont := in.Rules.chargerVA(float64(a) * float64(in.Volts))
		without, ok := in.baseWithout(i)
		total := va(without + max(plate, cont)).At(in.Volts)
		if ok && total <= res.Capacity.Amps+slack {
			return Measure{Kind: SharingSwitch, Setting: a, Load: kind, Total: total, Source: in.Rules.sharing}, true
		}
	}
	return Measure{}, false
}

// sharedSetting is the largest standard setting on the circuit such an
// appliance usually has, up to the one asked for.
func (in *Input) sharedSetting(l Load) unit.Amps {
	draws, circuit := l.VA.At(in.Volts), unit.Amps(0)
	for _, a := range in.Rules.loads[l.Kind].circuits {
		if a >= draws {
			circuit = a
			break
		}
	}
	most := min(float64(circuit)/in.Rules.continuous.factor, float64(in.Chargers[0].Setting))
	best := 0.0
	for _, a := range in.Rules.setting.standard {
		if a <= most {
			best = a
		}
	}
	return unit.Amps(best)
}

// manageEnergy holds the service to a setpoint. The house alone must fit; the
// fallback is the largest setting that would fit without the system, else off.
func (in *Input) manageEnergy(res *Result) (Measure, bool) {
	base, known := in.least(&res.Methods)
	limit := float64(res.Capacity.Amps) * float64(in.Volts)
	if !known || in.Management.Kind != Unmanaged || base > limit+slack || in.Carries != WholeDwelling {
		return Measure{}, false
	}
	setpoint := unit.Amps(int(in.Rules.MaxSetpoint(res.Capacity.Amps)))
	fallback, _ := in.largest(base, limit, Want{AtMost: in.asked()})
	return Measure{
		Kind: ManageEnergy, Setting: in.asked(), Setpoint: setpoint, FailSafe: fallback,
		Total: setpoint * unit.Amps(in.Rules.management.factor), Source: in.Rules.management.src,
	}, true
}

// removable are loads a household can do without or run on another fuel.
var removable = [...]LoadKind{Spa, PoolHeater, Sauna, Kiln, Welder, Dryer, WaterHeater, Range, ExistingCharger}

// removeLoad finds the smallest single load whose going makes the charger fit.
func (in *Input) removeLoad(res *Result) (best Measure, ok bool) {
	c := in.chargers()
	least := 0.0
	for _, kind := range removable {
		i := in.loadOf(kind)
		if i < 0 {
			continue
		}
		size := float64(in.Loads[i].VA) * float64(in.Loads[i].Count)
		base, known := in.baseWithout(i)
		total := va(base + c.newCont).At(in.Volts)
		if known && total <= res.Capacity.Amps+slack && (!ok || size < least) {
			best, ok, least = Measure{Kind: RemoveLoad, Setting: in.asked(), Load: kind, Total: total, Source: res.Methods[res.Deciding].Source}, true, size
		}
	}
	return best, ok
}

// loadOf finds the first load of a kind that draws anything, or −1.
func (in *Input) loadOf(kind LoadKind) int {
	for i := range in.Loads {
		if in.Loads[i].Kind == kind && in.Loads[i].VA > 0 {
			return i
		}
	}
	return -1
}

// baseWithout is the least calculated load without new chargers and without
// one entry of the loads. Measured demand cannot say what a load was of it.
func (in *Input) baseWithout(i int) (float64, bool) {
	var rest [maxLoads]Load
	n := copy(rest[:], in.Loads[:i])
	n += copy(rest[n:], in.Loads[i+1:])
	less := *in
	less.Loads, less.Chargers, less.Measured = rest[:n], nil, Measured{}
	var all [methodCount]Outcome
	less.run(in.Supply.Capacity().Amps, &all)
	return less.least(&all)
}

// upgradeService is the smallest rating of the shop's list, above the present
// one, that carries everything.
func (in *Input) upgradeService(res *Result) (Measure, bool) {
	if in.Carries != WholeDwelling {
		return Measure{}, false
	}
	for _, a := range in.Rules.service.upgrades {
		rating := unit.Amps(a)
		// A rating the service has already would be a larger main on the same
		// panel, which a source on the bus may bar.
		if rating <= res.Capacity.Amps || rating < in.Supply.Service || (rating == in.Supply.Service && in.Source.Kind != NoSource) {
			continue
		}
		more := *in
		more.Supply = Rated(rating)
		var all [methodCount]Outcome
		best := more.run(rating, &all)
		if all[best].Verdict == Fits {
			return Measure{Kind: UpgradeService, Setting: in.asked(), Service: rating, Total: all[best].Amps[Continuous], Source: in.Rules.upgrade}, true
		}
	}
	return Measure{}, false
}
