package outlet_test

import (
	"encoding/json"
	"strconv"
	"testing"

	"daybreak/internal/circuit/outlet"
	"daybreak/internal/tools/vectortest"
	"daybreak/internal/unit"
)

// asGiven is an outlet in the words of the check cases.
type asGiven struct {
	Edition   string   `json:"edition"`
	Config    string   `json:"config"`
	BreakerA  *float64 `json:"breaker_a"`
	Conductor *struct {
		AWG      string `json:"awg"`
		Material string `json:"material"`
		Method   string `json:"method"`
	} `json:"conductor"`
	Sharing       string   `json:"sharing"`
	Condition     []string `json:"condition"`
	Grade         string   `json:"grade"`
	Location      string   `json:"location"`
	InUseCover    *bool    `json:"in_use_cover"`
	ReachShortFt  *float64 `json:"reach_short_ft"`
	GFCI          *bool    `json:"gfci"`
	EquipmentMaxA *float64 `json:"equipment_max_a"`
	Restricted    *bool    `json:"adjustable_restricted"`
	EquipmentKind string   `json:"equipment_kind"`
	Adapter       *bool    `json:"adapter"`
	SupplyVolts   float64  `json:"supply_volts"`
	Chargers      int      `json:"evse_on_circuit"`
}

func (g asGiven) existing(t testing.TB) (outlet.Existing, error) {
	year, err := strconv.Atoi(g.Edition)
	if err != nil {
		return outlet.Existing{}, err
	}
	set, err := outlet.Conditions(g.Condition...)
	if err != nil {
		return outlet.Existing{}, err
	}
	e := outlet.Existing{
		Book: openBook(t, year), Year: year, Receptacle: g.Config, Breaker: reading[unit.Amps](g.BreakerA),
		Conductor: outlet.Conductor{Size: outlet.Unknown, Material: outlet.Unknown, Method: outlet.Unknown},
		Sharing:   g.Sharing, Condition: outlet.Read(set), Grade: g.Grade, Location: g.Location,
		InUseCover: answer(g.InUseCover), ReachShort: reading[unit.Feet](g.ReachShortFt), GFCI: answer(g.GFCI),
		Equipment: outlet.Equipment{Max: reading[unit.Amps](g.EquipmentMaxA), Kind: g.EquipmentKind,
			Setting: map[string]string{"yes": "locked", "no": "open", "unknown": "unknown"}[answer(g.Restricted)]},
		Adapter: answer(g.Adapter), Supply: unit.Volts(g.SupplyVolts), Chargers: g.Chargers,
	}
	if g.Conductor != nil {
		e.Conductor = outlet.Conductor{Size: g.Conductor.AWG, Material: g.Conductor.Material, Method: g.Conductor.Method}
	}
	return e, nil
}

func reading[T ~float64](v *float64) outlet.Reading[T] {
	if v == nil {
		return outlet.Reading[T]{}
	}
	return outlet.Read(T(*v))
}

func answer(v *bool) string {
	switch {
	case v == nil:
		return outlet.Unknown
	case *v:
		return outlet.Yes
	}
	return outlet.No
}

func TestVectorOutlet(t *testing.T) {
	vectortest.Cases(t, "electrical_outlet.json", map[string]vectortest.Run{
		"outlet": func(c vectortest.Case) (map[string]any, error) {
			var given asGiven
			if err := json.Unmarshal(c.Inputs, &given); err != nil {
				return nil, err
			}
			e, err := given.existing(t)
			if err != nil {
				return nil, err
			}
			v, err := outlet.Judge(e, nil)
			if err != nil {
				return nil, err
			}
			got := map[string]any{"verdict": v.Word.String(), "setting_now_a": v.Now, "setting_after_work_a": nil}
			if after, ok := v.After.Get(); ok {
				got["setting_after_work_a"] = after
			}
			return got, nil
		},
	})
}
