package panel_test

import (
	"encoding/json"
	"fmt"

	"daybreak/internal/panel"
	"daybreak/internal/unit"
)

// caseHeat is heat as the published cases write it.
type caseHeat struct {
	Kind       string        `json:"kind"`
	VA         unit.VoltAmps `json:"va"`
	Units      int           `json:"units"`
	Cooling    unit.VoltAmps `json:"ac_va"`
	Compressor unit.VoltAmps `json:"compressor_va"`
	Strips     unit.VoltAmps `json:"strip_va"`
	Interlock  bool          `json:"interlocked"`
}

func (h caseHeat) heat() (panel.Heat, error) {
	out := panel.Heat{VA: h.VA, Units: h.Units, Compressor: h.Compressor}
	if h.Interlock {
		out.Interlock = panel.NeverWithStrips
	}
	switch h.Kind {
	case "", "none", "cooling", "ac":
	case "resistance":
		out.Kind = panel.Resistance
	case "heat_pump", "heat_pump_alone":
		out.Kind = panel.HeatPumpAlone
	case "heat_pump_with_strips":
		out.Kind, out.VA = panel.HeatPumpWithStrips, h.Strips
	case "thermal_storage", "storage":
		out.Kind = panel.Storage
	default:
		return out, fmt.Errorf("heat of the unknown kind %q", h.Kind)
	}
	return out, nil
}

// caseInputs is the union of what the published cases give.
type caseInputs struct {
	Edition   string           `json:"edition"`
	Small     int              `json:"small_appliance"`
	Laundry   int              `json:"laundry"`
	Area      unit.SquareFeet  `json:"floor_area_ft2"`
	UnitArea  unit.SquareFeet  `json:"unit_area_ft2"`
	Units     int              `json:"units"`
	Ranges12  int              `json:"ranges_kw12_count"`
	Volts     unit.Volts       `json:"volts"`
	HVAC      caseHeat         `json:"hvac"`
	Heat      caseHeat         `json:"heat"`
	Cooling   unit.VoltAmps    `json:"ac_va"`
	HeatVA    unit.VoltAmps    `json:"heat_va"`
	MotorVA   unit.VoltAmps    `json:"largest_motor_va"`
	Loads     []unit.VoltAmps  `json:"loads_va"`
	Fastened  []unit.VoltAmps  `json:"fastened_va"`
	Dryers    []unit.VoltAmps  `json:"dryers_va"`
	Others    []unit.VoltAmps  `json:"other_va"`
	RangesKW  []unit.Kilowatts `json:"ranges_kw"`
	RangeKW   unit.Kilowatts   `json:"range_kw"`
	KW        []unit.Kilowatts `json:"kw"`
	Note3     bool             `json:"range_note3"`
	OnlyNote3 bool             `json:"note3"`
	EV        []unit.Amps      `json:"evse_a"`
	Reading   string           `json:"evse_reading"`
	Setting   *unit.Amps       `json:"setting_a"`
	Service   unit.Amps        `json:"service_a"`
	Peak      unit.Kilowatts   `json:"peak_kw"`
	Interval  int              `json:"interval_min"`
	Solar     bool             `json:"pv"`
	Data      string           `json:"data"`
	VA        json.RawMessage  `json:"va"`
	PerUnit   unit.VoltAmps    `json:"connected_va_per_unit"`
	Standard  unit.VoltAmps    `json:"standard_va"`
	ThreeVA   unit.VoltAmps    `json:"connected_va_three_units"`
	Bus       unit.Amps        `json:"bus_a"`
	Main      unit.Amps        `json:"main_a"`
	Output    unit.Amps        `json:"source_a"`
	Breakers  []unit.Amps      `json:"breakers_a"`
	Option    string           `json:"option"`
	Rating    unit.Amps        `json:"rating_a"`
	Conductor unit.Amps        `json:"service_conductor_a"`
	Other     unit.Amps        `json:"noncontinuous_a"`
	Contin    unit.Amps        `json:"continuous_a"`
	LineA     []unit.Amps      `json:"line_a"`
	LineB     []unit.Amps      `json:"line_b"`
	MotorA    unit.Amps        `json:"motor_a"`
	MotorB    unit.Amps        `json:"motor_b"`
	Primary   unit.Amps        `json:"primary_a"`
	Duty      float64          `json:"duty_pct"`
	Kind      string           `json:"kind"`
}
