package panel

// CautionSet is the safety findings a supply raises by itself.
type CautionSet uint8

// The findings, by the code each is known by everywhere.
const (
	CautionFuses      CautionSet = 1 << iota // D-103
	CautionSmall                             // D-105: 60 A or smaller
	CautionNoSpace                           // D-110
	CautionBackfeed                          // D-118: do not move the source's breaker
	CautionMobileHome                        // D-412: not from the home's own panel
	CautionHousePanel                        // D-603
)

var cautionCodes = [...]string{"D-103", "D-105", "D-110", "D-118", "D-412", "D-603"}

// Codes lists the findings by code, in order.
func (s CautionSet) Codes() []string {
	var out []string
	for i, code := range cautionCodes {
		if s&(1<<i) != 0 {
			out = append(out, code)
		}
	}
	return out
}

func (in *Input) cautions(res *Result) (s CautionSet) {
	if in.Protection != Breakers {
		s |= CautionFuses
	}
	if float64(in.Supply.Service) <= in.Rules.service.finding && in.Carries == WholeDwelling {
		s |= CautionSmall
	}
	if res.Spaces.Verdict == SpacesByTandem || res.Spaces.Verdict == SpacesBySubpanel {
		s |= CautionNoSpace
	}
	if in.Source.Kind != NoSource {
		s |= CautionBackfeed
	}
	if in.Dwelling == Mobile {
		s |= CautionMobileHome
	}
	if in.Carries == HousePanel {
		s |= CautionHousePanel
	}
	return s
}

// OddSet is what does not fit together in an input that can still be worked
// with. The calculation takes the safer of the two; somebody should look.
type OddSet uint8

// The oddities.
const (
	// OddMainAboveService: the main is larger than the service it protects.
	OddMainAboveService OddSet = 1 << iota
	// OddAboveMeter: the service is larger than the utility offers.
	OddAboveMeter
	// OddBusBelowMain: the bus is smaller than the main that protects it.
	OddBusBelowMain
	// OddHeatAboveMain: the heat alone is larger than the main.
	OddHeatAboveMain
	// OddPeakBelowLoad: a year's peak is below one load that runs alone in full.
	OddPeakBelowLoad
)

var oddNames = [...]string{"main_above_service", "above_meter", "bus_below_main", "heat_above_main", "peak_below_load"}

// Words lists the oddities by their word, in order.
func (s OddSet) Words() []string {
	var out []string
	for i, w := range oddNames {
		if s&(1<<i) != 0 {
			out = append(out, w)
		}
	}
	return out
}

func (in *Input) oddities() (s OddSet) {
	a := &in.Supply
	if a.Main > a.Service {
		s |= OddMainAboveService
	}
	if a.Service > a.Meter {
		s |= OddAboveMeter
	}
	if a.Bus < a.Main {
		s |= OddBusBelowMain
	}
	if va(in.Heat.nameplate()).At(in.Volts) > a.Main {
		s |= OddHeatAboveMain
	}
	if in.Measured.Record == OneYear && float64(in.Measured.Peak)*1000 < in.surelyRuns() {
		s |= OddPeakBelowLoad
	}
	return s
}

// surelyRuns is the largest load that a year surely saw running alone in full:
// a water heater, the cooling, one unit of the heat.
func (in *Input) surelyRuns() float64 {
	most := float64(in.Cooling)
	for i := range in.Loads {
		if in.Rules.loads[in.Loads[i].Kind].class == ClassWaterHeater {
			most = max(most, float64(in.Loads[i].VA))
		}
	}
	if in.Heat.Kind == Resistance {
		most = max(most, float64(in.Heat.VA)/float64(max(1, in.Heat.Units)))
	}
	return max(most, float64(in.Heat.Compressor))
}
