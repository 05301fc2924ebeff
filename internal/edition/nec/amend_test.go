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
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

func local(name string) edition.Amendment {
	return edition.Amendment{Switch: name, Publication: "Harbor Point Electrical Code (invented)", Section: "12", Status: working.SecondHand}
}

func amended(t testing.TB, year int, names ...string) *nec.Book {
	t.Helper()
	var list []edition.Amendment
	for _, n := range names {
		list = append(list, local(n))
	}
	b, err := nec.Amended(nec.Embedded(), nec.EmbeddedSwitches(), year, "Harbor Point", list)
	require.NoError(t, err)
	return b
}

// Every switch changes an answer in some edition, and no other is left out.
func TestEverySwitchChangesAnAnswer(t *testing.T) {
	gfci := func(p edition.Place) func(*nec.Book) any {
		return func(b *nec.Book) any { c, _ := b.GroundFault(p, edition.Hardwired, 40); return c.Value }
	}
	fits := func(m edition.Method, r edition.Raceway, run edition.Run) func(*nec.Book) any {
		return func(b *nec.Book) any { return b.FitIn(m, r, run).Value }
	}
	counts := func(b *nec.Book) any { return b.SettingCounts(edition.RestrictedAccess, edition.CordConnected).Value }
	asks := map[string]struct {
		year int
		ask  func(*nec.Book) any
		want any
	}{
		"ground_fault.hardwired_everywhere": {2020, gfci(edition.Indoor), edition.Required},
		"ground_fault.hardwired_nowhere":    {2023, gfci(edition.Outdoor), edition.NotRequired},
		"ground_fault.hardwired_garage":     {2023, gfci(edition.Garage), edition.Required},
		"ground_fault.not_hardwired_garage": {2023, gfci(edition.Garage), edition.NotRequired},
		"setting.never_counts":              {2023, counts, false},
		"setting.counts_when_fixed":         {2023, counts, false},
		"setting.counts":                    {2017, counts, true},
		"disconnect.every_hardwired":        {2020, func(b *nec.Book) any { return b.Disconnect(edition.Hardwired, 16).Value }, true},
		"individual.always":                 {2023, func(b *nec.Book) any { return b.IndividualCircuit(12, 120).Value }, true},
		"methods.no_nm_cable":               {2023, fits(edition.NMB, 0, edition.AtticSpace), edition.Unfit},
		"methods.no_plastic_conduit_inside": {2023, fits(edition.THWN2, edition.PVC40, edition.UnfinishedBasement), edition.Unfit},
		"methods.nm_cable_on_walls":         {2023, fits(edition.NMB, 0, edition.GarageWall), edition.Fit},
		"methods.no_buried_cable":           {2023, fits(edition.UFB, 0, edition.Underground), edition.Unfit},
		"supplies.extra_for_cars":           {2020, func(b *nec.Book) any { return b.Supplies().Value }, 2},
		"cover.conduit_24_in": {2023, func(b *nec.Book) any {
			c, _ := b.CoverDepth(edition.GeneralBurial, edition.NonmetallicConduit)
			return float64(c.Value.Inches)
		}, 24.0},
	}
	all, err := nec.Switches(nec.EmbeddedSwitches())
	require.NoError(t, err)
	require.Len(t, asks, len(all))
	for _, name := range all {
		c, ok := asks[name]
		require.True(t, ok, name)
		require.NotEqual(t, c.want, c.ask(book(t, c.year)), name)
		require.Equal(t, c.want, c.ask(amended(t, c.year, name)), name)
		for _, y := range nec.Years() {
			require.Contains(t, amended(t, y, name).Name(), "as amended by Harbor Point")
		}
	}
}

func TestAmendedAnswersNameTheJurisdiction(t *testing.T) {
	b := amended(t, 2020, "ground_fault.hardwired_everywhere", "methods.no_nm_cable")
	c, err := b.GroundFault(edition.Indoor, edition.Hardwired, 60)
	require.NoError(t, err)
	require.Equal(t, "Harbor Point Electrical Code (invented)", c.Source.Publication)
	require.Equal(t, "12", c.Source.Section)
	require.Equal(t, working.SecondHand, c.Source.Status)
	fit := b.FitIn(edition.NMB, edition.NoRaceway, edition.AtticSpace)
	require.Contains(t, fit.Source.Section, "334.23; Harbor Point Electrical Code (invented) 12")
	plain := book(t, 2020)
	same, err := b.NextDevice(48)
	require.NoError(t, err)
	want, err := plain.NextDevice(48)
	require.NoError(t, err)
	require.Equal(t, want, same, "what nobody changed is the code's")
	require.Equal(t, "NEC 2020", amended(t, 2020).Name(), "no change, no new name")
}

func TestBadAmendmentsAreRefused(t *testing.T) {
	unknown, bare, vague := local("methods.everything"), local("setting.counts"), local("setting.counts")
	bare.Section, vague.Status = "", "sure"
	for says, list := range map[string][]edition.Amendment{
		"one of":                    {unknown},
		"a publication and a":       {bare},
		"verified":                  {vague},
		"one of the two: both set ": {local("setting.counts"), local("setting.never_counts")},
	} {
		_, err := nec.Amended(nec.Embedded(), nec.EmbeddedSwitches(), 2023, "x", list)
		f, ok := fault.As(err)
		require.True(t, ok, says)
		require.Contains(t, f.Accepted, says)
	}
	_, err := nec.Amended(nec.Embedded(), nec.EmbeddedSwitches(), 2014, "x", nil)
	require.Error(t, err)
	raw, err := fs.ReadFile(nec.EmbeddedSwitches(), "switches.yaml")
	require.NoError(t, err)
	for _, c := range [][2]string{{"[39, supplies.extra_for_cars, structures,", "[39, supplies.extra_for_cars, buildings,"},
		{"structures, supplies, value", "structures, supply, value"}, {"structures, supplies, value", "structures, supplies, number"}} {
		broken := fstest.MapFS{"switches.yaml": {Data: []byte(strings.Replace(string(raw), c[0], c[1], 1))}}
		_, err := nec.Amended(nec.Embedded(), broken, 2023, "x", []edition.Amendment{local("supplies.extra_for_cars")})
		f, ok := fault.As(err)
		require.True(t, ok, c)
		require.NotZero(t, f.Line)
		require.Equal(t, "switches.yaml", f.File)
	}
}

// A jurisdiction that wants every hardwired charger behind a ground-fault
// device, wherever it hangs.
func ExampleAmended() {
	b, err := nec.Amended(nec.Embedded(), nec.EmbeddedSwitches(), 2020, "Harbor Point", []edition.Amendment{{
		Switch: "ground_fault.hardwired_everywhere", Publication: "Harbor Point Electrical Code (invented)", Section: "12", Status: working.SecondHand,
	}})
	if err != nil {
		fmt.Println(err)
		return
	}
	need, err := b.GroundFault(edition.Indoor, edition.Hardwired, 40)
	fmt.Println(b.Name(), need.Value == edition.Required, need.Source.Publication, err)
	// Output: NEC 2020 as amended by Harbor Point true Harbor Point Electrical Code (invented) <nil>
}
