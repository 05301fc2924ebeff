package circuit_test

import (
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"

	"github.com/stretchr/testify/require"
)

func BenchmarkDesign(b *testing.B) {
	ed := book(b, 2023)
	outdoors := plainJob(40)
	outdoors.Place = edition.Outdoor
	for _, c := range []struct {
		name string
		job  circuit.Job
	}{{"garage", plainJob(32)}, {"outdoors with one change", outdoors}, {"carport at 170 ft", carport(48)}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := circuit.Design(ed, c.job, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkDesignFeeder(b *testing.B) {
	ed, job := book(b, 2023), detachedGarage()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := circuit.DesignFeeder(ed, job, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAllowed(b *testing.B) {
	ed := book(b, 2023)
	six, err := ed.SizeNamed("6")
	require.NoError(b, err)
	e := circuit.Existing{Device: 50, Receptacle: "14-50", Wire: edition.Wire{Method: edition.NMB, Size: six, Material: edition.Copper}, Ambient: 30}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := circuit.Allowed(ed, e, nil); err != nil {
			b.Fatal(err)
		}
	}
}
