package nec_test

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/edition"
	"daybreak/internal/edition/nec"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

func book(t testing.TB, year int) *nec.Book {
	b, err := nec.Open(nec.Embedded(), year)
	require.NoError(t, err)
	return b
}

func size(t testing.TB, b *nec.Book, name string) edition.Size {
	s, err := b.SizeNamed(name)
	require.NoError(t, err)
	return s
}

func Example() {
	for _, year := range []int{2020, 2023} {
		book, err := nec.Open(nec.Embedded(), year)
		if err != nil {
			fmt.Println(err)
			return
		}
		load := book.ChargerLoad(3840)
		fmt.Println(book.Name(), load.Value, load.Source.Section, load.Source.Status)
	}
	// Output:
	// NEC 2020 3840 220.14(A), 625.42 from memory
	// NEC 2023 7200 220.57 verified
}

func TestEveryYearOpensAndAnswersAsAnEdition(t *testing.T) {
	for _, y := range nec.Years() {
		var e edition.Edition = book(t, y)
		require.Equal(t, fmt.Sprint("NEC ", y), e.Name())
	}
	_, err := nec.Open(nec.Embedded(), 2014)
	require.ErrorContains(t, err, "edition: 2014")
}

// files gives the shipped tables with one text replaced in one of them.
func files(t *testing.T, name, old, new string) fs.FS {
	out := fstest.MapFS{}
	all, err := fs.Glob(nec.Embedded(), "*.yaml")
	require.NoError(t, err)
	for _, f := range all {
		raw, err := fs.ReadFile(nec.Embedded(), f)
		require.NoError(t, err)
		if f == name {
			require.Contains(t, string(raw), old)
			raw = []byte(strings.Replace(string(raw), old, new, 1))
		}
		out[f] = &fstest.MapFile{Data: raw}
	}
	return out
}

func TestBrokenTablesAreFaultsByFileAndLine(t *testing.T) {
	for _, c := range []struct{ what, file, old, new, says string }{
		{"no unit", "cover.yaml", "unit: inches\n", "", "unit: "},
		{"no status", "cover.yaml", "status: {2017: from memory, 2023: verified, 2026: from memory}\n", "", "status: "},
		{"no section", "cover.yaml", "section: {2017: \"Table 300.5\", 2023: \"Table 300.5(A)\"}\n", "", "section: "},
		{"unknown status", "ampacity.yaml", "status: {2017: verified", "status: {2017: certain", "certain"},
		{"unknown key", "ampacity.yaml", "unit: amps", "units: amps", "units"},
		{"row twice", "ampacity.yaml", `["12 AWG", 20`, `["14 AWG", 20`, "each row once"},
		{"cell missing", "ampacity.yaml", `["12 AWG", 20, `, `["12 AWG", `, "columns"},
		{"word for a number", "ampacity.yaml", `["12 AWG", 20`, `["12 AWG", twenty`, "a number"},
		{"unknown size", "ampacity.yaml", `"12 AWG", 20`, `"13 AWG", 20`, "a size of the table conductors"},
		{"falling row", "protection.yaml", "[20, 2017]", "[12, 2017]", "more than the row above"},
		{"dated from nowhere", "ampacity.yaml", "{2017: 0.875, 2023: 0.75}", "{2030: 0.875}", "an entry for 2017"},
		{"no such rule", "charging.yaml", "plug_in_to_a", "plug_in_upto_a", "plug_in_to_a"},
		{"no such word", "charging.yaml", "2020: fixed", "2020: sometimes", "never, fixed or any"},
		{"a table nobody reads", "cover.yaml", "table: cover", "table: covers", "a table named cover"},
		{"table twice", "cover.yaml", "table: cover", "table: ampacity", "a name not used"},
		{"not YAML", "cover.yaml", "table: cover", "table: [", "YAML"},
	} {
		_, err := nec.Open(files(t, c.file, c.old, c.new), 2020)
		f, ok := fault.As(err)
		require.True(t, ok, c.what)
		require.ErrorContains(t, err, c.says, c.what)
		if c.what != "not YAML" && c.what != "a table nobody reads" {
			require.NotZero(t, f.Line, c.what)
			require.Contains(t, f.File, ".yaml", c.what)
		}
	}
	_, err := nec.Open(fstest.MapFS{}, 2020)
	require.Error(t, err)
}

