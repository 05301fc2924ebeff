package main

import (
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/stretchr/testify/require"
)

func TestNumbersAsPeopleTypeThem(t *testing.T) {
	high := func(x float64) *float64 { return &x }
	for line, want := range map[string]*daybreakv1.NumberAnswer{
		"40":       {Value: 40},
		"-3":       {Value: -3},
		"65 km":    {Value: 65, Unit: "km"},
		"about 40": {Value: 40, About: true},
		"30-50":    {Value: 30, High: high(50)},
		"30-50 ft": {Value: 30, High: high(50), Unit: "ft"},
	} {
		got, problem := readNumber(line)
		require.Empty(t, problem, line)
		require.Equal(t, want.String(), got.Number.String(), line)
	}
	for _, line := range []string{"far", "", "20-x", "about", "about 3-4", "3,5", "km 5"} {
		_, problem := readNumber(line)
		require.Contains(t, problem, "Type a number", line)
	}
}

func TestHoursAsPeopleTypeThem(t *testing.T) {
	for line, want := range map[string]float64{"18": 18, "18:30": 18.5, "7.25": 7.25, "0": 0, "24": 24} {
		got, problem := readHour(line)
		require.Empty(t, problem, line)
		require.Equal(t, want, got.Hour, line)
	}
	for _, line := range []string{"", "evening", "18:60", "18:x", "18:-5", "x:30"} {
		_, problem := readHour(line)
		require.Contains(t, problem, "18:30", line)
	}
}

func TestChoicesByNumber(t *testing.T) {
	q := &daybreakv1.Question{Choices: []*daybreakv1.Choice{{Id: "a"}, {Id: "b"}, {Id: "c"}}}
	got, problem := readSeveral(q, "1, 3 1")
	require.Empty(t, problem)
	require.Equal(t, []string{"a", "c"}, got.Choices.Ids)
	for _, line := range []string{"0", "4", "a", "1 x", "-1"} {
		_, problem := readSeveral(q, line)
		require.Equal(t, "Type one or more numbers from 1 to 3, such as 1 3.", problem)
	}
}

func FuzzReadLine(f *testing.F) {
	for _, line := range []string{"40", "about 40 km", "30-50 ft", "18:30", "1 3", "-", "1e999", "NaN", "--", "-1-2"} {
		f.Add(line)
	}
	q := &daybreakv1.Question{Choices: []*daybreakv1.Choice{{Id: "a"}}}
	f.Fuzz(func(t *testing.T, line string) {
		if n, problem := readNumber(line); problem == "" {
			require.NotNil(t, n)
		}
		if h, problem := readHour(line); problem == "" {
			require.NotNil(t, h)
		}
		if c, problem := readSeveral(q, line); problem == "" {
			require.LessOrEqual(t, len(c.Choices.Ids), 1)
		}
	})
}

func FuzzDecodeFacts(f *testing.F) {
	for _, in := range []string{`{}`, `{"facts": {"driving": {"weekday_miles": 1}}}`, `[`, `{"place": {"tenure": 3}}`, "{\"a\":\n{}}", `{"\u0000\u0001": 1}`, `{"unsure": [1]}`, `{"facts":{"driving":{"weekday_miles":"x"}}}`} {
		f.Add([]byte(in))
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		if _, err := decodeFacts("facts.json", in); err != nil {
			require.Regexp(t, `^facts\.json:\d+: `, err.Error())
		}
	})
}
