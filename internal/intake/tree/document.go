package tree

import (
	"fmt"
	"strings"

	"daybreak/internal/fault"
	"daybreak/internal/fault/datafile"

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

// file is one data file; its faults name the part they are about.
type file struct{ *datafile.File }

// fault names a place in the file: a path of mapping keys (string) and list
// places (int), the deepest of which that exists gives the line.
func (f file) fault(got any, accepted string, path ...any) *fault.Fault {
	field := ""
	for _, p := range path {
		field += fmt.Sprintf(".%v", p)
	}
	return fault.InFile(f.Name, f.Line(path...), strings.TrimPrefix(field, "."), got, accepted)
}
