package main

import (
	"bytes"
	"errors"
	"testing"

	"github.com/stretchr/testify/require"
)

// three steps, of which the second may fail.
func three(fails error) (all []step, ran *[]string) {
	ran = &[]string{}
	for _, name := range []string{"one", "two", "three"} {
		all = append(all, step{name, "what " + name + " holds", func() error {
			*ran = append(*ran, name)
			if name == "two" {
				return fails
			}
			return nil
		}})
	}
	return all, ran
}

func TestStepsRunInOrderAndTellTheirTime(t *testing.T) {
	all, ran := three(nil)
	var out bytes.Buffer
	require.NoError(t, run(all, "", false, &out))
	require.Equal(t, []string{"one", "two", "three"}, *ran)
	require.Contains(t, out.String(), "── two: what two holds\n── two held, 0 s\n")
	require.Contains(t, out.String(), "── everything held, 0 s\n")
}

func TestTheFirstStepThatFailsEndsTheRunAndIsNamed(t *testing.T) {
	all, ran := three(errors.New("no"))
	require.EqualError(t, run(all, "", false, &bytes.Buffer{}), "step two: no")
	require.Equal(t, []string{"one", "two"}, *ran)
}

func TestOneStepByName(t *testing.T) {
	all, ran := three(nil)
	require.NoError(t, run(all, "three", false, &bytes.Buffer{}))
	require.Equal(t, []string{"three"}, *ran)
	require.ErrorContains(t, run(all, "four", false, &bytes.Buffer{}), `no step is named "four"; -list prints them`)
}

func TestTheListNamesEveryStepAndRunsNone(t *testing.T) {
	all, ran := three(nil)
	var out bytes.Buffer
	require.NoError(t, run(all, "", true, &out))
	require.Empty(t, *ran)
	require.Equal(t, "one       what one holds\ntwo       what two holds\nthree     what three holds\n", out.String())
	require.Len(t, steps(), 10)
}

func TestEveryFuzzTargetIsFound(t *testing.T) {
	targets, err := fuzzTargets("../..", "../../../cmd")
	require.NoError(t, err)
	require.Contains(t, targets["../../../cmd/daybreak"], "FuzzDecodeFacts")
	require.Contains(t, targets["../../pricing/bookfile"], "FuzzParse")
}

func TestOnlyTheRaceDetectorAsksForC(t *testing.T) {
	require.Equal(t, "1", cgo([]string{"test", "-race", "./..."}))
	require.Equal(t, "0", cgo([]string{"test", "./..."}))
}