func TestWhatChangedSinceIsInForce(t *testing.T) {
	for _, c := range []struct {
		year     int
		rooftop  unit.Celsius // 0.8 in above a roof, 30 °C
		seven    float64      // adjustment of seven conductors
		smallest unit.Amps    // device for 6 A
		section  string       // of the ampacity table
		load     unit.VoltAmps
	}{
		{2017, 63, 0.7, 15, "Table 310.15(B)(16)", 3840},
		{2020, 63, 0.7, 15, "Table 310.16", 3840},
		{2023, 30, 0.7, 10, "Table 310.16", 7200},
		{2026, 30, 0.65, 10, "Table 310.16", 3840},
	} {
		b := book(t, c.year)
		roof, err := b.RooftopAmbient(30, 0.8)
		require.NoError(t, err)
		require.Equal(t, c.rooftop, roof.Value)
		share, err := b.AdjustmentFactor(7)
		require.NoError(t, err)
		require.Equal(t, c.seven, share.Value)
		device, err := b.NextDevice(6)
		require.NoError(t, err)
		require.Equal(t, c.smallest, device.Value)
		a, err := b.TableAmpacity(size(t, b, "6"), edition.Copper, 60)
		require.NoError(t, err)
		require.Equal(t, c.section, a.Source.Section)
		require.Equal(t, "6 AWG, cu_60", a.Source.Cell)
		require.Equal(t, c.load, b.ChargerLoad(3840).Value)
	}
	share, err := book(t, 2026).AdjustmentFactor(7)
	require.NoError(t, err)
	require.Equal(t, working.SecondHand, share.Source.Status, "a cell that differs carries its own status")
}

func TestUnverifiedCellsAreListed(t *testing.T) {
	list, err := nec.Unverified(nec.Embedded(), 2023)
	require.NoError(t, err)
	require.NotEmpty(t, list)
	for _, d := range list {
		require.NotEqual(t, working.Verified, d.Source.Status)
		require.NotZero(t, d.Line)
	}
	newer, err := nec.Unverified(nec.Embedded(), 2026)
	require.NoError(t, err)
	require.Greater(t, len(newer), 5*len(list), "2026 was not seen in print")
	wire, err := book(t, 2026).CableGround(edition.NMB, size(t, book(t, 2026), "8"))
	require.NoError(t, err)
	for what, src := range map[string]*working.Source{
		"fastening":  book(t, 2026).ReceptacleShare().Source,
		"bends":      book(t, 2026).Bends().Source,
		"disconnect": book(t, 2026).Disconnect(edition.Hardwired, 48).Source,
		"cable":      wire.Source,
		"place":      book(t, 2026).FitIn(edition.NMB, 0, edition.DryConcealed).Source,
	} {
		require.NotEqual(t, working.Verified, src.Status, what)
	}
	require.Equal(t, "SAE J1772", book(t, 2023).SmallestSetting().Source.Publication, "what is not the code's says whose it is")
}

