package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/tariff"

	"github.com/stretchr/testify/require"
)

// TestImports holds what an import prints of files with good and bad rows, as a
// person reads it; -update rewrites it. The files are invented.
func TestImports(t *testing.T) {
	for name, args := range map[string][]string{
		"import-vehicles": {"import", "vehicles", "testdata/vehicles-us.csv"},
		"import-tariff":   {"import", "tariff", "testdata/rates.json"},
	} {
		t.Run(name, func(t *testing.T) {
			said := daybreak(t, "", args...)
			require.NoError(t, said.err)
			got := "$ daybreak " + strings.Join(args, " ") + "\n" + said.errs + said.out
			file := filepath.Join("testdata", name+".txt")
			if *update {
				require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, string(want), got, "run with -update and read what changed")
		})
	}
}

func TestAnImportIsReadBackAsItself(t *testing.T) {
	first := daybreak(t, "", "import", "vehicles", "testdata/vehicles-us.csv")
	again := daybreak(t, first.out, "import", "vehicles", "-")
	require.NoError(t, again.err)
	require.Equal(t, first.out, again.out)
	require.Equal(t, "daybreak: 2 vehicles, 0 refused\n", again.errs)
}

func TestAnImportedTariffStandsInAShop(t *testing.T) {
	dir := demoCopy(t)
	before := daybreak(t, "", "check", "--shop", dir)
	got := daybreak(t, "", "import", "tariff", "testdata/rates.json")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "tariffs", "9-imported.yaml"), []byte(got.out), 0o600))
	list, err := tariff.Load(os.DirFS(filepath.Join(dir, "tariffs")))
	require.NoError(t, err)
	last := list[len(list)-2:]
	require.Equal(t, "example-tou", last[0].Label)
	require.Equal(t, "example-flat", last[1].Label, "each document of a file is a tariff")
	checked := daybreak(t, "", "check", "--shop", dir)
	require.NoError(t, checked.err)
	require.NotEqual(t, before.out, checked.out, "the tariffs have another revision")
}

func TestImportsThatTakeNothing(t *testing.T) {
	const header = "id,label,kwh_per_100mi,electric_range_mi,petrol_backup\n"
	for name, c := range map[string]struct {
		kind, in string
		words    []string
	}{
		"a NUL byte among vehicles":     {"vehicles", header + "a,\x00", []string{"standard input:2", "NUL byte", "give text"}},
		"a NUL byte alone":              {"vehicles", "\x00", []string{"standard input:1", "NUL byte"}},
		"columns of neither file":       {"vehicles", "id,range\na,2\n", []string{"standard input:1: header", "atvType", "kwh_per_100mi"}},
		"a published column that lacks": {"vehicles", "id,atvType\n1,EV\n", []string{"standard input:1: year", "no such column", "charge240"}},
		"a column of ours that lacks":   {"vehicles", "id,kwh_per_100mi\n1,30\n", []string{"standard input:1: label", "no such column"}},
		"no text at all":                {"vehicles", "", []string{"standard input"}},
		"no row":                        {"vehicles", header, []string{"0 vehicles, 0 refused", "at least one row"}},
		"refused rows alone":            {"vehicles", header + "a,b,30,900000,no\n#b,c,30,200,no\n", []string{"standard input:2: electric_range_mi", "0 vehicles, 1 refused"}},
		"a published range of no car":   {"vehicles", "id,year,make,model,VClass,atvType,range,rangeA,combE,charge240\n1,2020,Example,Wren,c,Plug-in Hybrid,0,1,40,2\n2,2020,Example,Tern,c,EV,200,,4,8\n", []string{"standard input:2: rangeA: 1", "standard input:3: combE: 4", "0 vehicles, 2 refused"}},
		"a charge time of no car":       {"vehicles", "id,label,kwh_per_100mi,electric_range_mi,petrol_backup,charge240_h\na,b,30,200,no,1\n", []string{"standard input:2: charge240_h: 1"}},
		"a rate of another shape":       {"tariff", `[{"label":"a","utility":3}]`, []string{"standard input: items[0].utility", "a number"}},
		"a NUL byte in rates":           {"tariff", "{}\n\x00", []string{"standard input:2", "NUL byte"}},
		"rates that are no JSON":        {"tariff", "label: x", []string{"standard input:1", "utility-rate format"}},
		"no rates":                      {"tariff", "[]", []string{"0 tariffs", "at least one rate"}},
		"a rate without hours":          {"tariff", `{"label":"a","energyratestructure":[[{"rate":1}]]}`, []string{"standard input: items[0] a.energyweekdayschedule", "12 months"}},
		"a number that is none":         {"tariff", `[{"label":"a","energyratestructure":[[{"rate":1e999}]]}]`, []string{"standard input: items[0]"}},
	} {
		t.Run(name, func(t *testing.T) { refused(t, c.in, []string{"import", c.kind, "-"}, c.words...) })
	}
	refused(t, "", []string{"import", "cars"}, "cars is no command", "tariff, vehicles")
	for _, kind := range []string{"vehicles", "tariff"} {
		refused(t, "", []string{"import", kind}, "FILE", "0 files", "standard input")
		refused(t, "", []string{"import", kind, "a", "b"}, "2 files")
		refused(t, "", []string{"import", kind, "testdata/nowhere"}, "testdata/nowhere", "a readable file")
		refused(t, "", []string{"import", kind, "testdata"}, "testdata")
	}
}

// endless never ends.
type endless struct{ line string }

func (e endless) Read(p []byte) (int, error) {
	n := 0
	for n+len(e.line) <= len(p) {
		n += copy(p[n:], e.line)
	}
	if n == 0 {
		n = copy(p, e.line)
	}
	return n, nil
}

// torn breaks off.
type torn struct{}

func (torn) Read([]byte) (int, error) { return 0, errors.New("the line is torn") }

func TestAnEndlessOrTornReaderIsRefused(t *testing.T) {
	head := "id,label,kwh_per_100mi,electric_range_mi,petrol_backup\n"
	for _, c := range []struct {
		kind string
		in   io.Reader
		want string
	}{
		{"vehicles", endless{"x"}, "standard input:1: header"},
		{"vehicles", io.MultiReader(strings.NewReader(head), endless{"# x\n"}), "at most 67108864 bytes"},
		{"tariff", endless{" "}, "at most 1048576 bytes"},
		{"vehicles", torn{}, "the line is torn"},
		{"tariff", torn{}, "the line is torn"},
	} {
		var out, errs bytes.Buffer
		require.Error(t, run(t.Context(), []string{"import", c.kind, "-"}, c.in, &out, &errs))
		require.Empty(t, out.String())
		require.Contains(t, errs.String(), c.want)
	}
	require.Equal(t, 67108864, charging.MostImportBytes)
	require.Equal(t, 1048576, tariff.MostBytes)
}
