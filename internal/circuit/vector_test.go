package circuit_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"testing"

	"daybreak/internal/circuit"
	"daybreak/internal/edition"
	"daybreak/internal/edition/nec"
	"daybreak/internal/tools/vectortest"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// input is the union of what the cases of all kinds give.
type input struct {
	Edition, Material, Size, Method, Raceway, Insulation, Trade string
	Place, Connection, Receptacle, Start, Minimum, Installed    string
	Column, CCC, Marked, Gangs                                  int
	TempC                                                       *float64 `json:"temp_c"`
	TempF                                                       *float64 `json:"temp_f"`
	DistanceIn                                                  float64  `json:"distance_in"`
	SettingA                                                    float64  `json:"setting_a"`
	OCPD                                                        float64  `json:"ocpd_a"`
	RatingA                                                     float64  `json:"rating_a"`
	EquipmentA                                                  float64  `json:"equipment_a"`
	ReceptacleA                                                 float64  `json:"receptacle_a"`
	LoadA                                                       float64  `json:"load_a"`
	CircuitA                                                    float64  `json:"circuit_a"`
	Amps, Volts                                                 float64
	LengthFt                                                    float64 `json:"length_ft"`
	LimitPct                                                    float64 `json:"limit_pct"`
	PF                                                          any
	ServiceSize                                                 string `json:"service_size"`
	Conductors                                                  [][]any
	EGCs                                                        [][]any
	Conductor                                                   *input
	Clamps, Device                                              string
	Nipple, Hardwired                                           bool
	Restricted                                                  bool  `json:"restricted_access"`
	Fixed                                                       *bool `json:"fixed_in_place"`
}

var (
	methods = map[string]edition.Method{"NM-B": edition.NMB, "UF-B": edition.UFB, "MC": edition.MC, "MC (THHN or XHHW-2 inside)": edition.MC, "SER": edition.SER,
		"THWN-2 in raceway": edition.THWN2, "XHHW-2 in raceway": edition.XHHW2, "THHN/THWN (not -2) in wet place": edition.THWNWet, "thhn_thwn2": edition.THWN2, "xhhw2": edition.XHHW2}
	metals   = map[string]edition.Material{"": edition.Copper, "cu": edition.Copper, "al": edition.Aluminium}
	raceways = map[string]edition.Raceway{"": edition.NoRaceway, "pvc": edition.PVC40, "steel": edition.EMT, "aluminium": edition.AluminiumConduit,
		"EMT": edition.EMT, "PVC40": edition.PVC40, "PVC80": edition.PVC80, "RMC": edition.RMC, "IMC": edition.IMC, "FMC": edition.FMC, "LFMC": edition.LFMC,
		"LFNC-A": edition.LFNCA, "LFNC-B": edition.LFNCB, "ENT": edition.ENT}
	places   = map[string]edition.Place{"indoor": edition.Indoor, "garage": edition.Garage, "outdoor": edition.Outdoor}
	connects = map[string]edition.Connection{"receptacle": edition.PlugIn, "hardwired": edition.Hardwired}
	runs     = map[string]edition.Run{"dry_concealed": edition.DryConcealed, "unfinished_basement": edition.UnfinishedBasement, "garage_exposed_wall": edition.GarageWall,
		"attic": edition.AtticSpace, "outdoor_wall": edition.OutdoorWall, "underground": edition.Underground, "damp_or_wet": edition.OutdoorWall}
	burials = map[string]edition.Burial{"general": edition.GeneralBurial, "under_2in_concrete_in_trench": edition.UnderTrenchConcrete, "under_building": edition.UnderBuilding,
		"under_4in_exterior_slab_no_vehicles": edition.UnderExteriorSlab, "street_alley_parking_lot_public_drive": edition.UnderStreet, "dwelling_driveway_or_parking": edition.UnderDwellingDrive}
	markings = map[int]edition.Marking{0: edition.Unmarked, 60: edition.Unmarked, 75: edition.Marked75}
	asked    = map[edition.Requirement]string{edition.NotRequired: "no", edition.Required: "yes", edition.AskAHJ: "ahj"}
	fastened = map[bool]edition.Fastening{true: edition.FixedInPlace, false: edition.CordConnected}
	means    = map[bool]edition.SettingMeans{true: edition.RestrictedAccess, false: edition.AppSlider}
	failWord = []struct {
		limit circuit.Limit
		word  string
	}{{circuit.FailsTerminals, "125"}, {circuit.FailsConditions, "corrected"}, {circuit.FailsProtection, "protection"}}
)

