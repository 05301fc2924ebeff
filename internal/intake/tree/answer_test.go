package tree_test

import (
	"fmt"
	"math"
	"testing"

	"daybreak/internal/fault"
	"daybreak/internal/intake/tree"

	"github.com/stretchr/testify/require"
)

func TestWhatAnAnswerSays(t *testing.T) {
	tr := load(t)
	num := func(x float64) tree.Answer { return tree.Answer{Number: x, HasNumber: true} }
	picks := func(ids ...string) tree.Answer { return tree.Answer{Choices: ids} }
	for _, c := range []struct {
		question string
		answer   tree.Answer
		says     string
	}{
		{"panel.main", picks("m200"), "panel.service_amps=200 panel.main_breaker_amps=200 "},
		{"panel.main", picks("nomain"), "panel.trouble=[split_bus] "},
		{"outlet.breaker", tree.Answer{Choices: []string{"other"}, Number: 25, HasNumber: true}, "outlet.breaker_amps=25 "},
		{"place.built", picks("e3"), "place.year_built=1980 "},
		{"place.built", num(1962), "place.year_built=1962 "},
		{"outlet.face", picks("twist"), "outlet.configuration~[L6-20 L6-30 L14-30] "},
		{"outlet.reachable", picks("both"), "outlet.present=big other_outlet.present=normal "},
		{"place.signs", picks("none"), "place.danger_signs=[] "},
		{"place.signs", picks("hot", "loose"), "place.danger_signs=[hot loose] outlet.condition=[loose_in_wall] "},
		{"outlet.look", picks("clean"), "outlet.condition=[] "},
		{"outlet.look", picks("buttons", "paint"), "outlet.condition=[painted] outlet.gfci=true "},
		{"panel.kit", picks("tankless"), "panel.loads.water_heater.fuel=electric panel.loads.water_heater.watts=24000 panel.loads.range.fuel=none panel.loads.oven.fuel=none panel.loads.dryer.fuel=none "},
		{"panel.big", picks("none"), "panel.loads.spa.fuel=none panel.loads.pool_pump.fuel=none panel.loads.well_pump.fuel=none panel.loads.sauna.fuel=none panel.loads.welder.fuel=none panel.loads.evse_existing.fuel=none "},
		{"route.path", picks("ground", "surface"), "route.ways=[trench surface] "},
		{"route.feet", num(40), "route.panel_to_charger_feet=40 "},
		{"driving.home_by", num(18.5), "driving.home_by_hour=18.5 "},
		{"place.postal", tree.Answer{Text: "00010"}, "place.postal_code=00010 "},
	} {
		q, ok := tr.Question(c.question)
		require.True(t, ok, c.question)
		e, err := q.Read(c.answer)
		require.NoError(t, err, c.question)
		said := ""
		for _, tl := range e.Tells {
			said += fmt.Sprintf("%s=%v ", tl.Leaf.Path, tl.Value)
		}
		for _, n := range e.Narrows {
			said += fmt.Sprintf("%s~%v ", n.Leaf.Path, n.Value)
		}
		require.Equal(t, c.says, said, c.question)
	}
}

func TestAnswersThatAreRefusedNameTheFieldAndWhatWouldDo(t *testing.T) {
	tr := load(t)
	for _, c := range []struct {
		question string
		answer   tree.Answer
		field    string
		accepted string
	}{
		{"panel.main", tree.Answer{}, "answer.choices", "exactly one of m60"},
		{"panel.main", tree.Answer{Choices: []string{"m60", "m100"}}, "answer.choices", "exactly one"},
		{"panel.main", tree.Answer{Choices: []string{"m90"}}, "answer.choices", "m60, m100"},
		{"panel.main", tree.Answer{Choices: []string{"m60"}, Number: 60, HasNumber: true}, "answer.number", "no number"},
		{"panel.main", tree.Answer{Text: "200"}, "answer.text", "choice"},
		{"panel.main", tree.Answer{Number: 200, HasNumber: true}, "answer.choices", "exactly one"},
		{"outlet.breaker", tree.Answer{Choices: []string{"other"}}, "answer.number", "10 to 125 A"},
		{"outlet.breaker", tree.Answer{Choices: []string{"other"}, Number: 300, HasNumber: true}, "answer.number", "10 to 125 A"},
		{"place.signs", tree.Answer{Choices: []string{"none", "hot"}}, "answer.choices", "alone"},
		{"place.signs", tree.Answer{Choices: []string{"hot", "hot"}}, "answer.choices", "each once"},
		{"place.signs", tree.Answer{}, "answer.choices", "at least one"},
		{"route.feet", tree.Answer{Number: -3, HasNumber: true}, "answer.number", "from 1 to 400 ft"},
		{"route.feet", tree.Answer{Number: 1e9, HasNumber: true}, "answer.number", "from 1 to 400 ft"},
		{"route.feet", tree.Answer{Number: math.NaN(), HasNumber: true}, "answer.number", "from 1 to 400 ft"},
		{"route.feet", tree.Answer{Choices: []string{"x"}}, "answer.number", "from 1 to 400 ft"},
		{"driving.home_by", tree.Answer{Number: 18.2, HasNumber: true}, "answer.number", "from 0 to 24"},
		{"place.postal", tree.Answer{Text: "1000"}, "answer.text", "5 digits"},
		{"place.built", tree.Answer{Number: 1500, HasNumber: true}, "answer.number", "from 1700 to 2035"},
	} {
		q, ok := tr.Question(c.question)
		require.True(t, ok)
		_, err := q.Read(c.answer)
		f, ok := fault.As(err)
		require.True(t, ok, "%s %v", c.question, c.answer)
		require.Equal(t, c.field, f.Field, c.question)
		require.Contains(t, f.Accepted, c.accepted, c.question)
	}
}
