package circuit_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/unit"
	"daybreak/internal/working"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the printed designs of testdata/circuits")

// TestCircuitSheets reads each sheet: lines of input, a rule, and the design as
// an electrician would read it. With -update the design is printed anew.
func TestCircuitSheets(t *testing.T) {
	files, err := filepath.Glob("testdata/circuits/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	words, err := working.LoadWords(working.Embedded(), "en")
	require.NoError(t, err)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			raw, err := os.ReadFile(file)
			require.NoError(t, err)
			head, want, _ := strings.Cut(string(raw), "\n---\n")
			head = strings.TrimSuffix(head, "\n")
			year, job := readJob(t, head)
			var sheet working.Sheet
			r, err := circuit.Design(book(t, year), job, &sheet)
			require.NoError(t, err)
			keep(t, file, head, want, printDesign(&r, &sheet, words))
		})
	}
}

func keep(t *testing.T, file, head, want, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(head+"\n---\n"+got), 0o644))
		return
	}
	require.Equal(t, want, got, "run with -update and read the difference as prose")
}

func readJob(t *testing.T, head string) (year int, job circuit.Job) {
	job = plainJob(0)
	job.Route = circuit.Route{}
	for _, line := range strings.Split(head, "\n") {
		key, value, _ := strings.Cut(line, " ")
		value = strings.TrimSpace(value)
		number := func() float64 {
			x, err := strconv.ParseFloat(strings.Fields(value)[0], 64)
			require.NoError(t, err, line)
			return x
		}
		switch key {
		case "#", "":
		case "edition":
			year = int(number())
		case "setting":
			job.Setting = unit.Amps(number())
		case "plate":
			job.Rating = unit.Amps(number())
		case "volts":
			job.Volts = unit.Volts(number())
		case "means":
			job.Means = pick(t, value, map[string]edition.SettingMeans{"plate": edition.RatingPlate, "restricted": edition.RestrictedAccess, "app": edition.AppSlider})
		case "held":
			job.Fastening = pick(t, value, map[string]edition.Fastening{"fixed": edition.FixedInPlace, "cord": edition.CordConnected})
		case "connection":
			job.Connection = pick(t, value, map[string]circuit.Connection{"any": circuit.AnyConnection, "receptacle": circuit.WantReceptacle, "hardwired": circuit.WantHardwired})
		case "plug":
			job.Plug = value
		case "place":
			job.Place = pick(t, value, places)
		case "terminals":
			job.Terminals = pick(t, value, map[string]edition.Marking{"unmarked": edition.Unmarked, "75": edition.Marked75})
		case "ambient":
			job.Ambient = unit.Celsius(number())
		case "concrete":
			job.Concrete = pick(t, value, map[string]bool{"yes": true, "no": false})
		case "methods":
			for _, m := range strings.Fields(value) {
				job.Methods |= pick(t, m, map[string]circuit.MethodSet{"nm": circuit.UseNMB, "emt": circuit.UseEMT, "pvc": circuit.UsePVC, "uf": circuit.UseUFB, "rmc": circuit.UseRMC,
					"mc": circuit.UseMC, "xhhw": circuit.UseXHHW2})
			}
		case "building":
			job.Structure = pick(t, value, map[string]circuit.Structure{"same": circuit.SameStructure, "unfed": circuit.UnfedStructure, "fed": circuit.SuppliedAlready})
		case "whip":
			job.Whip = unit.Feet(number())
		case "separations":
			job.Separations = int(number())
		case "roof":
			job.OverRoof, job.RoofGap = true, unit.Inches(number())
		case "shared":
			job.OtherCurrentCarrying = int(number())
		case "wire":
			size, err := book(t, 2023).SizeNamed(value)
			require.NoError(t, err)
			job.Hot = size
		case "feeder":
			job.FeederPercent = number()
		case "route":
			readRoute(t, value, &job.Route)
		default:
			t.Fatalf("no such line: %s", line)
		}
	}
	return year, job
}

// readRoute reads "panel 5, open 20, trench 40 under drive through gravel
// deepest 12, charger 4" in feet; "deepest" is the most cover to be had, in
// inches.
func readRoute(t *testing.T, value string, r *circuit.Route) {
	kinds := map[string]circuit.SegmentKind{"open": circuit.OpenFraming, "fished": circuit.Fished, "attic": circuit.Attic, "crawl": circuit.CrawlSpace,
		"surface": circuit.Surface, "outside": circuit.Outside, "trench": circuit.Trench}
	for _, part := range strings.Split(value, ",") {
		f := strings.Fields(part)
		feet, err := strconv.ParseFloat(f[1], 64)
		require.NoError(t, err)
		switch f[0] {
		case "panel":
			r.PanelDrop = unit.Feet(feet)
		case "charger":
			r.DeviceDrop = unit.Feet(feet)
		default:
			s := circuit.Segment{Kind: pick(t, f[0], kinds), Feet: unit.Feet(feet)}
			for i := 2; i+1 < len(f); i += 2 {
				switch f[i] {
				case "under":
					s.Over = pick(t, f[i+1], overs)
				case "through":
					s.Ground = pick(t, f[i+1], grounds)
				case "deepest":
					deep, err := strconv.ParseFloat(f[i+1], 64)
					require.NoError(t, err)
					s.DeepestCover = unit.Inches(deep)
				}
			}
			r.Segments = append(r.Segments, s)
		}
	}
}