func book(t testing.TB, year int) *nec.Book {
	b, err := nec.Open(nec.Embedded(), year)
	require.NoError(t, err)
	return b
}

// asker feeds one case; it holds the first error so that each kind reads as
// one question.
type asker struct {
	input
	book *nec.Book
	err  error
}

func (a *asker) size(name string) edition.Size {
	if name == "" {
		return edition.Size{}
	}
	s, err := a.book.SizeNamed(name)
	if err != nil && a.err == nil {
		a.err = err
	}
	return s
}

func (a *asker) wire() edition.Wire {
	return edition.Wire{Method: methods[a.Method], Size: a.size(a.Size), Material: metals[a.Material]}
}

func (a *asker) ambient() unit.Celsius {
	switch {
	case a.TempC != nil:
		return unit.Celsius(*a.TempC)
	case a.TempF != nil:
		return unit.Fahrenheit(*a.TempF).Celsius()
	}
	return 30
}

func (a *asker) around() edition.Surroundings {
	return edition.Surroundings{Ambient: a.ambient(), CurrentCarrying: max(a.CCC, 2)}
}

func (a *asker) demand() circuit.Demand {
	load := unit.Amps(a.SettingA)
	d, err := circuit.DeviceFor(a.book, load)
	a.err = errors.Join(a.err, err)
	return circuit.Demand{Load: load, Device: d.Value, Marking: markings[a.Marked], Surroundings: a.around()}
}

func (a *asker) stretch() circuit.Stretch {
	s := circuit.Stretch{Load: unit.Amps(a.LoadA), Volts: unit.Volts(a.Volts), Feet: unit.Feet(a.LengthFt), Wire: edition.Wire{Method: edition.THWN2, Size: a.size(a.Size), Material: metals[a.Material]}, Raceway: raceways[a.Raceway]}
	s.Factor = edition.PowerFactor{Printed: a.PF == "table"}
	if pf, ok := a.PF.(float64); ok {
		s.Factor.Value = pf
	}
	return s
}

func (a *asker) pulls(list [][]any) (out [4]edition.Pull) {
	for i, c := range list {
		p := edition.Pull{Count: int(c[0].(float64)), Size: a.size(c[1].(string)), Method: edition.THWN2}
		if len(c) > 2 {
			p.Method, p.Bare = methods[c[2].(string)], c[2] == "bare"
		}
		out[i] = p
	}
	return out
}

type answer = map[string]any

