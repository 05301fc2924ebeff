package outlet_test

import (
	"testing"

	"daybreak/internal/edition"
	"daybreak/internal/edition/nec"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

// plainBook answers the few questions this room asks, from a table written
// out here, so that a wrong cell of the real book shows as a difference.
//
// Source: NFPA 70 2023, Table 310.16 (60 and 75 °C), 240.4(B), 240.4(D), 240.6(A).
type plainBook struct {
	edition.Edition
	year int
}

var ladder = []string{"14", "12", "10", "8", "6", "4", "3", "2"}

var ampacities = map[edition.Material]map[string][2]unit.Amps{
	edition.Copper:    {"14": {15, 20}, "12": {20, 25}, "10": {30, 35}, "8": {40, 50}, "6": {55, 65}, "4": {70, 85}, "3": {85, 100}, "2": {95, 115}},
	edition.Aluminium: {"12": {15, 20}, "10": {25, 30}, "8": {35, 40}, "6": {40, 50}, "4": {55, 65}, "3": {65, 75}, "2": {75, 90}},
}

var cited = &working.Source{Publication: "NFPA 70", Section: "Table 310.16", Status: working.Verified}

func (plainBook) SizeNamed(name string) (edition.Size, error) {
	for i, s := range ladder {
		if s == name {
			return edition.NewSize(i+1, s+" AWG"), nil
		}
	}
	return edition.Size{}, &edition.Unanswerable{Book: "plain", Question: name}
}

func (plainBook) TableAmpacity(s edition.Size, m edition.Material, column unit.Celsius) (edition.Cited[unit.Amps], error) {
	pair, ok := ampacities[m][s.Trade()]
	if !ok {
		return edition.Cited[unit.Amps]{}, &edition.Unanswerable{Book: "plain", Question: s.String()}
	}
	i := 0
	if column == 75 {
		i = 1
	}
	return edition.Cited[unit.Amps]{Value: pair[i], Source: cited}, nil
}

func (plainBook) LargestDevice(s edition.Size, m edition.Material, ampacity unit.Amps) (edition.Cited[unit.Amps], error) {
	small := map[edition.Material]map[string]unit.Amps{edition.Copper: {"14": 15, "12": 20, "10": 30}, edition.Aluminium: {"12": 15, "10": 25}}
	if a, ok := small[m][s.Trade()]; ok {
		return edition.Cited[unit.Amps]{Value: a, Source: cited}, nil
	}
	for _, d := range []unit.Amps{15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125} {
		if d >= ampacity {
			return edition.Cited[unit.Amps]{Value: d, Source: cited}, nil
		}
	}
	return edition.Cited[unit.Amps]{}, &edition.Unanswerable{Book: "plain"}
}

func (plainBook) ContinuousFactor() edition.Cited[float64] {
	return edition.Cited[float64]{Value: 1.25, Source: cited}
}

func (b plainBook) SettingCounts(means edition.SettingMeans, f edition.Fastening) edition.Cited[bool] {
	counts := means == edition.RestrictedAccess && (b.year >= 2023 || b.year >= 2020 && f == edition.FixedInPlace)
	return edition.Cited[bool]{Value: counts, Source: cited}
}

func (b plainBook) GroundFault(place edition.Place, c edition.Connection, device unit.Amps) (edition.Cited[edition.Requirement], error) {
	answer := edition.Required
	if c == edition.Hardwired && (b.year < 2020 || place == edition.Indoor || device > 50) {
		answer = edition.NotRequired
	}
	return edition.Cited[edition.Requirement]{Value: answer, Source: cited}, nil
}

// openBook is the real book of a year.
func openBook(t testing.TB, year int) edition.Edition {
	book, err := nec.Open(nec.Embedded(), year)
	if t != nil {
		require.NoError(t, err)
	}
	return book
}
