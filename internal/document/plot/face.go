package plot

import (
	"io/fs"
	"math"
	"slices"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/fault/datafile"
)

const (
	perInch = 25.4 // millimetres, exact
	// faceView is the side of a face's view in millimetres: the largest round
	// face, 2.12 in, with a margin. Every face has the same, so sizes compare.
	faceView = 60.0
	stroke   = 0.6 // of the face's edge
)

type slotRow struct {
	Role      string  `yaml:"role"`
	Shape     string  `yaml:"shape"`
	X         float64 `yaml:"x"`
	Y         float64 `yaml:"y"`
	W         float64 `yaml:"w"`
	H         float64 `yaml:"h"`
	D         float64 `yaml:"d"`
	Angle     float64 `yaml:"angle_deg"`
	Leg       string  `yaml:"leg"`
	Reach     float64 `yaml:"reach"`
	Radius    float64 `yaml:"radius"`
	Thickness float64 `yaml:"thickness"`
	From      float64 `yaml:"from"`
	To        float64 `yaml:"to"`
	Hook      float64 `yaml:"hook"`
}

type faceRow struct {
	ID          string  `yaml:"id"`
	Status      string  `yaml:"status"`
	Uncertainty float64 `yaml:"uncertainty_in"`
	Outline     struct {
		Kind string  `yaml:"kind"`
		D    float64 `yaml:"d"`
		W    float64 `yaml:"w"`
		H    float64 `yaml:"h"`
	} `yaml:"outline"`
	Turned  bool    `yaml:"turned"`
	Twice   float64 `yaml:"twice"`
	Buttons struct {
		W float64 `yaml:"w"`
		H float64 `yaml:"h"`
		Y float64 `yaml:"y"`
	} `yaml:"buttons"`
	Slots []slotRow `yaml:"slots"`
}

type faceFile struct {
	Publication string    `yaml:"publication"`
	Unit        string    `yaml:"unit"`
	Faces       []faceRow `yaml:"faces"`
}

func (a *Album) drawFaces(fsys fs.FS, words *wordsFile, wf *datafile.File) error {
	const name = "faces.yaml"
	var doc faceFile
	f, err := datafile.Open(fsys, name, &doc)
	if err != nil {
		return err
	}
	if doc.Publication == "" || doc.Unit != "in" || len(doc.Faces) == 0 {
		return fault.InFile(name, 1, "publication", doc.Publication, "a publication, unit in and faces")
	}
	for i := range doc.Faces {
		row := &doc.Faces[i]
		if got, accepted := row.trouble(); accepted != "" {
			return fault.InFile(name, f.Line("faces", i), "faces", got, accepted)
		}
		if _, twice := pick(a.faces, row.ID); twice {
			return fault.InFile(name, f.Line("faces", i), "id", row.ID, "each face once")
		}
		says, ok := words.Faces[row.ID]
		if !ok || says.Title == "" || says.Desc == "" {
			return fault.InFile(wf.Name, 1, "faces", row.ID, "a title and a description for each face")
		}
		note := words.Unverified
		if row.Status == "verified" {
			note = ""
		}
		says, below := says.with(note)
		a.faces = append(a.faces, picture{row.ID, row.svg(says), below})
	}
	return nil
}

func (r *faceRow) trouble() (got any, accepted string) {
	o := r.Outline
	within := func(v float64) bool { return v > 0 && v <= 3 }
	switch {
	case r.ID == "":
		return "nothing", "an id"
	case r.Status != "verified" && r.Status != "from memory":
		return r.Status, "verified or from memory"
	case !(r.Uncertainty > 0 && r.Uncertainty < 1):
		return r.Uncertainty, "an uncertainty in inches"
	case o.Kind == "round" && !within(o.D), (o.Kind == "cut" || o.Kind == "box") && (!within(o.W) || !within(o.H)), o.Kind == "cut" && o.H > o.W:
		return o, "a size in inches"
	case !slices.Contains([]string{"round", "cut", "box"}, o.Kind):
		return o.Kind, "round, cut or box"
	case len(r.Slots) < 2 || len(r.Slots) > 4:
		return len(r.Slots), "two to four slots"
	case !(r.Twice >= 0 && r.Twice < 2) || !(r.Buttons.W >= 0 && r.Buttons.H >= 0 && r.Buttons.Y >= 0):
		return r.Twice, "a distance in inches"
	}
	for _, s := range r.Slots {
		if accepted := s.trouble(); accepted != "" {
			return r.ID + ": " + s.Role + " " + s.Shape, accepted
		}
	}
	return nil, ""
}

