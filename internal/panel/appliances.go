package panel

import (
	"errors"
	"io/fs"
	"math"

	"daybreak/internal/unit"
	"daybreak/internal/working"

	"go.yaml.in/yaml/v3"
)

// Class says where a load enters the sheets.
type Class uint8

// The classes.
const (
	ClassAppliance Class = iota
	ClassWaterHeater
	ClassMotor
	ClassCooking
	ClassDryer
	ClassResistanceHeat
	ClassStripHeat
	ClassHeatPump
	ClassCooling
	ClassCharger
	ClassNone // not added: it is on a circuit that is counted already
)

var classNames = []string{"appliance", "water_heater", "motor", "cooking", "dryer", "resistance_heat", "strip_heat", "heat_pump", "air_conditioning", "evse", "none"}

// String is the word of the class.
func (c Class) String() string { return nameOf(classNames, int(c)) }

// loadClass is what the methods ask of a kind of load.
type loadClass struct {
	class    Class
	fastened bool // one of the group of 220.53
	motor    bool
	circuits []unit.Amps // usual breakers of its own circuit, smallest first
}

// Appliance is a kind of equipment and the rating plates it usually bears.
type Appliance struct {
	ID       string
	Name     string
	Volts    unit.Volts
	Low      unit.VoltAmps // ends and mode of a triangular distribution
	Default  unit.VoltAmps // the value for a point estimate
	High     unit.VoltAmps
	Breakers []unit.Amps // usual breakers
	Class    Class
	Fastened bool
	Motor    bool
	Plate    string // where to find its plate
	Note     string
	Status   working.Status
}

// PlateAt gives the rating below which a share u of such appliances lie, for
// drawing plates nobody has read. u is taken into 0 to 1.
//
// Source: triangular distribution over Low, Default and High; engineering judgement.
func (a Appliance) PlateAt(u float64) unit.VoltAmps {
	lo, mode, hi := float64(a.Low), float64(a.Default), float64(a.High)
	if !(u > 0) || hi <= lo {
		return a.Low
	}
	if u >= 1 {
		return a.High
	}
	if split := (mode - lo) / (hi - lo); u < split {
		return unit.VoltAmps(lo + math.Sqrt(u*(hi-lo)*(mode-lo)))
	}
	return unit.VoltAmps(hi - math.Sqrt((1-u)*(hi-lo)*(hi-mode)))
}

// Appliances is the table of rating plates. It is read-only.
type Appliances struct {
	all     []Appliance
	kinds   [loadKinds]int
	cooling [][]float64
	perTon  [zoneCount]float64
	furnace [zoneCount]float64
	kitW    float64
	base    float64
	units   int
	screen  []LoadKind
	unseen  []LoadKind
}

type appliancesDoc struct {
	Source     string            `yaml:"source"`
	Appliances []applianceDoc    `yaml:"appliances"`
	Kinds      map[string]string `yaml:"kinds"`
	Cooling    struct {
		Rows   since[[][]float64] `yaml:"rows"`
		PerTon zoneValues         `yaml:"sqft_per_ton"`
		Status string             `yaml:"status"`
	} `yaml:"cooling"`
	Furnace struct {
		PerSqFt zoneValues `yaml:"w_per_sqft"`
		Kit     float64    `yaml:"kit_w"`
		Status  string     `yaml:"status"`
	} `yaml:"furnace"`
	Baseboard struct {
		PerSqFt float64 `yaml:"w_per_sqft"`
		Units   int     `yaml:"units"`
		Status  string  `yaml:"status"`
	} `yaml:"baseboard"`
	Screen struct {
		Kinds  []string `yaml:"kinds"`
		Unseen []string `yaml:"unseen"`
		Status string   `yaml:"status"`
	} `yaml:"screen"`
}

type applianceDoc struct {
	line     int
	ID       string      `yaml:"id"`
	Name     string      `yaml:"name"`
	Volts    unit.Volts  `yaml:"volts"`
	VA       []float64   `yaml:"va"`
	Breakers []unit.Amps `yaml:"breakers_a"`
	Class    string      `yaml:"class"`
	Fastened bool        `yaml:"fastened"`
	Motor    bool        `yaml:"motor"`
	Plate    string      `yaml:"plate"`
	Note     string      `yaml:"note"`
	Status   string      `yaml:"status"`
}

func (a *applianceDoc) UnmarshalYAML(n *yaml.Node) error {
	type plain applianceDoc
	err := n.Decode((*plain)(a))
	a.line = n.Line
	return err
}