var kinds = map[string]func(a *asker) (answer, error){
	"ampacity_table": func(a *asker) (answer, error) {
		c, err := a.book.TableAmpacity(a.size(a.Size), metals[a.Material], unit.Celsius(a.Column))
		return answer{"a": c.Value}, err
	},
	"ambient_factor": func(a *asker) (answer, error) {
		c, err := a.book.AmbientFactor(unit.Celsius(a.Column), a.ambient())
		if errors.Is(err, edition.ErrUnanswerable) {
			return answer{"factor": nil}, nil
		}
		return answer{"factor": c.Value}, err
	},
	"adjustment_factor": func(a *asker) (answer, error) {
		c, err := a.book.AdjustmentFactor(a.CCC)
		return answer{"factor": c.Value}, err
	},
	"rooftop": func(a *asker) (answer, error) {
		c, err := a.book.RooftopAmbient(a.ambient(), unit.Inches(a.DistanceIn))
		return answer{"ambient_c": c.Value}, err
	},
	"ampacity_corrected": func(a *asker) (answer, error) {
		if a.OCPD == 0 {
			c, err := a.book.Ampacity(a.wire(), a.around())
			return answer{"a": c.Value}, err
		}
		u, err := circuit.Usable(a.book, a.wire(), a.around(), markings[a.Marked], unit.Amps(a.OCPD))
		return answer{"a": u.Corrected, "usable_a": u.Usable}, err
	},
	"ocpd_for_setting": func(a *asker) (answer, error) {
		c, err := circuit.DeviceFor(a.book, unit.Amps(a.SettingA))
		return answer{"ocpd_a": c.Value}, err
	},
	"ocpd_max": func(a *asker) (answer, error) {
		c, err := circuit.LargestDeviceFor(a.book, a.wire(), a.around(), markings[a.Marked])
		return answer{"ocpd_a": c.Value}, err
	},
	"conductor_check": func(a *asker) (answer, error) {
		c, err := circuit.CheckConductor(a.book, a.wire(), a.demand())
		fails := []string{}
		for _, f := range failWord {
			if c.Fails&f.limit != 0 {
				fails = append(fails, f.word)
			}
		}
		return answer{"ok": c.Fails == 0, "fails": fails}, err
	},
	"conductor_min": func(a *asker) (answer, error) {
		s, err := circuit.SmallestConductor(a.book, methods[a.Method], metals[a.Material], a.demand())
		if s.Size.None() {
			return answer{"size": nil}, err
		}
		return answer{"size": s.Size.Trade()}, err
	},
	"voltage_drop": func(a *asker) (answer, error) {
		d, err := circuit.VoltageDrop(a.book, a.stretch())
		return answer{"vd_v": d.Volts, "pct": d.Percent}, err
	},
	"voltage_drop_three_phase": func(a *asker) (answer, error) {
		s := a.stretch()
		s.System, s.Volts = circuit.ThreePhase, 208
		d, err := circuit.VoltageDrop(a.book, s)
		return answer{"vd_v": d.Volts, "pct": d.Percent}, err
	},
	"effective_z": func(a *asker) (answer, error) {
		s := a.stretch()
		z, err := a.book.Impedance(s.Wire, s.Raceway, s.Factor)
		return answer{"z": z.Value}, err
	},
	"max_length": func(a *asker) (answer, error) {
		ft, err := circuit.LongestRun(a.book, a.stretch(), a.LimitPct)
		return answer{"ft": ft}, err
	},
	"conductor_for_drop": func(a *asker) (answer, error) {
		s := a.stretch()
		s.Wire.Size = a.size(a.Start)
		size, _, err := circuit.SizeForDrop(a.book, s, a.LimitPct)
		return answer{"size": size.Trade()}, err
	},
	"egc": func(a *asker) (answer, error) {
		c, err := a.book.GroundingConductor(unit.Amps(a.OCPD), metals[a.Material])
		return answer{"size": c.Value.Trade()}, err
	},
	"egc_increased": func(a *asker) (answer, error) {
		c, err := a.book.GroundingIncreased(unit.Amps(a.OCPD), metals[a.Material], a.size(a.Minimum), a.size(a.Installed))
		return answer{"need_cmil": c.Value.Need, "egc": c.Value.Size.Trade()}, err
	},
	"gec": func(a *asker) (answer, error) {
		c, err := a.book.ElectrodeConductor(a.size(a.ServiceSize), metals[a.Material])
		return answer{"cu": c.Value.Copper.Trade(), "al": c.Value.Aluminium.Trade()}, err
	},
	"raceway_size": func(a *asker) (answer, error) {
		c, err := a.book.RacewayFor(raceways[a.Raceway], edition.Contents{Pulls: a.pulls(a.Conductors), Nipple: a.Nipple})
		return answer{"trade": c.Value.Trade, "fill_pct": c.Value.FillPercent}, err
	},
	"raceway_count": func(a *asker) (answer, error) {
		c, err := a.book.RacewayCount(raceways[a.Raceway], edition.Trade(a.Trade), methods[a.Insulation], a.size(a.Size))
		return answer{"n": c.Value}, err
	},
	"box_fill": func(a *asker) (answer, error) {
		c, err := a.book.BoxFill(edition.BoxContents{Conductors: a.pulls(a.Conductors), Grounds: a.pulls(a.EGCs), Clamp: a.size(a.Clamps), Device: a.size(a.Device), Gangs: a.Gangs})
		return answer{"in3": c.Value}, err
	},
	"burial": func(a *asker) (answer, error) {
		c, err := a.book.CoverDepth(burials[a.Place], edition.BuriedWiring(a.Column))
		if c.Value.Forbidden {
			return answer{"cover_in": nil}, err
		}
		return answer{"cover_in": c.Value.Inches}, err
	},
	"straps": func(a *asker) (answer, error) {
		way := map[string]struct {
			m edition.Method
			r edition.Raceway
			t edition.Trade
		}{"NM-B": {edition.NMB, 0, ""}, "UF-B as NM": {edition.UFB, 0, ""}, "SE/SER interior": {edition.SER, 0, ""}, "MC": {edition.MC, 0, ""},
			"EMT": {edition.THWN2, edition.EMT, ""}, "RMC/IMC": {edition.THWN2, edition.RMC, ""},
			"PVC 1/2-1": {edition.THWN2, edition.PVC40, "1"}, "PVC 1-1/4-2": {edition.THWN2, edition.PVC40, "2"}, "PVC 2-1/2-3": {edition.THWN2, edition.PVC40, "3"},
			"FMC": {edition.THWN2, edition.FMC, ""}, "LFMC": {edition.THWN2, edition.LFMC, ""}, "LFNC": {edition.THWN2, edition.LFNCB, ""}, "ENT": {edition.THWN2, edition.ENT, ""}}[a.Method]
		s, err := a.book.Supports(way.m, way.r, way.t)
		if err != nil {
			return nil, err
		}
		n, err := circuit.Fasteners(s.Value, unit.Feet(a.LengthFt))
		return answer{"spacing_ft": s.Value.Spacing, "from_box_in": s.Value.FromBox, "n": n}, err
	},
	"gfci": func(a *asker) (answer, error) {
		c, err := a.book.GroundFault(places[a.Place], connects[a.Connection], unit.Amps(a.CircuitA))
		return answer{"required": asked[c.Value], "safer": asked[circuit.Safer(c.Value)]}, err
	},
	"disconnect": func(a *asker) (answer, error) {
		c := map[bool]edition.Connection{true: edition.Hardwired, false: edition.PlugIn}[a.Hardwired]
		return answer{"required": a.book.Disconnect(c, unit.Amps(a.RatingA)).Value}, nil
	},
	"individual_circuit": func(a *asker) (answer, error) {
		return answer{"required": a.book.IndividualCircuit(unit.Amps(a.Amps), unit.Volts(a.Volts)).Value}, nil
	},
	"tamper_resistant": func(a *asker) (answer, error) {
		return answer{"required": a.book.TamperResistant(unit.Amps(a.ReceptacleA)).Value}, nil
	},
	"weather_resistant": func(a *asker) (answer, error) {
		return answer{"required": a.book.WeatherResistant(unit.Amps(a.ReceptacleA)).Value}, nil
	},
	"height": func(a *asker) (answer, error) {
		return answer{"min_in": a.book.CouplerHeight(places[a.Place]).Value}, nil
	},
	"nm_place": func(a *asker) (answer, error) {
		run, ok := runs[a.Place]
		if !ok {
			return nil, fmt.Errorf("no place %q", a.Place)
		}
		return answer{"ok": a.book.FitIn(edition.NMB, edition.NoRaceway, run).Value != edition.Unfit}, nil
	},
	"receptacle_ok": func(a *asker) (answer, error) {
		c, err := circuit.ReceptacleOn(a.book, a.Receptacle, unit.Amps(a.OCPD))
		return answer{"ok": c.Value}, err
	},
	"max_setting": func(a *asker) (answer, error) {
		e := circuit.Existing{Device: unit.Amps(a.OCPD), Receptacle: a.Receptacle, Equipment: unit.Amps(a.EquipmentA)}
		if a.Conductor != nil {
			w := asker{input: *a.Conductor, book: a.book}
			e.Wire, e.Marking, e.Ambient, e.CurrentCarrying = w.wire(), markings[w.Marked], w.ambient(), w.CCC
		}
		r, err := circuit.Allowed(a.book, e, nil)
		return answer{"setting_a": r.Setting, "why": r.Binding.String()}, err
	},
	"design_current": func(a *asker) (answer, error) {
		load := circuit.LoadCurrent(a.book, unit.Amps(a.RatingA), unit.Amps(a.SettingA), means[a.Restricted], fastened[a.Fixed == nil || *a.Fixed]).Value
		d, err := circuit.DeviceFor(a.book, load)
		return answer{"design_a": load, "ocpd_a": d.Value}, err
	},
	"design_row": designRow,
}

