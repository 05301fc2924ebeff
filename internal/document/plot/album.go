package plot

import (
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"sync"

	"daybreak/internal/fault"
	"daybreak/internal/fault/datafile"
)

// Album holds every picture of one locale, drawn. It is read-only after
// [Load] and safe for concurrent use.
type Album struct {
	faces, inlets, bodies []picture
}

type picture struct {
	id, svg string
	says    Caption
}

// Caption is what stands under a picture.
type Caption struct {
	Shape string // what it looks like: "Three straight and one round"
	Trade string // trade name and what it gives: "Outlet 14-50, 50 amps, 240 volts."
	Note  string // "Shape only, not to scale." until verified; else ""
}

type caption struct {
	Title string `yaml:"title"`
	Desc  string `yaml:"desc"`
}

// with makes the title, the description and the caption of one picture; a
// note joins the description.
func (c caption) with(note string) (caption, Caption) {
	says := Caption{Shape: c.Title, Trade: c.Desc, Note: note}
	if note != "" {
		c.Desc += " " + note
	}
	return c, says
}

type wordsFile struct {
	Locale     string             `yaml:"locale"`
	Unverified string             `yaml:"unverified"`
	Faces      map[string]caption `yaml:"faces"`
	Inlets     map[string]caption `yaml:"inlets"`
	Bodies     map[string]caption `yaml:"bodies"`
}

// Load reads faces.yaml, shapes.yaml and words/<locale>.yaml and draws every
// picture once. A face without status, a shape that is on no list, a number
// out of the picture, a picture without words and an unknown field are faults
// with file and line.
func Load(fsys fs.FS, locale string) (*Album, error) {
	name := path.Join("words", locale+".yaml")
	var words wordsFile
	f, err := datafile.Open(fsys, name, &words)
	if err != nil {
		return nil, err
	}
	if words.Locale != locale || words.Unverified == "" {
		return nil, fault.InFile(name, 1, "locale", words.Locale, "the locale of the file's name, and the line for unverified faces")
	}
	a := &Album{}
	if err := a.drawFaces(fsys, &words, f); err != nil {
		return nil, err
	}
	if err := a.drawShapes(fsys, &words, f); err != nil {
		return nil, err
	}
	return a, nil
}

// english is the album that ships with the program, drawn when first asked for.
var english = sync.OnceValues(func() (*Album, error) { return Load(embedded, "en") })

// Face draws the receptacle with the given id, "14-50", as it looks from the
// front, and returns an SVG element with English words. False when there is no
// such face.
//
// Source: ANSI/NEMA WD 6, as far as faces.yaml says verified.
func Face(id string) (string, bool) { return fromEnglish(id, (*Album).Face) }

// Inlet draws the charge port of a vehicle: "j1772", "ccs1", "j3400" or
// "two_ports", with English words. False when there is no such inlet.
//
// Source: SAE J1772 and SAE J3400 for number and place of the contacts, from
// memory; shape only, not to scale.
func Inlet(id string) (string, bool) { return fromEnglish(id, (*Album).Inlet) }

// Body draws a vehicle from the side: "small", "mid", "big", "suv", "suv3",
// "pickup", "van", "phev_car" or "phev_suv", with English words. False when
// there is no such body.
func Body(id string) (string, bool) { return fromEnglish(id, (*Album).Body) }

func fromEnglish(id string, of func(*Album, string) (string, bool)) (string, bool) {
	a, err := english()
	if err != nil {
		return "", false
	}
	return of(a, id)
}

// Face is [Face] in the album's words.
func (a *Album) Face(id string) (string, bool) { return pick(a.faces, id) }

// Inlet is [Inlet] in the album's words.
func (a *Album) Inlet(id string) (string, bool) { return pick(a.inlets, id) }

// Body is [Body] in the album's words.
func (a *Album) Body(id string) (string, bool) { return pick(a.bodies, id) }

// FaceCaption gives the two lines under a face, and its note. False when there
// is no such face.
func (a *Album) FaceCaption(id string) (Caption, bool) {
	i := slices.IndexFunc(a.faces, func(p picture) bool { return p.id == id })
	if i < 0 {
		return Caption{}, false
	}
	return a.faces[i].says, true
}

// Faces lists the ids of every face, in the order of the file.
func (a *Album) Faces() []string { return ids(a.faces) }

// Inlets lists the ids of every inlet, in the order of the file.
func (a *Album) Inlets() []string { return ids(a.inlets) }

// Bodies lists the ids of every body, in the order of the file.
func (a *Album) Bodies() []string { return ids(a.bodies) }

func pick(from []picture, id string) (string, bool) {
	i := slices.IndexFunc(from, func(p picture) bool { return p.id == id })
	if i < 0 {
		return "", false
	}
	return from[i].svg, true
}

func ids(of []picture) []string {
	out := make([]string, len(of))
	for i, p := range of {
		out[i] = p.id
	}
	return out
}

// Prefixed gives the ids inside a picture a prefix, for a page that shows the
// same picture twice. The prefix may hold letters, digits and hyphens; any
// other is left out.
func Prefixed(svg, prefix string) string {
	prefix = strings.Map(func(r rune) rune {
		if r == '-' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			return r
		}
		return -1
	}, prefix)
	return idsInside.ReplaceAllString(svg, `${1}`+prefix+`-pic-`)
}

// idsInside finds where an id begins: in id="…" and, twice, in aria-labelledby.
var idsInside = regexp.MustCompile(`( id="|labelledby="|-t )pic-`)