// OpenAppliances reads appliances.yaml. Each appliance must have an id of its
// own, ordered ratings, a class and a status.
func OpenAppliances(fsys fs.FS) (*Appliances, error) {
	r := &resolver{file: "appliances.yaml"}
	var doc appliancesDoc
	if err := decodeFile(fsys, r.file, &doc, &r.root); err != nil {
		return nil, err
	}
	p := &Appliances{}
	index := map[string]int{}
	for i := range doc.Appliances {
		a := &doc.Appliances[i]
		if _, twice := index[a.ID]; twice || a.ID == "" {
			r.refuse(a.line, "id", a.ID, "an id of its own")
		}
		index[a.ID] = len(p.all)
		p.all = append(p.all, a.check(r))
	}
	for k := range loadKinds {
		i, ok := index[doc.Kinds[k.String()]]
		if !ok {
			r.refuse(0, "kinds."+k.String(), doc.Kinds[k.String()], "the id of an appliance")
		}
		p.kinds[k] = i
	}
	p.cooling = r.rows("cooling.rows", doc.Cooling.Rows, 3)
	p.perTon, p.furnace = doc.Cooling.PerTon.all(r, "cooling.sqft_per_ton"), doc.Furnace.PerSqFt.all(r, "furnace.w_per_sqft")
	p.kitW, p.base, p.units = doc.Furnace.Kit, doc.Baseboard.PerSqFt, doc.Baseboard.Units
	if !(p.kitW > 0 && p.base > 0 && p.units > 0) {
		r.refuse(0, "cooling, furnace, baseboard", "a missing value", "positive factors")
	}
	p.screen, p.unseen = loadKindsOf(r, "screen.kinds", doc.Screen.Kinds), loadKindsOf(r, "screen.unseen", doc.Screen.Unseen)
	if err := errors.Join(r.faults...); err != nil {
		return nil, err
	}
	return p, nil
}

func (a *applianceDoc) check(r *resolver) Appliance {
	ok := len(a.VA) == 3 && a.VA[0] >= 0 && a.VA[0] <= a.VA[1] && a.VA[1] <= a.VA[2] && unit.Finite(a.VA[2])
	if !ok {
		r.refuse(a.line, a.ID+".va", a.VA, "low, default and high, in that order")
		a.VA = make([]float64, 3)
	}
	class := -1
	for i, name := range classNames {
		if name == a.Class {
			class = i
		}
	}
	if class < 0 {
		r.refuse(a.line, a.ID+".class", a.Class, "one of "+join(classNames))
		class = 0
	}
	if !working.Status(a.Status).Known() {
		r.refuse(a.line, a.ID+".status", a.Status, "verified, from memory, computed or engineering judgement")
	}
	return Appliance{
		ID: a.ID, Name: a.Name, Volts: a.Volts, Breakers: a.Breakers,
		Low: unit.VoltAmps(a.VA[0]), Default: unit.VoltAmps(a.VA[1]), High: unit.VoltAmps(a.VA[2]),
		Class: Class(class), Fastened: a.Fastened, Motor: a.Motor, Plate: a.Plate, Note: a.Note, Status: working.Status(a.Status),
	}
}

func loadKindsOf(r *resolver, field string, words []string) (kinds []LoadKind) {
	for _, w := range words {
		k, ok := LoadKindOf(w)
		if !ok {
			r.refuse(0, field, w, "one of "+join(loadKindNames[:]))
		}
		kinds = append(kinds, k)
	}
	return kinds
}

func (p *Appliances) classes() (out [loadKinds]loadClass) {
	for k := range loadKinds {
		a := p.all[p.kinds[k]]
		out[k] = loadClass{a.Class, a.Fastened, a.Motor, a.Breakers}
	}
	return out
}

// All lists every appliance in the order of the file.
func (p *Appliances) All() []Appliance { return append([]Appliance(nil), p.all...) }

// ByID finds an appliance, and false when there is none of that id.
func (p *Appliances) ByID(id string) (Appliance, bool) {
	for _, a := range p.all {
		if a.ID == id {
			return a, true
		}
	}
	return Appliance{}, false
}

// Of gives the appliance whose plate stands in for a kind of load.
func (p *Appliances) Of(k LoadKind) Appliance {
	if k >= loadKinds {
		return Appliance{}
	}
	return p.all[p.kinds[k]]
}
