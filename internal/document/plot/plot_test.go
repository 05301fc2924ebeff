package plot_test

import (
	"encoding/xml"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"daybreak/internal/circuit/outlet"
	"daybreak/internal/document/plot"
	"daybreak/internal/fault"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the golden pictures")

func Example() {
	svg, ok := plot.Face("14-50")
	fmt.Println(ok, strings.Contains(svg, "Three straight and one round"))
	// Output: true true
}

func album(t testing.TB) *plot.Album {
	a, err := plot.Load(plot.Embedded(), "en")
	require.NoError(t, err)
	return a
}

// all gives every picture by kind and id.
func all(t testing.TB) map[string]string {
	a, out := album(t), map[string]string{}
	for _, id := range a.Faces() {
		out["face "+id], _ = a.Face(id)
	}
	for _, id := range a.Inlets() {
		out["inlet "+id], _ = a.Inlet(id)
	}
	for _, id := range a.Bodies() {
		out["body "+id], _ = a.Body(id)
	}
	return out
}

// The pictures as last looked at; -update rewrites them, and then somebody
// looks again.
func TestPicturesAreAsLookedAt(t *testing.T) {
	a := album(t)
	var b strings.Builder
	pics := all(t)
	for _, id := range a.Faces() {
		fmt.Fprintf(&b, "face %s\n%s\n", id, pics["face "+id])
	}
	for _, id := range a.Inlets() {
		fmt.Fprintf(&b, "inlet %s\n%s\n", id, pics["inlet "+id])
	}
	for _, id := range a.Bodies() {
		fmt.Fprintf(&b, "body %s\n%s\n", id, pics["body "+id])
	}
	const name = "testdata/pictures.golden"
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(name, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, string(want), b.String(), "look at the pictures, then run with -update")
}

func TestAFaceHasItsTwoLines(t *testing.T) {
	says, ok := album(t).FaceCaption("14-30")
	require.True(t, ok)
	require.Equal(t, plot.Caption{Shape: "Two straight, one L, one round", Trade: "Outlet 14-30, 30 amps, 240 volts.", Note: "Shape only, not to scale."}, says)
}

func TestEveryReceptacleHasAFace(t *testing.T) {
	var ids []string
	for _, r := range outlet.Receptacles() {
		ids = append(ids, r.ID)
	}
	require.ElementsMatch(t, ids, album(t).Faces())
	_, ok := plot.Face("14-51")
	require.False(t, ok)
}

// The ids are the choices of the questions on the car's port and size.
func TestEveryPortAndSizeIsDrawn(t *testing.T) {
	a := album(t)
	require.Equal(t, []string{"j1772", "ccs1", "j3400", "two_ports"}, a.Inlets())
	require.Equal(t, []string{"small", "mid", "big", "suv", "suv3", "pickup", "van", "phev_car", "phev_suv"}, a.Bodies())
	for _, id := range a.Inlets() {
		_, ok := plot.Inlet(id)
		require.True(t, ok)
	}
	for _, id := range a.Bodies() {
		_, ok := plot.Body(id)
		require.True(t, ok)
	}
}

func TestPicturesAreWhatAPageMayShow(t *testing.T) {
	seen := map[string]bool{}
	for name, svg := range all(t) {
		dec := xml.NewDecoder(strings.NewReader(svg))
		for {
			token, err := dec.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err, name)
			if e, ok := token.(xml.StartElement); ok {
				require.Contains(t, []string{"svg", "title", "desc", "g", "path", "circle", "rect"}, e.Name.Local, name)
				for _, a := range e.Attr {
					require.NotContains(t, []string{"style", "href", "onclick"}, a.Name.Local, name)
					if a.Name.Local == "fill" || a.Name.Local == "stroke" {
						require.Contains(t, []string{"none", "currentColor"}, a.Value, name)
					}
				}
			}
		}
		require.Contains(t, svg, `role="img"`, name)
		ids := regexp.MustCompile(` id="([^"]+)"`).FindAllStringSubmatch(svg, -1)
		require.Len(t, ids, 2, name)
		require.Contains(t, svg, `aria-labelledby="`+ids[0][1]+" "+ids[1][1]+`"`, name)
		for _, m := range ids {
			require.False(t, seen[m[1]], "%s twice", m[1])
			seen[m[1]] = true
			require.NotContains(t, m[1], " ", name)
		}
		twin := plot.Prefixed(svg, `b"<`)
		require.Contains(t, twin, `id="b-`+ids[0][1]+`"`, name)
		require.Contains(t, twin, `aria-labelledby="b-`+ids[0][1]+" b-"+ids[1][1]+`"`, name)
	}
}