// Printed numbers of THHN and THWN-2 conductors, trade 1/2 to 2.
// Source: NEC Informative Annex C, Tables C.1 (EMT) and C.10 (PVC 80), from memory.
func TestAnnexCIsReproduced(t *testing.T) {
	b := book(t, 2023)
	trades := []edition.Trade{"1/2", "3/4", "1", "1-1/4", "1-1/2", "2"}
	for raceway, rows := range map[edition.Raceway]map[string][]int{
		edition.EMT: {"14": {12, 22, 35, 61, 84, 138}, "12": {9, 16, 26, 45, 61, 101}, "10": {5, 10, 16, 28, 38, 63}, "8": {3, 6, 9, 16, 22, 36},
			"6": {2, 4, 7, 12, 16, 26}, "4": {1, 2, 4, 7, 10, 16}, "3": {1, 1, 3, 6, 8, 13}, "2": {1, 1, 3, 5, 7, 11}, "1": {1, 1, 1, 4, 5, 8}},
		edition.PVC80: {"14": {9, 17, 28, 51, 70, 118}, "12": {6, 12, 20, 37, 51, 86}, "10": {4, 7, 13, 23, 32, 54},
			"6": {1, 3, 5, 9, 13, 22}, "4": {1, 1, 3, 6, 8, 14}, "3": {1, 1, 3, 5, 7, 12}},
	} {
		for name, want := range rows {
			for i, trade := range trades {
				n, err := b.RacewayCount(raceway, trade, edition.THWN2, size(t, b, name))
				require.NoError(t, err)
				require.Equal(t, want[i], n.Value, "%v %s in %s", raceway, name, trade)
			}
		}
	}
}

// Source: NEC Table 300.5(A), 334.12, 338.10(B)(4), 250.122.
func TestAnswersAtTheEdges(t *testing.T) {
	b := book(t, 2023)
	under, err := b.CoverDepth(edition.UnderBuilding, edition.DirectBurialCable)
	require.NoError(t, err)
	require.True(t, under.Value.Forbidden, "raceway only")
	require.Equal(t, edition.Unfit, b.FitIn(edition.NMB, edition.PVC40, edition.OutdoorWall).Value, "cable in a raceway outdoors is as wet as the raceway")
	require.Equal(t, edition.Unfit, b.FitIn(edition.THWN2, edition.EMT, edition.Underground).Value)
	require.Equal(t, edition.Unfit, b.FitIn(0, 200, 200).Value)
	ten, err := b.TerminalAmpacity(edition.Wire{Method: edition.SER, Size: size(t, b, "10"), Material: edition.Copper}, edition.Marked75, 30)
	require.NoError(t, err)
	require.EqualValues(t, 30, ten.Value, "small SER ends at 60 °C")
	box, err := b.BoxFor(37.5)
	require.NoError(t, err)
	require.Equal(t, "4-11/16 square x 2-1/8", box.Value.Name)
	raised, err := b.GroundingIncreased(15, edition.Copper, size(t, b, "14"), size(t, b, "14"))
	require.NoError(t, err)
	require.Equal(t, "14", raised.Value.Size.Trade(), "never larger than the hots")
}

func TestUnanswerableQuestionsAreErrors(t *testing.T) {
	b := book(t, 2017)
	for what, ask := range map[string]func() error{
		"14 AWG aluminium": func() error {
			_, err := b.TableAmpacity(size(t, b, "14"), edition.Aluminium, 75)
			return err
		},
		"a column of 85":         func() error { _, err := b.TableAmpacity(size(t, b, "8"), edition.Copper, 85); return err },
		"a furnace":              func() error { _, err := b.AmbientFactor(90, 120); return err },
		"1000 A":                 func() error { _, err := b.NextDevice(1000); return err },
		"a plug on 60 A in 2017": func() error { _, err := b.GroundFault(edition.Garage, edition.PlugIn, 60); return err },
		"a load without a plate": func() error { _, err := b.UnknownChargerLoad(); return err },
		"4/0 in a box": func() error {
			_, err := b.BoxFill(edition.BoxContents{Conductors: [4]edition.Pull{{Count: 2, Size: size(t, b, "4/0")}}})
			return err
		},
		"500 kcmil impedance": func() error {
			_, err := b.Impedance(edition.Wire{Method: edition.THWN2, Size: size(t, b, "500"), Material: edition.Copper}, edition.EMT, edition.PowerFactor{Value: 1})
			return err
		},
		"NM of 1 AWG": func() error {
			_, err := b.Ampacity(edition.Wire{Method: edition.NMB, Size: size(t, b, "1"), Material: edition.Copper}, edition.Surroundings{Ambient: 30, CurrentCarrying: 2})
			return err
		},
		"13 AWG": func() error { _, err := b.SizeNamed("13"); return err },
	} {
		require.ErrorIs(t, ask(), edition.ErrUnanswerable, what)
	}
}