func (s *slotRow) trouble() (accepted string) {
	legs := slices.Contains([]string{"left", "right", "up"}, s.Leg) && s.Reach > 0 && s.Reach < 1
	size := s.W > 0 && s.W < 1 && s.H > 0 && s.H < 1
	switch {
	case !slices.Contains([]string{"line", "neutral", "ground"}, s.Role):
		return "line, neutral or ground"
	case !(math.Abs(s.X) < 2 && math.Abs(s.Y) < 2 && math.Abs(s.Angle) < 180):
		return "a place on the face"
	}
	switch s.Shape {
	case "straight", "D", "U":
		if !size {
			return "a width and a height in inches"
		}
	case "T", "L":
		if !size || !legs {
			return "a width, a height, a leg and its reach"
		}
	case "round":
		if !(s.D > 0 && s.D < 1) {
			return "a diameter in inches"
		}
	case "arc":
		if !(s.Radius > 0 && s.Radius < 2 && s.Thickness > 0 && s.Thickness < s.Radius && s.From < s.To && s.To-s.From < 360 && s.From > -360 && s.Hook >= 0 && s.Hook < s.Radius) {
			return "radius, thickness, from and to"
		}
	default:
		return "straight, T, L, D, U, round or arc"
	}
	return ""
}

func (r *faceRow) svg(says caption) string {
	var b strings.Builder
	b.WriteString(r.edge())
	side := faceView
	if r.Twice == 0 {
		b.WriteString(r.openings(0))
	} else {
		side = max(side, r.Outline.H*perInch+6)
		b.WriteString(r.openings(r.Twice))
		b.WriteString(r.openings(-r.Twice))
		for _, at := range []float64{r.Buttons.Y, -r.Buttons.Y} {
			b.WriteString(tag("rect", "x", mm(-r.Buttons.W/2), "y", mm(at-r.Buttons.H/2), "width", mm(r.Buttons.W), "height", mm(r.Buttons.H),
				"rx", "0.8", "stroke", "currentColor", "stroke-width", "1"))
		}
	}
	return element("face", r.ID, -side/2, -side/2, side, side, says, b.String())
}

// mm prints a length given in inches.
func mm(inches float64) string { return millimetres(inches * perInch) }

// edge is the outline of the face.
func (r *faceRow) edge() string {
	o := r.Outline
	line := []string{"class", "db-edge", "stroke", "currentColor", "stroke-width", millimetres(stroke)}
	switch o.Kind {
	case "box":
		return tag("rect", append([]string{"x", mm(-o.W / 2), "y", mm(-o.H / 2), "width", mm(o.W), "height", mm(o.H), "rx", "2"}, line...)...)
	case "cut":
		// A circle of the face's width, cut flat at top and bottom.
		x := math.Sqrt(o.W*o.W-o.H*o.H) / 2
		d := "M" + mm(-x) + " " + mm(-o.H/2) + "H" + mm(x) + "A" + mm(o.W/2) + " " + mm(o.W/2) + " 0 0 1 " + mm(x) + " " + mm(o.H/2) +
			"H" + mm(-x) + "A" + mm(o.W/2) + " " + mm(o.W/2) + " 0 0 1 " + mm(-x) + " " + mm(-o.H/2) + "Z"
		return tag("path", append([]string{"d", d}, line...)...)
	}
	return tag("circle", append([]string{"r", mm(o.D / 2)}, line...)...)
}

// openings are the slots, filled with ink, that far above the middle.
func (r *faceRow) openings(above float64) string {
	move := ""
	if above != 0 {
		move = "translate(0 " + mm(-above) + ")"
	}
	if r.Turned {
		move = strings.TrimSpace(move + " rotate(180)")
	}
	var b strings.Builder
	b.WriteString(`<g fill="currentColor"`)
	if move != "" {
		b.WriteString(` transform="` + move + `"`)
	}
	b.WriteString(">")
	for i := range r.Slots {
		b.WriteString(r.Slots[i].svg())
	}
	b.WriteString("</g>")
	return b.String()
}
