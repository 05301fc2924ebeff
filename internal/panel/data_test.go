package panel_test

import (
	"bytes"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/panel"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// with is the shipped data with one file replaced.
func with(t testing.TB, name string, raw []byte) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	for _, file := range []string{"methods.yaml", "appliances.yaml", "priors.yaml"} {
		data, err := fs.ReadFile(panel.Embedded(), file)
		require.NoError(t, err)
		out[file] = &fstest.MapFile{Data: data}
	}
	out[name] = &fstest.MapFile{Data: raw}
	return out
}

// broken is the shipped data with one text of one file replaced, and the line
// the replacement is on.
func broken(t testing.TB, name, old, replacement string) (fs.FS, int) {
	t.Helper()
	raw, err := fs.ReadFile(panel.Embedded(), name)
	require.NoError(t, err)
	at := bytes.Index(raw, []byte(old))
	require.GreaterOrEqual(t, at, 0, old)
	return with(t, name, bytes.Replace(raw, []byte(old), []byte(replacement), 1)), 1 + bytes.Count(raw[:at], []byte("\n"))
}

func TestBrokenFilesAreRefusedByLine(t *testing.T) {
	openBook := func(f fs.FS) error { _, err := panel.OpenBook(f); return err }
	openPriors := func(f fs.FS) error { _, err := panel.OpenPriors(f); return err }
	for _, c := range []struct {
		name, file, old, new, field string
		open                        func(fs.FS) error
	}{
		{"unknown key", "methods.yaml", "va_per_sqft: {2017: 3, 2026: 2}", "va_per_sq: 3", "va_per_sq", openBook},
		{"years out of order", "methods.yaml", "va_per_sqft: {2017: 3, 2026: 2}", "va_per_sqft: {2026: 2, 2017: 3}", "2017", openBook},
		{"no value for an edition", "methods.yaml", "va_per_sqft: {2017: 3, 2026: 2}", "va_per_sqft: {2020: 3}", "general_lighting.va_per_sqft", openBook},
		{"negative", "methods.yaml", "first_va: 3000", "first_va: -3000", "first_va", openBook},
		{"not a number", "methods.yaml", "first_va: 3000", "first_va: many", "many", openBook},
		{"unknown method", "methods.yaml", "part_of_dwelling: [general]", "part_of_dwelling: [guess]", "deciding.part_of_dwelling", openBook},
		{"unknown status", "methods.yaml", "  status: from memory\n  va_per_sqft: 3", "  status: sure\n  va_per_sqft: 3", "mobile_550_18.status", openBook},
		{"short row", "methods.yaml", "- [5, 85, 0]", "- [5, 85]", "dryer.rows", openBook},
		{"low above high", "appliances.yaml", "va: [8000, 12000, 17000]", "va: [18000, 12000, 17000]", "range.va", openBook},
		{"unknown class", "appliances.yaml", "class: cooking", "class: stove", "class", openBook},
		{"shares that miss one", "priors.yaml", "[0.06, 0.38, 0.04, 0.1, 0.39, 0.03]", "[0.06, 0.38, 0.04, 0.1, 0.39, 0.13]", "service_amps.house", openPriors},
		{"a zone forgotten", "priors.yaml", ", marine: 0.403}", "}", "fuel.electric_main_heat", openPriors},
	} {
		t.Run(c.name, func(t *testing.T) {
			files, line := broken(t, c.file, c.old, c.new)
			err := c.open(files)
			require.ErrorContains(t, err, c.file+":")
			require.ErrorContains(t, err, c.field)
			first, _, _ := strings.Cut(strings.TrimPrefix(err.Error(), c.file+":"), ":")
			require.NotEqual(t, "0", first)
			t.Logf("line %d was broken: %s", line, strings.SplitN(err.Error(), "\n", 2)[0])
		})
	}
}

func TestEveryValueHasASectionAndStatus(t *testing.T) {
	b := book(t)
	require.Equal(t, []int{2017, 2020, 2023, 2026}, b.Editions())
	_, err := b.Rules(2029)
	require.ErrorContains(t, err, "2017, 2020, 2023, 2026")
	// 2026 moved the article; what was not seen in the book says so.
	in := find(t, "V01").input(t, 32)
	in.Rules = rules(t, 2026)
	out, err := panel.By(in, panel.ExistingDwelling)
	require.NoError(t, err)
	require.Equal(t, "120.83(A)", out.Source.Section)
	require.Equal(t, working.FromMemory, out.Source.Status)
	require.True(t, out.NoLiteral, "the words of 2026 leave no bracket for the charger")
	in.Change = panel.HeatingOrCoolingAdded
	out, err = panel.By(in, panel.ExistingDwelling)
	require.NoError(t, err)
	require.Equal(t, "120.83(B)", out.Source.Section)
}

func appliances(t testing.TB) *panel.Appliances {
	t.Helper()
	p, err := panel.OpenAppliances(panel.Embedded())
	require.NoError(t, err)
	return p
}

