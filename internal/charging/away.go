package charging

import (
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Away is fast charging away from home for one car: what its inlet takes, and
// how long at stations of usual power. It is never offered for a dwelling.
type Away struct {
	Can      bool // false: the car has no inlet for it, and that is all there is to say
	Inlet    string
	Fits     [3]AwayFit // connectors CCS1, J3400 and CHAdeMO
	Stations [3]AwayStop
	Note     string // a rule key of the words: that it is nothing for a home
}

// AwayFit is how a station's connector meets the car's inlet.
type AwayFit struct {
	Connector string
	Fit       Fit
}

// AwayStop is a charge from 10 % to 80 % at a station of a power.
type AwayStop struct {
	Station unit.Kilowatts
	Power   unit.Kilowatts // the car's peak where that is less
	Fast    Fast
}

// AwayFromHome explains fast charging for one car, with its times at stations
// of 50, 150 and 250 kW.
//
// Source: as at Fits.DC and FastCharge
func AwayFromHome(car Vehicle, fits Fits, sheet *working.Sheet) (Away, error) {
	a := Away{Can: car.DCPeak > 0, Inlet: car.DCInlet, Note: "charging.away.not_for_homes"}
	for i, connector := range [3]string{"CCS1", "J3400", "CHAdeMO"} {
		fit, err := fits.DC(car.DCInlet, connector, sheet)
		if err != nil {
			return Away{}, err
		}
		a.Fits[i] = AwayFit{connector, fit}
	}
	if !a.Can {
		_, err := FastCharge(car.Usable, 0, nil)
		return a, err
	}
	for i, station := range [3]unit.Kilowatts{50, 150, 250} {
		power := min(station, car.DCPeak)
		fast, err := FastCharge(car.Usable, power, sheet)
		if err != nil {
			return Away{}, err
		}
		a.Stations[i] = AwayStop{station, power, fast}
	}
	return a, nil
}
