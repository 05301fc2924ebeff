package circuit_test

import (
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/edition/nec"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

// carport is a charger on a post, 170 ft from an outside panel, 150 of them in
// lawn. Nobody has read the terminals.
func carport(setting unit.Amps) circuit.Job {
	job := plainJob(setting)
	job.Place, job.Structure, job.Terminals = edition.Outdoor, circuit.UnfedStructure, edition.Unmarked
	job.Route = circuit.Route{Segments: []circuit.Segment{{Kind: circuit.Outside, Feet: 10},
		{Kind: circuit.Trench, Feet: 150, Over: edition.GeneralBurial}, {Kind: circuit.Outside, Feet: 10}}}
	return job
}

// byWiring finds the first candidate whose parts are wired that way.
func byWiring(r *circuit.Result, ways ...string) *circuit.Candidate {
next:
	for i := range r.Candidates {
		c := &r.Candidates[i]
		for k := range c.Parts {
			want := ""
			if k < len(ways) {
				want = ways[k]
			}
			if circuit.MethodName(c.Parts[k].Method, c.Parts[k].Raceway) != want {
				continue next
			}
		}
		return c
	}
	return nil
}

// Source: NEC Chapter 9 Tables 4, 5, 8 and 9, 250.122(B), 225.31, 250.32(A)
// Exception, Table 300.5; worked by hand, the same in every edition.
func TestCarportAt170Feet(t *testing.T) {
	for _, year := range []int{2017, 2020, 2023, 2026} {
		for _, marking := range []edition.Marking{edition.Unmarked, edition.Marked75} {
			job := carport(48)
			job.Terminals = marking
			r := design(t, year, job)
			require.Equal(t, circuit.Designed, r.Outcome)
			c := byWiring(&r, "THWN-2 in PVC 40")
			require.NotNil(t, c)
			p := &c.Parts[0]
			require.EqualValues(t, 60, r.Device)
			require.Equal(t, "4", p.Hot.Trade(), "6 AWG drops 8.00 V, 3.33 %")
			require.Equal(t, "8", p.Ground.Trade(), "16 511 cmil for 16 510: table rounding")
			require.EqualValues(t, "1", p.Trade, "PVC 80 where it comes up")
			require.Equal(t, edition.PVC80, p.Riser)
			require.InDelta(t, 5.0592, float64(c.DropVolts), 1e-6)
			require.True(t, r.StructureDisconnect)
			require.Equal(t, r.Chosen, *c)
			var covers, buried, guarded float64
			for _, n := range r.Takeoff.Needs {
				switch {
				case n.Item == circuit.RacewayItem && n.Run == circuit.Trench:
					covers, buried = float64(n.Cover), n.Quantity
				case n.Item == circuit.RacewayItem && n.Raceway == edition.PVC80:
					guarded += n.Quantity
				case n.Item == circuit.RodItem:
					t.Fatal("a circuit alone needs no rod")
				}
			}
			require.Equal(t, []float64{18, 150, 16}, []float64{covers, buried, guarded})
		}
	}
}

// Source: NEC 250.122(B); Chapter 9 Table 8.
func TestTrapGroundGrowsWithDrop(t *testing.T) {
	for _, c := range []struct {
		setting unit.Amps
		feet    unit.Feet
		hot     string
		ground  string
	}{
		{16, 300, "6", "6"},  // 12 to 6 AWG: the ground as large as the hots
		{40, 560, "1", "3"},  // 8 to 1 AWG: 52 617 cmil
		{48, 170, "4", "8"},  // 6 to 4 AWG
		{48, 60, "6", "10"},  // nothing raised
		{32, 170, "6", "10"}, // 8 to 6 AWG: 16 497 cmil would be 8 AWG
	} {
		job := carport(c.setting)
		job.Terminals, job.Methods = edition.Marked75, circuit.UsePVC
		job.Route.Segments[1].Feet = c.feet - 20
		r := design(t, 2020, job)
		require.Equal(t, circuit.Designed, r.Outcome, c)
		p := &r.Chosen.Parts[0]
		require.Equal(t, c.hot, p.Hot.Trade(), c)
		if c.setting != 32 {
			require.Equal(t, c.ground, p.Ground.Trade(), c)
		}
	}
}

// Source: NEC Table 300.5 by what lies over the run, 340.10, 340.80.
func TestCoverAndBuriedCable(t *testing.T) {
	job := carport(24)
	job.Route.Segments[1].Feet = 40
	r := design(t, 2023, job)
	uf := byWiring(&r, "UF-B")
	require.NotNil(t, uf, "cable buried as it is")
	require.Equal(t, "10", uf.Parts[0].Hot.Trade())
	take := uf.Takeoff(book(t, 2023))
	sleeve := 0.0
	for _, n := range take.Needs {
		if n.Item == circuit.SleeveItem {
			sleeve += n.Quantity
			require.Equal(t, edition.PVC80, n.Raceway)
		}
		if n.Item == circuit.CableItem && n.Run == circuit.Trench {
			require.EqualValues(t, 24, n.Cover)
		}
	}
	require.EqualValues(t, 20, sleeve, "guarded wherever it is not in the ground")

	for _, c := range []struct {
		over    edition.Burial
		deepest unit.Inches
		want    []string // methods that may lie there, of PVC, RMC and UF-B
	}{
		{edition.GeneralBurial, 0, []string{"PVC", "UF", "RMC"}},
		{edition.GeneralBurial, 18, []string{"PVC", "RMC"}},
		{edition.GeneralBurial, 8, []string{"RMC"}},
		{edition.UnderDwellingDrive, 18, []string{"PVC", "UF", "RMC"}},
		{edition.UnderDwellingDrive, 12, nil},
		{edition.UnderExteriorSlab, 4, []string{"PVC", "RMC"}},
		{edition.UnderBuilding, 0, []string{"PVC", "RMC"}},
		{edition.UnderStreet, 20, nil},
	} {
		job := carport(24)
		job.Methods = circuit.UsePVC | circuit.UseUFB | circuit.UseRMC
		job.Route.Segments[1] = circuit.Segment{Kind: circuit.Trench, Feet: 40, Over: c.over, DeepestCover: c.deepest}
		r := design(t, 2023, job)
		var got []string
		for _, way := range [][2]string{{"PVC", "THWN-2 in PVC 40"}, {"UF", "UF-B"}, {"RMC", "THWN-2 in RMC"}} {
			if byWiring(&r, way[1]) != nil {
				got = append(got, way[0])
			}
		}
		require.Equal(t, c.want, got, c)
		if c.want == nil {
			require.Equal(t, circuit.TooShallow, r.Reason)
			require.Contains(t, r.WouldDo, circuit.DigDeeper)
		}
	}
	shallow := carport(24)
	shallow.Route.Segments[1].DeepestCover = 8
	r = design(t, 2023, shallow)
	require.Equal(t, edition.RMC, r.Chosen.Parts[0].Raceway, "rigid metal where nothing else may lie, unasked")
}

// Source: 340.80 and Table 310.15(B)(1)(1): 60 °C base, 0.71 at 45 °C.
func TestTrapBuriedCableKeepsIts60Degrees(t *testing.T) {
	job := carport(40)
	job.Ambient, job.Methods = 45, circuit.UseUFB
	job.Route.Segments[1].Feet = 20
	r := design(t, 2023, job)
	require.Equal(t, "4", r.Chosen.Parts[0].Hot.Trade(), "6 AWG carries 39.05 A there; NM-B would keep 55")
	long := carport(40)
	long.Methods, long.Route.Segments[1].Feet = circuit.UseUFB, 380
	r = design(t, 2023, long)
	require.Equal(t, circuit.Impossible, r.Outcome, "raised for drop, the cable's own ground is too small")
}

// A basement, a lawn, the inside of a garage: cable, box, raceway, box, cable.
func TestTransitions(t *testing.T) {
	job := plainJob(32)
	job.Place, job.Structure = edition.Garage, circuit.UnfedStructure
	job.Route = circuit.Route{Segments: []circuit.Segment{{Kind: circuit.OpenFraming, Feet: 30},
		{Kind: circuit.Trench, Feet: 40, Over: edition.GeneralBurial}, {Kind: circuit.OpenFraming, Feet: 12}}}
	r := design(t, 2023, job)
	c := byWiring(&r, "NM-B", "THWN-2 in PVC 40", "NM-B")
	require.NotNil(t, c)
	require.NotNil(t, byWiring(&r, "NM-B", "THWN-2 in PVC 40"))
	require.NotNil(t, byWiring(&r, "THWN-2 in PVC 40"))
	require.NotNil(t, byWiring(&r, "NM-B", "UF-B", "NM-B"))
	take := c.Takeoff(book(t, 2023))
	count := map[circuit.Item]float64{}
	for _, n := range take.Needs {
		count[n.Item] += n.Quantity
	}
	require.EqualValues(t, 2, count[circuit.JunctionItem])
	require.EqualValues(t, 2, count[circuit.WallEntryItem])
	require.EqualValues(t, 1, count[circuit.DisconnectItem])
	require.EqualValues(t, 82, take.RouteFeet)
}

// Source: NEC 225.30: one supply to a building.
func TestASecondSupplyIsNoDesign(t *testing.T) {
	job := carport(24)
	job.Structure = circuit.SuppliedAlready
	r := design(t, 2020, job)
	require.Equal(t, circuit.Impossible, r.Outcome)
	require.Equal(t, circuit.SecondSupply, r.Reason)
	require.Contains(t, r.WouldDo, circuit.OneFeeder)
	require.Zero(t, r.MostHere)
}

// What a jurisdiction changes reaches the design, and the working says whose
// rule it was.
func TestAmendedBooksDesignAsAmended(t *testing.T) {
	change := func(name string) edition.Edition {
		b, err := nec.Amended(nec.Embedded(), nec.EmbeddedSwitches(), 2020, "Harbor Point", []edition.Amendment{
			{Switch: name, Publication: "Harbor Point Electrical Code (invented)", Section: "12", Status: working.SecondHand}})
		require.NoError(t, err)
		return b
	}
	r, err := circuit.Design(change("methods.no_nm_cable"), plainJob(32), nil)
	require.NoError(t, err)
	for i := range r.Candidates {
		require.NotEqual(t, edition.NMB, r.Candidates[i].Parts[0].Method)
	}
	var sheet working.Sheet
	r, err = circuit.Design(change("ground_fault.hardwired_everywhere"), plainJob(32), &sheet)
	require.NoError(t, err)
	require.True(t, r.GFCI)
	named := false
	for _, s := range sheet.Steps {
		named = named || (s.Rule == "circuit.ground_fault" && s.Source.Publication == "Harbor Point Electrical Code (invented)")
	}
	require.True(t, named)
	job := carport(24)
	job.Structure = circuit.SuppliedAlready
	r, err = circuit.Design(change("supplies.extra_for_cars"), job, nil)
	require.NoError(t, err)
	require.Equal(t, circuit.Designed, r.Outcome)
	r, err = circuit.Design(change("cover.conduit_24_in"), carport(24), nil)
	require.NoError(t, err)
	for _, n := range r.Takeoff.Needs {
		if n.Run == circuit.Trench && n.Item == circuit.RacewayItem {
			require.EqualValues(t, 24, n.Cover)
		}
	}
}