// designRow asks for a row of the standard designs: the least answer of each
// setting at 30 °C without an increase for voltage drop.
func designRow(a *asker) (answer, error) {
	out := answer{"setting_a": a.SettingA}
	d := a.demand()
	out["ocpd_a"] = d.Device
	for _, c := range []struct {
		key     string
		method  edition.Method
		metal   edition.Material
		marking edition.Marking
	}{{"nm_b_cu", edition.NMB, edition.Copper, edition.Unmarked}, {"uf_b_cu", edition.UFB, edition.Copper, edition.Unmarked},
		{"thwn2_75_cu", edition.THWN2, edition.Copper, edition.Marked75}, {"thwn2_60_cu", edition.THWN2, edition.Copper, edition.Unmarked},
		{"al_75", edition.XHHW2, edition.Aluminium, edition.Marked75}} {
		d.Marking = c.marking
		s, err := circuit.SmallestConductor(a.book, c.method, c.metal, d)
		if err != nil {
			return nil, err
		}
		out[c.key] = nil
		if !s.Size.None() {
			out[c.key] = s.Size.Trade()
		}
	}
	cu, err := a.book.GroundingConductor(d.Device, edition.Copper)
	al, err2 := a.book.GroundingConductor(d.Device, edition.Aluminium)
	out["egc_cu"], out["egc_al"] = cu.Value.Trade(), al.Value.Trade()
	return out, errors.Join(err, err2)
}