// Not-a-numbers and strangers are refused by name, and nothing panics.
func TestNonsenseIsRefused(t *testing.T) {
	b := book(t, 2023)
	nan := unit.Amps(unit.Feet(0) / unit.Feet(zero()))
	for what, ask := range map[string]func() error{
		"next device": func() error { _, err := b.NextDevice(nan); return err },
		"ground":      func() error { _, err := b.GroundingConductor(-5, edition.Copper); return err },
		"metal":       func() error { _, err := b.GroundingConductor(20, 9); return err },
		"ambient":     func() error { _, err := b.AmbientFactor(90, unit.Celsius(nan)); return err },
		"together":    func() error { _, err := b.AdjustmentFactor(0); return err },
		"roof":        func() error { _, err := b.RooftopAmbient(30, -1); return err },
		"size":        func() error { _, err := b.Area(edition.NewSize(3, "another book's")); return err },
		"power factor": func() error {
			_, err := b.Impedance(edition.Wire{Size: size(t, b, "8"), Material: edition.Copper}, 0, edition.PowerFactor{Value: 2})
			return err
		},
		"empty raceway": func() error { _, err := b.RacewayFor(edition.EMT, edition.Contents{}); return err },
		"no raceway":    func() error { _, err := b.RacewayFor(99, edition.Contents{}); return err },
		"place":         func() error { _, err := b.GroundFault(0, edition.Hardwired, 50); return err },
		"burial":        func() error { _, err := b.CoverDepth(0, 0); return err },
		"method":        func() error { _, err := b.MethodSizes(77, edition.Copper); return err },
		"device of ampacity": func() error {
			_, err := b.LargestDevice(size(t, b, "8"), edition.Copper, nan)
			return err
		},
		"marking": func() error {
			_, err := b.TerminalAmpacity(edition.Wire{Method: edition.NMB, Size: size(t, b, "8"), Material: edition.Copper}, 0, 40)
			return err
		},
		"circuit": func() error {
			_, err := b.TerminalAmpacity(edition.Wire{Method: edition.NMB, Size: size(t, b, "8"), Material: edition.Copper}, edition.Unmarked, nan)
			return err
		},
	} {
		f, ok := fault.As(ask())
		require.True(t, ok, what)
		require.NotEmpty(t, f.Accepted, what)
	}
}

func zero() float64 { return 0 }

// Source: NEC 225.30, 225.39, 250.32(A), 250.53(A)(2), 250.66(A), 300.5(D)(1).
func TestBuildingsBeyondTheService(t *testing.T) {
	for _, y := range nec.Years() {
		b := book(t, y)
		require.Equal(t, 1, b.Supplies().Value)
		require.EqualValues(t, 15, b.StructureDisconnect(edition.OneCircuit).Value)
		require.EqualValues(t, 60, b.StructureDisconnect(edition.OwnPanel).Value)
		require.Zero(t, b.StructureRods(edition.OneCircuit).Value)
		require.Equal(t, 2, b.StructureRods(edition.OwnPanel).Value)
		require.Equal(t, 2, b.StructureRods(99).Value, "a stranger is asked the most")
		require.Equal(t, "6 AWG", b.RodConductor().Value.String())
		require.EqualValues(t, 8, b.EmergingHeight().Value)
		require.EqualValues(t, 18, b.EmergingDepth().Value)
	}
}
