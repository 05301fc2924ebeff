package quote

import (
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/facts"

	"github.com/stretchr/testify/require"
)

// A buried run is in the order the wire passes it: what is inside the house,
// the trench, what rises at the car.
// Source: common practice.
func TestABuriedRunIsInPhysicalOrder(t *testing.T) {
	run := []circuit.Segment{
		{Kind: circuit.OpenFraming, Feet: 20}, {Kind: circuit.Surface, Feet: 10}, {Kind: circuit.Outside, Feet: 6}, {Kind: circuit.Trench, Feet: 55},
	}
	for _, c := range []struct {
		name    string
		where   edition.Place
		parking facts.Parking
		want    []circuit.SegmentKind
	}{
		{"inside a garage of its own", edition.Garage, facts.ParkingDetached, []circuit.SegmentKind{circuit.OpenFraming, circuit.Outside, circuit.Trench, circuit.Surface}},
		{"at a post on the drive", edition.Outdoor, facts.ParkingDriveway, []circuit.SegmentKind{circuit.OpenFraming, circuit.Surface, circuit.Trench, circuit.Outside}},
		{"in an attached garage", edition.Garage, facts.ParkingAttached, []circuit.SegmentKind{circuit.OpenFraming, circuit.Surface, circuit.Outside, circuit.Trench}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := facts.Facts{}
			f.Place.Parking = facts.Tell(c.parking)
			f.Route.TrenchSurface = facts.Tell(facts.TrenchSurfacePavers)
			h := home{facts: &f, where: c.where}
			var got []circuit.SegmentKind
			feet := 0.0
			for _, s := range h.laid(run, 91) {
				got = append(got, s.Kind)
				feet += float64(s.Feet)
				if s.Kind == circuit.Trench {
					require.Equal(t, circuit.Pavers, s.Ground)
				}
			}
			require.Equal(t, c.want, got)
			require.EqualValues(t, 91, feet)
		})
	}
}

// A building that is fed today gets no second supply; a carport on the house is
// no building of its own.
// Source: NEC 225.30.
func TestWhichBuildingsAreFed(t *testing.T) {
	dug := []circuit.Segment{{Kind: circuit.Trench, Feet: 40}}
	for _, c := range []struct {
		parking facts.Parking
		feed    facts.Known[facts.DetachedFeed]
		run     []circuit.Segment
		fed     bool
		want    circuit.Structure
	}{
		{facts.ParkingDetached, facts.Tell(facts.DetachedFeedTwoWire), dug, true, circuit.SameStructure},
		{facts.ParkingDetached, facts.Tell(facts.DetachedFeedFourWire), nil, true, circuit.SameStructure},
		{facts.ParkingDetached, facts.Tell(facts.DetachedFeedNone), dug, false, circuit.UnfedStructure},
		{facts.ParkingCarport, facts.Tell(facts.DetachedFeedNone), dug, false, circuit.UnfedStructure},
		{facts.ParkingCarport, facts.Known[facts.DetachedFeed]{}, nil, false, circuit.SameStructure},
		{facts.ParkingAttached, facts.Known[facts.DetachedFeed]{}, dug, false, circuit.SameStructure},
	} {
		f := facts.Facts{}
		f.Place.Parking, f.Place.DetachedFeed = facts.Tell(c.parking), c.feed
		h := home{facts: &f}
		h.route.circuit.Segments = c.run
		require.Equal(t, c.fed, h.fed(), c.parking)
		require.Equal(t, c.want, h.structure(), c.parking)
	}
}
