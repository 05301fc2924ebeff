package inspector

import (
	"fmt"

	"go.yaml.in/yaml/v3"
)

// conductor is one row of the conductor table, copper unless named al.
type conductor struct {
	size                         string
	cu60, cu75, cu90, al60, al75 float64
	cmil                         float64
	rPVC, zPVC, rSteel, zSteel   float64
	thwn, xhhw                   float64 // area, in²
}

// UnmarshalYAML reads a row by the order of its columns.
func (c *conductor) UnmarshalYAML(n *yaml.Node) error {
	return cells(n, &c.size, &c.cu60, &c.cu75, &c.cu90, &c.al60, &c.al75, &c.cmil, &c.rPVC, &c.zPVC, &c.rSteel, &c.zSteel, &c.thwn, &c.xhhw)
}

// cover is the least cover of a buried run, in inches.
type cover struct {
	Earth float64 `yaml:"earth"`
	Drive float64 `yaml:"drive"`
}

// groundRow is a row of the grounding table: devices up to so many amperes.
type groundRow struct {
	to   float64
	size string
}

// UnmarshalYAML reads a row by the order of its columns.
func (g *groundRow) UnmarshalYAML(n *yaml.Node) error { return cells(n, &g.to, &g.size) }

// groundRule is a row of the ground-fault table.
type groundRule struct {
	connection, place string
	to                float64
	required          since[string]
}

// UnmarshalYAML reads a row by the order of its columns.
func (g *groundRule) UnmarshalYAML(n *yaml.Node) error {
	return cells(n, &g.connection, &g.place, &g.to, &g.required)
}

// face is a row of the receptacle table.
type face struct {
	config                   string
	amps, volts              float64
	neutral, ground, locking bool
}

// UnmarshalYAML reads a row by the order of its columns.
func (f *face) UnmarshalYAML(n *yaml.Node) error {
	return cells(n, &f.config, &f.amps, &f.volts, &f.neutral, &f.ground, &f.locking)
}

// cells decodes a row into its columns, all of them.
func cells(n *yaml.Node, into ...any) error {
	if n.Kind != yaml.SequenceNode || len(n.Content) != len(into) {
		return fmt.Errorf("line %d: a row of %d columns, not %d", n.Line, len(into), len(n.Content))
	}
	for i, v := range into {
		if err := n.Content[i].Decode(v); err != nil {
			return fmt.Errorf("line %d, column %d: %w", n.Line, i+1, err)
		}
	}
	return nil
}

// demand is the part of the tables that load calculations use.
type demand struct {
	Lighting struct {
		cite           `yaml:",inline"`
		PerSqFt        since[float64] `yaml:"va_per_sqft"`
		SmallAppliance float64        `yaml:"small_appliance_va"`
		Laundry        float64        `yaml:"laundry_va"`
	} `yaml:"lighting"`
	Optional struct {
		cite         `yaml:",inline"`
		LeastService float64        `yaml:"least_service"`
		First        since[float64] `yaml:"first_va"`
		Rest         float64        `yaml:"rest"`
		Strips       float64        `yaml:"strips"`
		Few          float64        `yaml:"few"`
		Many         float64        `yaml:"many"`
		ManyUnits    int            `yaml:"many_units"`
	} `yaml:"optional"`
	Existing struct {
		cite      `yaml:",inline"`
		First     float64 `yaml:"first_va"`
		Rest      float64 `yaml:"rest"`
		ManyUnits int     `yaml:"many_units"`
	} `yaml:"existing"`
	Measured struct {
		cite        `yaml:",inline"`
		Factor      float64      `yaml:"factor"`
		PowerFactor float64      `yaml:"power_factor"`
		Intervals   [][2]float64 `yaml:"intervals"`
	} `yaml:"measured"`
	Mobile struct {
		cite           `yaml:",inline"`
		PerSqFt        float64      `yaml:"va_per_sqft"`
		SmallAppliance float64      `yaml:"small_appliance_va"`
		Laundry        float64      `yaml:"laundry_va"`
		First          float64      `yaml:"first_va"`
		Rest           float64      `yaml:"rest"`
		RangeShare     [2]float64   `yaml:"range_share_to_va"`
		RangeRows      [][2]float64 `yaml:"range_rows"`
		Motor          float64      `yaml:"motor"`
	} `yaml:"mobile"`
	Charger struct {
		cite    `yaml:",inline"`
		Least   since[float64] `yaml:"least_va"`
		Bracket since[bool]    `yaml:"bracket"`
	} `yaml:"charger"`
	Management struct {
		cite   `yaml:",inline"`
		Factor float64 `yaml:"factor"`
	} `yaml:"management"`
}
