package plot

import (
	"io/fs"
	"regexp"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/fault/datafile"
)

type inletRow struct {
	ID      string       `yaml:"id"`
	View    [2]float64   `yaml:"view"`
	Outline []string     `yaml:"outline"`
	Holes   [][3]float64 `yaml:"holes"`
}

type bodyRow struct {
	ID     string       `yaml:"id"`
	View   [2]float64   `yaml:"view"`
	Body   string       `yaml:"body"`
	Glass  []string     `yaml:"glass"`
	Wheels [][3]float64 `yaml:"wheels"`
	Mark   bool         `yaml:"mark"`
}

type shapeFile struct {
	Publication string     `yaml:"publication"`
	Status      string     `yaml:"status"`
	Unit        string     `yaml:"unit"`
	Inlets      []inletRow `yaml:"inlets"`
	Bodies      []bodyRow  `yaml:"bodies"`
}

// pathForm is what a path of shapes.yaml may hold.
var pathForm = regexp.MustCompile(`^M[MmHhVvLlAaQqTtCcSsZz0-9 .,-]+$`)

func (a *Album) drawShapes(fsys fs.FS, words *wordsFile, wf *datafile.File) error {
	const name = "shapes.yaml"
	var doc shapeFile
	f, err := datafile.Open(fsys, name, &doc)
	if err != nil {
		return err
	}
	if doc.Publication == "" || doc.Status == "" || doc.Unit == "" {
		return fault.InFile(name, 1, "publication", doc.Publication, "a publication, a status and a unit")
	}
	for i, row := range doc.Inlets {
		if row.ID == "" || !drawable(row.View, row.Outline, row.Holes) {
			return fault.InFile(name, f.Line("inlets", i), "inlets", row.ID, "an id, a view, paths and holes inside the view")
		}
		says, ok := words.Inlets[row.ID]
		if !ok || says.Title == "" || says.Desc == "" {
			return fault.InFile(wf.Name, 1, "inlets", row.ID, "a title and a description for each inlet")
		}
		says, below := says.with(words.Unverified)
		a.inlets = append(a.inlets, picture{row.ID, element("inlet", row.ID, 0, 0, row.View[0], row.View[1], says,
			lines(row.Outline, "1.6")+discs(row.Holes)), below})
	}
	for i, row := range doc.Bodies {
		if row.ID == "" || !drawable(row.View, append([]string{row.Body}, row.Glass...), row.Wheels) {
			return fault.InFile(name, f.Line("bodies", i), "bodies", row.ID, "an id, a view, paths and wheels inside the view")
		}
		says, ok := words.Bodies[row.ID]
		if !ok || says.Title == "" || says.Desc == "" {
			return fault.InFile(wf.Name, 1, "bodies", row.ID, "a title and a description for each body")
		}
		drawing := lines([]string{row.Body}, "2.4") + lines(row.Glass, "1.6") + discs(row.Wheels)
		if row.Mark {
			drawing += mark
		}
		says, below := says.with("")
		a.bodies = append(a.bodies, picture{row.ID, element("body", row.ID, 0, 0, row.View[0], row.View[1], says, drawing), below})
	}
	return nil
}

// mark is a plug and a drop of fuel, above the car.
var mark = lines([]string{"M8 2v5M14 2v5", "M11 13v4"}, "1.6") +
	tag("path", "d", "M6 7h10v2a5 5 0 0 1-10 0z", "fill", "currentColor") +
	tag("path", "d", "M109 2q5 7 5 10a5 5 0 0 1-10 0q0-3 5-10z", "fill", "currentColor")

func drawable(view [2]float64, paths []string, discs [][3]float64) bool {
	if !(view[0] > 0 && view[0] <= 400 && view[1] > 0 && view[1] <= 400) || len(paths) == 0 || len(discs) == 0 {
		return false
	}
	for _, p := range paths {
		if !pathForm.MatchString(p) || len(p) > 2000 {
			return false
		}
	}
	for _, d := range discs {
		if !(d[2] > 0 && d[0]-d[2] >= 0 && d[0]+d[2] <= view[0] && d[1]-d[2] >= 0 && d[1]+d[2] <= view[1]) {
			return false
		}
	}
	return true
}

func lines(paths []string, width string) string {
	var b strings.Builder
	for _, d := range paths {
		b.WriteString(tag("path", "d", d, "stroke", "currentColor", "stroke-width", width, "stroke-linejoin", "round", "stroke-linecap", "round"))
	}
	return b.String()
}

func discs(list [][3]float64) string {
	var b strings.Builder
	for _, d := range list {
		b.WriteString(tag("circle", "cx", millimetres(d[0]), "cy", millimetres(d[1]), "r", millimetres(d[2]), "fill", "currentColor"))
	}
	return b.String()
}
