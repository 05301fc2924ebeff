package inspector

import (
	"bytes"
	"embed"
	"io/fs"
	"sync"

	"daybreak/internal/fault"

	"go.yaml.in/yaml/v3"
)

// file is the name of the inspector's tables.
const file = "tables.yaml"

//go:embed tables.yaml
var embedded embed.FS

// Embedded returns the tables that ship with the program.
func Embedded() fs.FS { return embedded }

// cite is where a table is written, and how firmly that is known.
type cite struct {
	Section since[string] `yaml:"section"`
	Status  since[string] `yaml:"status"`
}

// tables is tables.yaml, checked.
type tables struct {
	Publication string `yaml:"publication"`
	Editions    []int  `yaml:"editions"`
	Devices     struct {
		cite `yaml:",inline"`
		Amps []float64 `yaml:"amps"`
	} `yaml:"devices"`
	Conductors struct {
		cite    `yaml:",inline"`
		Columns []string    `yaml:"columns"`
		Rows    []conductor `yaml:"rows"`
	} `yaml:"conductors"`
	Ambient struct {
		cite `yaml:",inline"`
		Rows [][4]float64 `yaml:"rows"`
	} `yaml:"ambient"`
	Air struct {
		cite    `yaml:",inline"`
		Usual   float64 `yaml:"usual"`
		Attic   float64 `yaml:"attic"`
		Outside float64 `yaml:"outside"`
	} `yaml:"air"`
	Small struct {
		cite `yaml:",inline"`
		Amps map[string]float64 `yaml:"amps"`
	} `yaml:"small_conductors"`
	Terminals struct {
		cite    `yaml:",inline"`
		SixtyTo float64 `yaml:"sixty_to_amps"`
	} `yaml:"terminals"`
	Cable struct {
		cite      `yaml:",inline"`
		Smallest  string `yaml:"smallest"`
		NMLargest string `yaml:"nm_largest"`
		UFLargest string `yaml:"uf_largest"`
	} `yaml:"cable"`
	CableGround struct {
		cite `yaml:",inline"`
		Size map[string]string `yaml:"size"`
	} `yaml:"cable_ground"`
	Ground struct {
		cite `yaml:",inline"`
		Rows []groundRow `yaml:"rows"`
	} `yaml:"ground"`
	Raceways struct {
		cite  `yaml:",inline"`
		Areas map[string]map[string]float64 `yaml:"areas"`
	} `yaml:"raceways"`
	Burial struct {
		cite    `yaml:",inline"`
		Cable   cover `yaml:"cable"`
		Metal   cover `yaml:"metal"`
		Plastic cover `yaml:"plastic"`
	} `yaml:"burial"`
	Fill struct {
		cite `yaml:",inline"`
		One  float64 `yaml:"one"`
		Two  float64 `yaml:"two"`
		More float64 `yaml:"more"`
	} `yaml:"fill"`
	Drop struct {
		cite    `yaml:",inline"`
		Percent float64 `yaml:"percent"`
	} `yaml:"drop"`
	Continuous struct {
		cite   `yaml:",inline"`
		Factor float64 `yaml:"factor"`
	} `yaml:"continuous"`
	Setting struct {
		cite   `yaml:",inline"`
		Counts since[string] `yaml:"counts"`
		Least  float64       `yaml:"least"`
	} `yaml:"setting"`
	PlugIn struct {
		cite `yaml:",inline"`
		Most float64 `yaml:"most"`
	} `yaml:"plug_in"`
	Disconnect struct {
		cite  `yaml:",inline"`
		Above since[float64] `yaml:"above"`
	} `yaml:"disconnect"`
	GroundFault struct {
		cite    `yaml:",inline"`
		Columns []string     `yaml:"columns"`
		Rows    []groundRule `yaml:"rows"`
	} `yaml:"ground_fault"`
	Receptacles struct {
		cite    `yaml:",inline"`
		Columns []string `yaml:"columns"`
		Rows    []face   `yaml:"rows"`
	} `yaml:"receptacles"`
	Individual struct {
		cite  `yaml:",inline"`
		Amps  since[float64] `yaml:"above_amps"`
		Volts since[float64] `yaml:"above_volts"`
	} `yaml:"individual"`
	Coupler struct {
		cite    `yaml:",inline"`
		Indoor  float64 `yaml:"indoor"`
		Outdoor float64 `yaml:"outdoor"`
	} `yaml:"coupler"`
	Weather struct {
		cite        `yaml:",inline"`
		ResistantTo since[float64] `yaml:"resistant_to"`
		TamperTo    float64        `yaml:"tamper_to"`
	} `yaml:"weather"`
	Choice struct {
		cite    `yaml:",inline"`
		Usual   float64 `yaml:"usual_most"`
		Managed float64 `yaml:"managed_most"`
		Grow    float64 `yaml:"grow_most"`
		Spare   float64 `yaml:"spare_share"`
	} `yaml:"choice"`
	Halts struct {
		cite `yaml:",inline"`
		When map[string][]string `yaml:"when"`
	} `yaml:"halts"`
	Outlets struct {
		cite      `yaml:",inline"`
		Stops     []string `yaml:"stops"`
		Loose     []string `yaml:"loose"`
		Ends      []string `yaml:"ends"`
		Cords     []string `yaml:"cords"`
		Shared    float64  `yaml:"shared_amps"`
		LightDuty float64  `yaml:"light_duty_amps"`
	} `yaml:"outlets"`
	Firm struct {
		cite    `yaml:",inline"`
		Circuit []string `yaml:"circuit"`
		Outlet  []string `yaml:"outlet"`
	} `yaml:"firm"`
	demand `yaml:",inline"`
}

// Open reads the tables and checks them whole. A fault names file, line and
// field.
func Open(fsys fs.FS) (*Inspector, error) {
	raw, err := fs.ReadFile(fsys, file)
	if err != nil {
		return nil, fault.InFile(file, 0, "file", err, "a readable file")
	}
	var t tables
	dec := yaml.NewDecoder(bytes.NewReader(raw))
	dec.KnownFields(true)
	if err := dec.Decode(&t); err != nil {
		return nil, fault.InFile(file, 0, "tables", err, "the tables as doc.go describes them")
	}
	if err := t.check(raw); err != nil {
		return nil, err
	}
	return &Inspector{tables: &t}, nil
}

// shipped are the embedded tables, opened once.
var shipped = sync.OnceValues(func() (*Inspector, error) { return Open(embedded) })
