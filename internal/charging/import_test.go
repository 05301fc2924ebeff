package charging_test

import (
	"compress/gzip"
	"encoding/csv"
	"io"
	"os"
	"strconv"
	"strings"
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

func publishedRows(t testing.TB) io.Reader {
	t.Helper()
	f, err := os.Open("testdata/epa_ev_rows.csv.gz")
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	z, err := gzip.NewReader(f)
	require.NoError(t, err)
	return z
}

// All 1 553 plug-in rows of the US fuel-economy vehicles file (makes and models
// replaced): each is a vehicle or a refusal that names line and column.
func TestEveryPublishedRowIsAVehicleOrARefusal(t *testing.T) {
	p := tables(t).Priors
	got, err := charging.ReadFuelEconomy(publishedRows(t), "vehicles.csv", p)
	require.NoError(t, err)
	rows, err := csv.NewReader(publishedRows(t)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1554)
	require.Equal(t, 1553, len(got.Listed)+len(got.Refused))
	require.Zero(t, got.Passed)
	t.Logf("%d vehicles, %d refusals", len(got.Listed), len(got.Refused))
	require.Less(t, len(got.Refused), 16, "hardly any row is refused")
	for _, f := range got.Refused {
		require.Equal(t, "vehicles.csv", f.File)
		require.NotZero(t, f.Line)
		require.NotEmpty(t, f.Field)
		require.NotEmpty(t, f.Accepted)
	}
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	byID := map[string]charging.Listed{}
	for _, l := range got.Listed {
		byID[l.ID] = l
	}
	refused := 0
	for _, r := range rows[1:] {
		l, there := byID["us-"+r[column["id"]]]
		if !there {
			refused++
			continue
		}
		number := func(name string) float64 {
			v, err := strconv.ParseFloat(r[column[name]], 64)
			require.NoError(t, err)
			return v
		}
		miles := number("range")
		if l.Petrol {
			miles = number("rangeA")
		}
		require.InDelta(t, number("combE"), float64(l.Consumption), 1e-9)
		require.InDelta(t, miles, float64(l.Range), 1e-9)
		require.Contains(t, l.Unsure(), "usable_kwh")
		require.Contains(t, l.Unsure(), "onboard_ac_kw")
		require.LessOrEqual(t, l.OnboardKW.Low, l.OnboardKW.Likely)
		require.LessOrEqual(t, l.OnboardKW.Likely, l.OnboardKW.High)
		if hours := number("charge240"); hours > 0 {
			// Power that range, consumption and time imply, within half a digit of
			// the time as it is printed.
			full, implied, err := charging.LabelFull(l.Range, l.Consumption, unit.Hours(hours))
			require.NoError(t, err)
			require.InDelta(t, float64(full), float64(l.WallFull), 1e-9)
			require.InDelta(t, float64(implied), float64(l.Average.Likely), 1e-9)
			half := 0.5
			for range len(r[column["charge240"]]) - strings.Index(r[column["charge240"]], ".") - 1 {
				half /= 10
			}
			require.InDelta(t, hours, float64(l.WallFull/unit.KilowattHours(l.Average.Low)), half+1e-9)
			require.InDelta(t, hours, float64(l.WallFull/unit.KilowattHours(l.Average.High)), half+1e-9)
		} else {
			require.Zero(t, l.Average)
		}
		v := l.Vehicle()
		require.Less(t, v.Usable, v.WallFull)
		rate, err := charging.Power(v.Limits(on(240, 60, 48)), nil)
		require.NoError(t, err)
		require.Greater(t, rate.Wall, unit.Kilowatts(0))
	}
	require.Equal(t, len(got.Refused), refused)

	all, err := tables(t).Vehicles.With(got.Vehicles())
	require.NoError(t, err)
	require.Len(t, all.List(), 14+len(got.Listed))
	found := all.Search("2018 modle 39589", 3)
	require.NotEmpty(t, found)
	require.Equal(t, "us-39589", found[0].Vehicle.ID)
	_, err = all.With(got.Vehicles()[:1])
	require.ErrorContains(t, err, "vehicle.id")
}

const ownHead = "id,label,class,kwh_per_100mi,electric_range_mi,petrol_backup,usable_kwh,onboard_ac_kw,dc_inlet,dc_peak_kw\n"

func TestOwnVehicleFile(t *testing.T) {
	p := tables(t).Priors
	got, err := charging.ReadVehicles(strings.NewReader("# ours\n"+ownHead+
		"a,whole row,Midsize Cars,27,328,no,79,11.5,J3400,250\n"+
		"b,bare row,Large Cars,30,300,no,,,,\n"+
		"c,hybrid,Compact Cars,27,44,yes,,,,\n"), "own.csv", p)
	require.NoError(t, err)
	require.Empty(t, got.Refused)
	require.Len(t, got.Listed, 3)
	require.Equal(t, []string{"onboard_ac_amps", "inlet"}, got.Listed[0].Unsure())
	require.Equal(t, unit.Kilowatts(11.5), got.Listed[0].OnboardKW.Likely)
	require.Equal(t, unit.KilowattHours(79), got.Listed[0].Vehicle().Usable)
	bare := got.Listed[1]
	require.Len(t, bare.Unsure(), 6)
	require.Equal(t, unit.Kilowatts(11), bare.OnboardKW.Likely) // Large Cars average 10.3 kW of about 10.7
	require.InDelta(t, 90/1.12, float64(bare.Usable.Likely), 0.01)
	require.Equal(t, "none", got.Listed[2].Vehicle().DCInlet)
	require.Zero(t, got.Listed[2].Vehicle().DCPeak)

	for row, field := range map[string]string{
		"a,x,,27,0,no,,,,":             "electric_range_mi",
		"a,x,,abc,300,no,,,,":          "kwh_per_100mi",
		"a,x,,NaN,300,no,,,,":          "kwh_per_100mi",
		"a,x,,1,300,no,,,,":            "kwh_per_100mi",
		"a,x,,27,300,perhaps,,,,":      "petrol_backup",
		"a,x,,27,300,no,10,,,":         "usable_kwh",
		"a,x,,27,300,no,,,none,50":     "dc_peak_kw",
		"a,x,,27,300,no,,,TypeX,":      "dc_inlet",
		"a,x,,27,300,no,,-3,,":         "onboard_ac_kw",
		",x,,27,300,no,,,,":            "id",
		"a,,,27,300,no,,,,":            "label",
		"a,x,,27,300":                  "",
		"a,x,,27,300,no,,,,,,,,,,,,,,": "",
	} {
		got, err := charging.ReadVehicles(strings.NewReader(ownHead+row+"\n"+"z,after it,,27,300,no,,,,\n"), "own.csv", p)
		require.NoError(t, err, row)
		require.Len(t, got.Refused, 1, row)
		require.Equal(t, field, got.Refused[0].Field, row)
		require.Equal(t, 2, got.Refused[0].Line, row)
		require.Len(t, got.Listed, 1, "the next row is read: %s", row)
	}
	twice, err := charging.ReadVehicles(strings.NewReader(ownHead+"a,x,,27,300,no,,,,\na,y,,27,300,no,,,,\n"), "own.csv", p)
	require.NoError(t, err)
	require.Len(t, twice.Refused, 1)
}

// endless generates a vehicle file without an end, in whole rows or none.
type endless struct{ row string }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = e.row[i%len(e.row)]
	}
	return len(p), nil
}