var (
	overs = map[string]edition.Burial{"ground": edition.GeneralBurial, "drive": edition.UnderDwellingDrive, "slab": edition.UnderExteriorSlab,
		"building": edition.UnderBuilding, "street": edition.UnderStreet}
	grounds = map[string]circuit.Ground{"lawn": circuit.Lawn, "bed": circuit.Bed, "gravel": circuit.Gravel, "pavers": circuit.Pavers,
		"concrete": circuit.ConcreteSlab, "asphalt": circuit.Asphalt}
)

func pick[T any](t *testing.T, word string, list map[string]T) T {
	v, ok := list[word]
	require.True(t, ok, "no word %q", word)
	return v
}

func printDesign(r *circuit.Result, sheet *working.Sheet, words *working.Words) string {
	var b strings.Builder
	line := func(label, format string, args ...any) {
		fmt.Fprintf(&b, "%-12s %s\n", label, fmt.Sprintf(format, args...))
	}
	switch r.Outcome {
	case circuit.Designed:
		printCircuit(line, r)
	case circuit.NotServed:
		line("not served", "%s", r.Reason)
	case circuit.Impossible:
		line("impossible", "%s", r.Reason)
		would := []string{}
		for _, w := range r.WouldDo {
			would = append(would, w.String())
		}
		line("would do", "%s", strings.Join(would, "; "))
		if r.MostHere > 0 {
			line("most here", "%v A", r.MostHere)
		}
	}
	for _, n := range r.Notes {
		line("note", "%s", n)
	}
	printRest(&b, r.Candidates, r.Losers, sheet, words, &r.Takeoff)
	return b.String()
}

func printRest(b *strings.Builder, candidates, losers []circuit.Candidate, sheet *working.Sheet, words *working.Words, take *circuit.Takeoff) {
	if len(losers) > 0 {
		fmt.Fprintln(b, "\nweighed and left")
		for i := range losers {
			c := &losers[i]
			fmt.Fprintf(b, "  %s: %s\n", c.Wiring(), strings.Join(c.Fails.Words(), ", "))
		}
	}
	if len(candidates) > 1 {
		fmt.Fprintln(b, "\nwould do as well, by material")
		for i := range candidates[1:] {
			fmt.Fprintf(b, "  %s, drop %.2f %%\n", candidates[i+1].Wiring(), candidates[i+1].DropPercent)
		}
	}
	fmt.Fprintln(b, "\nworking")
	for _, s := range sheet.Steps {
		source := ""
		if s.Source != nil {
			source = fmt.Sprintf("   [%s %s; %s]", s.Source.Publication, s.Source.Section, s.Source.Status)
		}
		fmt.Fprintf(b, "  %s%s\n", words.Formula(s), source)
	}
	if len(take.Needs) > 0 {
		fmt.Fprintln(b, "\ntake-off, before allowances")
		for i := range take.Needs {
			fmt.Fprintf(b, "  %s\n", &take.Needs[i])
		}
	}
}

func printCircuit(line func(string, string, ...any), r *circuit.Result) {
	gfci := ""
	if r.GFCI {
		gfci = ", GFCI"
	}
	line("breaker", "%v A %d-pole%s, for a load of %v A", r.Device, r.Poles, gfci, r.Load)
	for i := range r.Chosen.Parts {
		if p := &r.Chosen.Parts[i]; p.Method != 0 {
			line("wiring", "%s, %v ft; ampacity %.4g A, terminals %v A", p, p.Feet, float64(p.Ampacity), p.Terminals)
		}
	}
	line("drop", "%.2f V, %.2f %%", float64(r.Chosen.DropVolts), r.Chosen.DropPercent)
	if r.Hardwired {
		line("charger", "hardwired")
	} else {
		rec := r.Receptacle
		extra := ""
		if rec.TamperResistant {
			extra += ", tamper-resistant"
		}
		if rec.WeatherResistant {
			extra += ", weather-resistant"
		}
		if rec.InUseCover {
			extra += ", in-use cover"
		}
		line("charger", "%s receptacle%s", rec.Config, extra)
	}
	line("disconnect", "%v", map[bool]string{true: "yes, at the charger", false: "not required"}[r.Disconnect])
	if r.StructureDisconnect {
		line("building", "a disconnect where the circuit reaches it, no ground rod")
	}
	line("connector", "stored at least %v in high", r.Coupler)
}
