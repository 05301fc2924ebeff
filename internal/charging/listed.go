package charging

import (
	"fmt"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Listed is a vehicle of a file that tells less than charging needs. What the
// row tells is plain; what it lacks is an [Span] from its class.
type Listed struct {
	ID          string
	Label       string
	Class       string // of the label, such as "Midsize Cars"
	Year        int    // of the model; 0 when not told
	Consumption Consumption
	Range       unit.Miles // on electricity
	Petrol      bool
	WallFull    unit.KilowattHours       // range times consumption
	Hours       Span[unit.Hours]         // of a whole charge at 240 V, within the column's rounding; zero when not told
	Average     Span[unit.Kilowatts]     // power that Hours implies, within the same; zero when not told
	Usable      Span[unit.KilowattHours] // battery energy
	OnboardKW   Span[unit.Kilowatts]     // rating of the on-board charger
	OnboardAmps Span[unit.Amps]          // and its current
	Inlet       Guess                    // for alternating current
	DCInlet     Guess                    // for direct current
	DCPeak      Span[unit.Kilowatts]     // 0 when it cannot
	Source      *working.Source
}

// Guess is a word that was told, or the likely one when it was not.
type Guess struct {
	Word string
	Told bool
}

// Unsure names the leaves that the row did not tell, in the words of the
// vehicle table's columns.
func (l Listed) Unsure() []string {
	var out []string
	for _, f := range []struct {
		name string
		told bool
	}{
		{"usable_kwh", l.Usable.Told}, {"onboard_ac_kw", l.OnboardKW.Told}, {"onboard_ac_amps", l.OnboardAmps.Told},
		{"inlet", l.Inlet.Told}, {"dc_inlet", l.DCInlet.Told}, {"dc_peak_kw", l.DCPeak.Told},
	} {
		if !f.told {
			out = append(out, f.name)
		}
	}
	return out
}

// Vehicle is the vehicle with the likely value where a row tells none; what
// [Listed.Unsure] names must be shown as unsure.
func (l Listed) Vehicle() Vehicle {
	return Vehicle{
		ID: l.ID, Label: l.Label, Usable: l.Usable.Likely, Nominal: l.Usable.Likely / usableOfNominal, Consumption: l.Consumption,
		OnboardKW: l.OnboardKW.Likely, OnboardAmps: l.OnboardAmps.Likely, Inlet: l.Inlet.Word, DCInlet: l.DCInlet.Word,
		DCPeak: l.DCPeak.Likely, Range: l.Range, WallFull: l.WallFull, PetrolBackup: l.Petrol, Source: l.Source,
	}
}

// Wall energy of a whole charge over battery energy: quartiles of 107 cars
// (computed); usable over advertised energy: middle of 235 cars (computed).
const (
	wallOfUsableLow  = 1.03
	wallOfUsableHigh = 1.16
	usableOfNominal  = 0.953
)

// complete fills what the row did not tell and refuses what no car has.
func (l *Listed) complete(p Priors) error {
	if err := l.plausible(); err != nil {
		return err
	}
	full := float64(l.Range) * l.Consumption.kWhPerMile()
	l.WallFull = unit.KilowattHours(full)
	if l.Hours.Likely > 0 {
		l.Average = Span[unit.Kilowatts]{
			Low: unit.Kilowatts(full / float64(l.Hours.High)), Likely: unit.Kilowatts(full / float64(l.Hours.Likely)), High: unit.Kilowatts(full / float64(l.Hours.Low)),
		}
		if l.Average.High < 0.5 || l.Average.Low > 22 {
			return fault.Invalid("charge240", float64(l.Hours.Likely), fmt.Sprintf("hours in which %.1f kWh take 0.5 to 22 kW", full))
		}
	}
	if !l.Usable.Told {
		l.Usable = Span[unit.KilowattHours]{Low: l.WallFull / wallOfUsableHigh, Likely: l.WallFull / labelWallPerUsable, High: l.WallFull / wallOfUsableLow}
	}
	if !l.OnboardKW.Told {
		average := l.Average
		if average.Likely == 0 {
			average, _ = p.of(l.Class, l.Petrol)
		}
		l.OnboardKW = ratingFrom(average)
	}
	if !l.OnboardAmps.Told {
		amps := func(k unit.Kilowatts) unit.Amps { return unit.Amps(float64(k) * 1000 / labelVolts) }
		l.OnboardAmps = Span[unit.Amps]{Low: amps(l.OnboardKW.Low), Likely: amps(l.OnboardKW.Likely), High: amps(l.OnboardKW.High)}
	}
	l.inlets()
	return nil
}

// plausible faults what the label of no car says.
func (l *Listed) plausible() error {
	switch {
	case l.ID == "" || len(l.ID) > 100 || l.ID[0] == '#': // which begins a remark
		return fault.Invalid("id", l.ID, "1 to 100 characters, not beginning with #")
	case l.Label == "" || len(l.Label) > 300:
		return fault.Invalid("label", l.Label, "1 to 300 characters")
	}
	if err := within("kwh_per_100mi", l.Consumption, 15, 150, "kWh per 100 mi"); err != nil {
		return err
	}
	if err := within("electric_range_mi", l.Range, 5, 1000, "mi"); err != nil {
		return err
	}
	if l.DCInlet.Told && l.DCPeak.Told && (l.DCInlet.Word == "none") != (l.DCPeak.Likely == 0) {
		return fault.Invalid("dc_peak_kw", float64(l.DCPeak.Likely), "0 exactly when dc_inlet is none")
	}
	if l.Usable.Told {
		full := float64(l.Range) * l.Consumption.kWhPerMile()
		if ratio := full / float64(l.Usable.Likely); ratio < 0.7 || ratio > 1.6 {
			return fault.Invalid("usable_kwh", float64(l.Usable.Likely), fmt.Sprintf("battery energy near the %.1f kWh that range and consumption take", full/labelWallPerUsable))
		}
	}
	return nil
}

// inlets guesses the usual ones. A plug-in hybrid has hardly ever fast
// charging; a battery car has it, at a power that only its maker knows.
//
// Source: 235 cars of a community file with US inlets: combined charging system
// 202, J3400 29, CHAdeMO 4 (computed); powers from memory
func (l *Listed) inlets() {
	if !l.Inlet.Told {
		l.Inlet.Word = "J1772"
	}
	if !l.DCInlet.Told {
		l.DCInlet.Word = "CCS1"
		if l.Petrol || (l.DCPeak.Told && l.DCPeak.Likely == 0) {
			l.DCInlet.Word = "none"
		}
	}
	if !l.DCPeak.Told {
		l.DCPeak = Span[unit.Kilowatts]{Low: 50, Likely: 120, High: 250}
		if l.DCInlet.Word == "none" {
			l.DCPeak = Span[unit.Kilowatts]{Told: l.DCInlet.Told}
		}
	}
}