func TestBrokenVehicleFilesAreRefusedWhole(t *testing.T) {
	p := tables(t).Priors
	for name, c := range map[string]struct {
		from io.Reader
		want string
	}{
		"a NUL byte":     {strings.NewReader(ownHead + "a,x\x00,,27,300,no,,,,\n"), `own.csv:2: "a NUL byte"`},
		"no end":         {io.MultiReader(strings.NewReader(ownHead), &endless{"x"}), "at most 67108864 bytes"},
		"rows for ever":  {io.MultiReader(strings.NewReader(ownHead), &endless{"#" + strings.Repeat(" more", 2000) + "\n"}), "at most 67108864 bytes"},
		"no column":      {strings.NewReader("id,label\n"), "kwh_per_100mi"},
		"a column twice": {strings.NewReader("id,id\n"), "each column once"},
		"nothing":        {strings.NewReader(""), "own.csv"},
		"a bare quote":   {strings.NewReader(ownHead + "a,\"x,,27,300,no,,,,\n"), "own.csv"},
	} {
		_, err := charging.ReadVehicles(c.from, "own.csv", p)
		require.ErrorContains(t, err, c.want, name)
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid}, name)
	}
	_, err := charging.Load(with(t, "archetypes.csv", func(s string) string { return s + "\x00" }))
	require.ErrorContains(t, err, "a NUL byte")
	_, err = charging.Load(with(t, "season.csv", func(s string) string { return s + strings.Repeat("# more\n", 200000) }))
	require.ErrorContains(t, err, "at most 1048576 bytes")
	_, err = charging.Load(with(t, "classes.csv", func(s string) string { return strings.ReplaceAll(s, "any,no", "some,no") }))
	require.ErrorContains(t, err, "a row any")
}

func FuzzReadVehicles(f *testing.F) {
	f.Add(ownHead + "a,x,Midsize Cars,27,328,no,79,11.5,J3400,250\n")
	f.Add("id,year,make,model,VClass,atvType,range,rangeA,combE,charge240\n1,2020,M,N,Compact Cars,EV,200,0,30,8.0\n")
	f.Add("\ufeffid,\"\n")
	p := tables(f).Priors
	f.Fuzz(func(t *testing.T, raw string) {
		for _, read := range []func(io.Reader, string, charging.Priors) (charging.Import, error){charging.ReadVehicles, charging.ReadFuelEconomy} {
			got, err := read(strings.NewReader(raw), "f.csv", p)
			if err != nil {
				_, named := fault.As(err)
				require.True(t, named)
				continue
			}
			for _, l := range got.Listed {
				require.True(t, unit.Finite(l.OnboardKW.High) && unit.Finite(l.Usable.Low) && l.WallFull > 0)
			}
		}
	})
}

func BenchmarkImport(b *testing.B) {
	raw, err := io.ReadAll(publishedRows(b))
	require.NoError(b, err)
	p := tables(b).Priors
	b.SetBytes(int64(len(raw)))
	for b.Loop() {
		_, _ = charging.ReadFuelEconomy(strings.NewReader(string(raw)), "vehicles.csv", p)
	}
}
