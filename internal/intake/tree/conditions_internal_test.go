package tree

import (
	"strings"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/facts/condition"

	"github.com/stretchr/testify/require"
)

// Every condition of the tree, wherever it stands: with nothing known it is
// unknown. Only one that asks how we came by a leaf may be plain.
func TestEveryConditionIsUnknownOfAnUnknownHousehold(t *testing.T) {
	tr, err := Load(Embedded())
	require.NoError(t, err)
	all := map[string]*condition.Condition{}
	add := func(c *condition.Condition) {
		if c != nil {
			all[c.Source()] = c
		}
	}
	for _, q := range tr.questions {
		add(q.When)
	}
	for _, st := range tr.steps {
		add(st.when)
		dists := []distribution{st.dist}
		if r, ok := st.dist.(rows); ok {
			for _, one := range r {
				add(one.when)
				dists = append(dists, one.dist)
			}
		}
		for _, d := range dists {
			if p, ok := d.(*pick); ok {
				for _, tl := range p.tilts {
					add(tl.when)
				}
			}
		}
	}
	for _, c := range tr.contradictions {
		add(c.when)
	}
	t.Logf("%d conditions", len(all))
	var nothing facts.Facts
	for src, c := range all {
		if !strings.Contains(src, "known(") && !strings.Contains(src, "told(") {
			require.Equal(t, condition.Unknown, c.Truth(&nothing), src)
		}
	}
}

// Every choice of every question is an answer the question takes.
func TestEveryChoiceCanBeGiven(t *testing.T) {
	tr, err := Load(Embedded())
	require.NoError(t, err)
	for _, q := range tr.questions {
		for _, c := range q.Choices {
			a := Answer{Choices: []string{c.ID}}
			if c.Enter != nil {
				a.Number, a.HasNumber = c.Enter.Low, true
			}
			e, err := q.Read(a)
			require.NoError(t, err, "%s %s", q.ID, c.ID)
			require.NotEmpty(t, append(e.Tells, e.Narrows...), "%s %s", q.ID, c.ID)
		}
	}
}

// The implied share of detached homes at 100 A or less by the assumed stock of
// eras is 22.7 %, against over 20 % in a public survey of 2022.
//
// Source: engineering judgement checked against that survey.
func TestServiceSizesAgreeWithTheSurvey(t *testing.T) {
	tr, err := Load(Embedded())
	require.NoError(t, err)
	stock := map[int]float64{1930: 0.13, 1950: 0.16, 1970: 0.25, 1990: 0.24, 2008: 0.18, 2016: 0.04}
	small := 0.0
	for year, share := range stock {
		var f facts.Facts
		f.Place.DwellingKind = facts.Tell(facts.DwellingKindHouse)
		f.Place.YearBuilt = facts.Tell(year)
		s := scene{&f, &World{}}
		for _, st := range tr.steps {
			if st.target.Path != "panel.service_amps" {
				continue
			}
			p, ok := plainPick(st.dist, s)
			require.True(t, ok)
			for i, amps := range p.values {
				if amps <= 100 {
					small += share * p.shares[i]
				}
			}
		}
	}
	require.InDelta(t, 0.227, small, 0.001)
}