func TestPlates(t *testing.T) {
	p := appliances(t)
	// Source: default plates, trade-common ratings.
	require.EqualValues(t, 12000, p.Of(panel.Range).Default)
	require.EqualValues(t, 5500, p.Of(panel.Dryer).Default)
	require.EqualValues(t, 4500, p.Of(panel.WaterHeater).Default)
	tankless, ok := p.ByID("water_heater_tankless")
	require.True(t, ok)
	require.EqualValues(t, 24000, tankless.Default)
	_, ok = p.ByID("perpetual_motion")
	require.False(t, ok)
	// 2 200 ft² at 600 ft² a ton is 3.5 tons; 10 W/ft² rounded up to 5 kW kits.
	require.EqualValues(t, 5000, p.CoolingByArea(2200, panel.MixedHumid))
	require.EqualValues(t, 7200, p.CoolingBySize(4.5), "the next size up")
	require.EqualValues(t, 15000, p.FurnaceByArea(1400, panel.VeryColdCold))
	va, units := p.BaseboardByArea(1400)
	require.EqualValues(t, 14000, va)
	require.Equal(t, 7, units)
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.SampledFrom(p.All()).Draw(t, "appliance")
		u, v := rapid.Float64Range(0, 1).Draw(t, "u"), rapid.Float64Range(0, 1).Draw(t, "v")
		lo, hi := a.PlateAt(min(u, v)), a.PlateAt(max(u, v))
		require.True(t, a.Low <= lo && lo <= hi+1e-9 && hi <= a.High+1e-9)
	})
}

func priors(t testing.TB) *panel.Priors {
	t.Helper()
	p, err := panel.OpenPriors(panel.Embedded())
	require.NoError(t, err)
	return p
}

func sumsToOne[T any](t require.TestingT, d panel.Distribution[T]) {
	sum := 0.0
	for _, c := range d {
		require.True(t, c.P >= 0 && c.P <= 1+1e-12)
		sum += c.P
	}
	require.InDelta(t, 1, sum, 1e-9)
}

func TestPriors(t *testing.T) {
	p := priors(t)
	share := func(d panel.Distribution[unit.Amps], in func(unit.Amps) bool) (sum float64) {
		for _, c := range d {
			if in(c.Value) {
				sum += c.P
			}
		}
		return sum
	}
	small := func(a unit.Amps) bool { return a <= 100 }
	// Over the stock of detached homes 22.7 % are at 100 A or less; a 2022 US
	// survey of single-family homes says over 20 %.
	require.InDelta(t, 0.227, share(p.ServiceAmps(panel.Home{}), small), 0.001)
	old := panel.Home{Era: p.Era(1948)}
	require.InDelta(t, 0.42, share(p.ServiceAmps(old), small), 1e-9)
	old.ElectricHeat = panel.ToldYes
	require.Less(t, share(p.ServiceAmps(old), small), 0.42, "electric heat goes with larger services")
	// RECS 2015, hot-humid homes: 61.4 % electric main heat.
	require.InDelta(t, 0.614, p.ElectricHeat(panel.Home{Zone: panel.HotHumid}), 1e-9)
	require.Greater(t, p.ElectricHeat(panel.Home{Zone: panel.HotHumid, Era: p.Era(2018)}), 0.614)
	require.InDelta(t, 0.715, p.Electric(panel.WaterHeater, panel.Home{Zone: panel.HotHumid}), 1e-9)
	require.InDelta(t, 0.82*0.8, p.Electric(panel.Dryer, panel.Home{}), 1e-9)
	require.Zero(t, p.Electric(panel.OtherLoad, panel.Home{}))
	// Mean of the era's row and the service's row.
	require.InDelta(t, (0.38+0.3)/2, p.FreePair(panel.Home{Era: p.Era(1948)}, 100), 1e-9)
	require.InDelta(t, 0.35, p.Supply208(panel.Home{Dwelling: panel.Flat}), 1e-9)
	require.Zero(t, p.Supply208(panel.Home{}))
	require.InDelta(t, 0.22, p.LargeOutlet(panel.Home{Era: p.Era(2020)}, panel.AttachedGarage), 1e-9)
	require.InDelta(t, 0.06, p.AluminiumBranch(1970), 1e-9)
	require.Zero(t, p.AluminiumBranch(1990))
	rapid.Check(t, func(t *rapid.T) {
		word := func(name string) panel.Told {
			return rapid.SampledFrom([]panel.Told{panel.Unsaid, panel.ToldNo, panel.ToldYes}).Draw(t, name)
		}
		h := panel.Home{
			Era: panel.Era(rapid.IntRange(0, 9).Draw(t, "era")), Dwelling: panel.Dwelling(rapid.IntRange(0, 6).Draw(t, "dwelling")),
			Zone: panel.Zone(rapid.IntRange(0, 9).Draw(t, "zone")), Region: panel.Region(rapid.IntRange(0, 9).Draw(t, "region")),
			FloorArea: unit.SquareFeet(rapid.IntRange(0, 5000).Draw(t, "area")), ElectricHeat: word("heat"), Source: word("source"), SpaOrPool: word("spa"),
		}
		service := p.ServiceAmps(h)
		sumsToOne(t, service)
		sumsToOne(t, p.Heat(h))
		sumsToOne(t, p.Cooling(h))
		sumsToOne(t, p.Source(h))
		sumsToOne(t, p.FreeSpaces(h, 100))
		sumsToOne(t, p.OutletKinds())
		sumsToOne(t, p.PanelToParking())
		u := rapid.Float64Range(0, 1).Draw(t, "u")
		require.LessOrEqual(t, service.At(u), service.At(1), "drawn in the order of the ratings")
	})
}

func TestDistributionAtItsEnds(t *testing.T) {
	d := panel.Distribution[int]{{Value: 1, P: 0.25}, {Value: 2, P: 0.75}}
	require.Equal(t, 1, d.At(-3))
	require.Equal(t, 1, d.At(0.2499))
	require.Equal(t, 2, d.At(0.25))
	require.Equal(t, 2, d.At(1))
	require.Zero(t, panel.Distribution[int](nil).At(0.5))
}