func TestVectorCircuit(t *testing.T) {
	books := map[int]*nec.Book{}
	for _, y := range nec.Years() {
		books[y] = book(t, y)
	}
	run := map[string]vectortest.Run{}
	for name, ask := range kinds {
		run[name] = func(c vectortest.Case) (map[string]any, error) {
			a := asker{}
			if err := json.Unmarshal(c.Inputs, &a.input); err != nil {
				return nil, err
			}
			// A case that names no edition holds in all three seen in print: it is
			// asked of each. Only the ladder of devices differs between them.
			years := nec.Years()[:3]
			if c.Kind == "ocpd_for_setting" || c.Kind == "ocpd_max" {
				years = []int{2023}
			}
			if a.Edition != "" {
				y, err := strconv.Atoi(a.Edition)
				if err != nil {
					return nil, err
				}
				years = []int{y}
			}
			var got answer
			for i, y := range years {
				b := a
				b.book = books[y]
				next, err := ask(&b)
				if err := errors.Join(err, b.err); err != nil {
					return nil, err
				}
				if i > 0 {
					if err := vectortest.Compare(toJSON(got), next, 0); err != nil {
						return nil, fmt.Errorf("editions differ: %w", err)
					}
				}
				got = next
			}
			return got, nil
		}
	}
	vectortest.Cases(t, "electrical_circuit.json", run)
}

func toJSON(v any) (out map[string]any) {
	raw, _ := json.Marshal(v)
	_ = json.Unmarshal(raw, &out)
	return out
}