// A face that was not verified says so, in words a reader hears.
func TestUnverifiedFacesSaySo(t *testing.T) {
	for name, svg := range all(t) {
		verified := map[string]bool{"face 5-15": true, "face 1-15": true, "face 5-20": true, "face L6-20": true}[name]
		drawing := strings.HasPrefix(name, "body")
		require.Equal(t, !verified && !drawing, strings.Contains(svg, "Shape only, not to scale."), name)
	}
}

// ANSI/NEMA WD 6: 5-15 slots 0.500 in apart (12.7 mm), the ground 0.468 in
// (11.9 mm) below their line.
func TestTheOrdinaryFaceIsToScale(t *testing.T) {
	svg, _ := plot.Face("5-15")
	require.Contains(t, svg, `viewBox="-30 -30 60 60"`)
	require.Contains(t, svg, "M-7.3 ", "left slot, 1.905 mm wide, centre at -6.35")
	require.Contains(t, svg, "M5.4 ", "right slot, centre at 6.35")
}

func TestBrokenFilesAreNamedByLine(t *testing.T) {
	whole := func() fstest.MapFS {
		out := fstest.MapFS{}
		for _, name := range []string{"faces.yaml", "shapes.yaml", "words/en.yaml"} {
			raw, err := fs.ReadFile(plot.Embedded(), name)
			require.NoError(t, err)
			out[name] = &fstest.MapFile{Data: raw}
		}
		return out
	}
	for _, c := range []struct{ file, old, new, wants string }{
		{"faces.yaml", "status: verified", "status: guessed", "guessed"},
		{"faces.yaml", "shape: straight", "shape: bent", "bent"},
		{"faces.yaml", "role: line", "role: hot", "hot"},
		{"faces.yaml", "kind: cut", "kind: star", "star"},
		{"faces.yaml", "{kind: round, d: 1.9}", "{kind: round, d: 190}", "size"},
		{"faces.yaml", "x: -0.25", "x: .nan", "place"},
		{"faces.yaml", "leg: left, reach: 0.29", "leg: down, reach: 0.29", "leg"},
		{"faces.yaml", "from: 28, to: 85", "from: 85, to: 28", "from and to"},
		{"faces.yaml", `id: "1-15"`, `id: "5-15"`, "once"},
		{"faces.yaml", "uncertainty_in: 0.005", "uncertain: 0.005", "uncertain"},
		{"shapes.yaml", "view: [60, 60]", "view: [0, 60]", "view"},
		{"shapes.yaml", "M30 6a24", "<script>", "paths"},
		{"shapes.yaml", "[21.5, 22.5, 4.4]", "[21.5, 22.5, 44]", "inside"},
		{"shapes.yaml", "status: from memory", "state: from memory", "state"},
		{"words/en.yaml", "locale: en", "locale: fr", "locale"},
		{"words/en.yaml", `"14-50":`, `"14-55":`, "14-50"},
		{"words/en.yaml", "  j1772:", "  j177:", "j1772"},
		{"words/en.yaml", "  van:", "  bus:", "van"},
	} {
		broken := whole()
		text := string(broken[c.file].Data)
		require.Contains(t, text, c.old)
		broken[c.file] = &fstest.MapFile{Data: []byte(strings.Replace(text, c.old, c.new, 1))}
		_, err := plot.Load(broken, "en")
		f, ok := fault.As(err)
		require.True(t, ok, "%s: %v", c.new, err)
		require.Positive(t, f.Line, c.new)
		require.ErrorContains(t, err, c.wants)
	}
	_, err := plot.Load(fstest.MapFS{}, "en")
	require.ErrorContains(t, err, "words/en.yaml")
}

func FuzzLoad(f *testing.F) {
	read := func(name string) []byte {
		raw, err := fs.ReadFile(plot.Embedded(), name)
		require.NoError(f, err)
		return raw
	}
	f.Add(read("faces.yaml"), read("shapes.yaml"), read("words/en.yaml"))
	f.Add([]byte("faces: [{}]"), []byte("inlets: [{}]"), []byte("locale: en"))
	f.Fuzz(func(t *testing.T, faces, shapes, words []byte) {
		a, err := plot.Load(fstest.MapFS{"faces.yaml": {Data: faces}, "shapes.yaml": {Data: shapes}, "words/en.yaml": {Data: words}}, "en")
		require.Equal(t, err == nil, a != nil)
	})
}
