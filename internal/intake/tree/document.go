package tree

import (
	"bytes"
	"fmt"
	"io/fs"
	"regexp"
	"strconv"

	"daybreak/internal/fault"

	"go.yaml.in/yaml/v3"
)

// The shape of questions.yaml, as it is written.
type (
	treeDoc struct {
		Version        int                `yaml:"version"`
		Order          orderDoc           `yaml:"order"`
		Questions      []questionDoc      `yaml:"questions"`
		Unasked        []unaskedDoc       `yaml:"unasked"`
		Contradictions []contradictionDoc `yaml:"contradictions"`
	}
	orderDoc struct {
		Gates     []gateDoc           `yaml:"gates"`
		Blocks    map[string][]string `yaml:"blocks"`
		Scripted  []string            `yaml:"scripted"`
		DrawFirst []string            `yaml:"draw_first"`
	}
	gateDoc struct {
		Question    string   `yaml:"question"`
		AmongFirst  int      `yaml:"among_first"`
		Before      []string `yaml:"before"`
		BeforeRooms []string `yaml:"before_rooms"`
	}
	questionDoc struct {
		ID         string      `yaml:"id"`
		Sets       []string    `yaml:"sets"`
		When       string      `yaml:"when"`
		Kind       string      `yaml:"kind"`
		AlsoNumber bool        `yaml:"also_number"`
		Unit       string      `yaml:"unit"`
		Accepts    []string    `yaml:"accepts"`
		Limits     *limitsDoc  `yaml:"limits"`
		Choices    []choiceDoc `yaml:"choices"`
		Unsure     *unsureDoc  `yaml:"unsure"`
		Raises     []raiseDoc  `yaml:"raises"`
		Effort     effortDoc   `yaml:"effort"`
	}
	limitsDoc struct {
		Low  float64 `yaml:"low"`
		High float64 `yaml:"high"`
		Step float64 `yaml:"step"`
	}
	choiceDoc struct {
		ID      string `yaml:"id"`
		Tells   pairs  `yaml:"tells"`
		Narrows pairs  `yaml:"narrows"`
		Enter   string `yaml:"enter"`
	}
	raiseDoc struct {
		Code    string   `yaml:"code"`
		Level   string   `yaml:"level"`
		Choices []string `yaml:"choices"`
	}
	effortDoc struct {
		Chair     float64 `yaml:"chair"`
		Walk      float64 `yaml:"walk"`
		FromChair float64 `yaml:"from_chair"`
		Willing   float64 `yaml:"willing"`
	}
	unaskedDoc struct {
		Leaf   string     `yaml:"leaf"`
		When   string     `yaml:"when"`
		Unsure *unsureDoc `yaml:"unsure"`
	}
	contradictionDoc struct {
		ID      string   `yaml:"id"`
		When    string   `yaml:"when"`
		Between []string `yaml:"between"`
		Halts   bool     `yaml:"halts"`
	}
	unsureDoc struct {
		distDoc `yaml:",inline"`
		By      []distDoc `yaml:"by"`
		Tilt    []tiltDoc `yaml:"tilt"`
		Verify  bool      `yaml:"verify"`
		Basis   string    `yaml:"basis"`
		Status  string    `yaml:"status"`
	}
	distDoc struct {
		When       string        `yaml:"when"`
		Omit       bool          `yaml:"omit"`
		HomeRegion bool          `yaml:"home_region"`
		Pick       pairs         `yaml:"pick"`
		Each       pairs         `yaml:"each"`
		Lognormal  *lognormalDoc `yaml:"lognormal"`
		Zero       float64       `yaml:"zero"`
		Triangle   []float64     `yaml:"triangle"`
		Hour       *hourDoc      `yaml:"hour"`
		Archetype  *archetypeDoc `yaml:"archetype"`
		Relative   *relativeDoc  `yaml:"relative"`
	}
	lognormalDoc struct {
		P10 float64 `yaml:"p10"`
		P50 float64 `yaml:"p50"`
		P90 float64 `yaml:"p90"`
	}
	hourDoc struct {
		Mean float64 `yaml:"mean"`
		SD   float64 `yaml:"sd"`
	}
	archetypeDoc struct {
		Spread float64 `yaml:"spread"`
		Lower  float64 `yaml:"lower"`
		Same   float64 `yaml:"same"`
		Higher float64 `yaml:"higher"`
	}
	relativeDoc struct {
		To     string  `yaml:"to"`
		Same   float64 `yaml:"same"`
		NextUp float64 `yaml:"next_up"`
	}
	tiltDoc struct {
		When   string  `yaml:"when"`
		Values []any   `yaml:"values"`
		Odds   float64 `yaml:"odds"`
	}
)

// pairs is a mapping that keeps its order.
type pairs []pair

type pair struct {
	key   string
	value any
}

// UnmarshalYAML reads a mapping in the order it is written.
func (p *pairs) UnmarshalYAML(n *yaml.Node) error {
	if n.Kind != yaml.MappingNode {
		return fmt.Errorf("line %d: a mapping is expected here", n.Line)
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		var v any
		if err := n.Content[i+1].Decode(&v); err != nil {
			return err
		}
		for _, earlier := range *p {
			if earlier.key == n.Content[i].Value {
				return fmt.Errorf("line %d: %q stands here twice", n.Content[i].Line, earlier.key)
			}
		}
		*p = append(*p, pair{n.Content[i].Value, v})
	}
	return nil
}

// file is one YAML file with the lines of its parts.
type file struct {
	name string
	root *yaml.Node
}

// readYAML decodes a file strictly and keeps its nodes for naming lines.
func readYAML(fsys fs.FS, name string, into any) (file, []byte, error) {
	raw, err := fs.ReadFile(fsys, name)
	if err != nil {
		return file{}, nil, fault.InFile(name, 0, "", err.Error(), "a readable file")
	}
	var root yaml.Node
	if err := yaml.Unmarshal(raw, &root); err != nil {
		return file{}, nil, inYAML(name, err)
	}
	if len(root.Content) == 0 {
		return file{}, nil, fault.InFile(name, 1, "", "an empty file", "the questions or their words")
	}
	d := yaml.NewDecoder(bytes.NewReader(raw))
	d.KnownFields(true)
	if err := d.Decode(into); err != nil {
		return file{}, nil, inYAML(name, err)
	}
	return file{name, root.Content[0]}, raw, nil
}

var lineInError = regexp.MustCompile(`line (\d+): (.*)`)

func inYAML(name string, err error) *fault.Fault {
	line, text := 0, err.Error()
	if m := lineInError.FindStringSubmatch(text); m != nil {
		line, _ = strconv.Atoi(m[1])
		text = m[2]
	}
	f := fault.InFile(name, line, "", nil, "the keys and shapes described at the head of the file")
	f.Got, f.Detail = "", text
	return f
}

// fault names a place in the file: a path of mapping keys (string) and list
// places (int), the deepest of which that exists gives the line.
func (f file) fault(got any, accepted string, path ...any) *fault.Fault {
	n, field := f.root, ""
	line := n.Line
	for _, p := range path {
		field += fmt.Sprintf(".%v", p)
		if n = child(n, p); n == nil {
			break
		}
		line = n.Line
	}
	if field != "" {
		field = field[1:]
	}
	return fault.InFile(f.name, line, field, got, accepted)
}

func child(n *yaml.Node, at any) *yaml.Node {
	switch at := at.(type) {
	case int:
		if n.Kind == yaml.SequenceNode && at < len(n.Content) {
			return n.Content[at]
		}
	case string:
		for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
			if n.Content[i].Value == at {
				return n.Content[i+1]
			}
		}
	}
	return nil
}
