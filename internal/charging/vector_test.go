package charging_test

import (
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"daybreak/internal/charging"
	"daybreak/internal/tools/vectortest"
	"daybreak/internal/unit"

	"github.com/stretchr/testify/require"
)

// inputs of all kinds; each kind reads its own.
type inputs struct {
	DutyPct       float64          `json:"duty_pct"`
	Amps          unit.Amps        `json:"amps"`
	Volts         unit.Volts       `json:"volts"`
	BreakerA      *unit.Amps       `json:"breaker_a"`
	EVSEA         *unit.Amps       `json:"evse_a"`
	CableA        *unit.Amps       `json:"cable_a"`
	OBCKW         *unit.Kilowatts  `json:"obc_kw"`
	OBCA          *unit.Amps       `json:"obc_a"`
	UsableKWh     float64          `json:"usable_kwh"`
	SocFrom       float64          `json:"soc_from"`
	SocTo         float64          `json:"soc_to"`
	SocStartTaper float64          `json:"soc_start_taper"`
	EndFraction   float64          `json:"end_fraction"`
	WallKW        unit.Kilowatts   `json:"wall_kw"`
	Efficiency    float64          `json:"efficiency"`
	Consumption   float64          `json:"kwh_per_100mi"`
	LevelFactor   *float64         `json:"level_factor"`
	Miles         unit.Miles       `json:"miles"`
	TempF         *unit.Fahrenheit `json:"temp_f"`
	Precondition  float64          `json:"precondition_wall_kwh"`
	WindowH       unit.Hours       `json:"window_h"`
	TAvgF         charging.Months  `json:"tavg_f"`
	AnnualMiles   unit.Miles       `json:"annual_miles"`
	EVs           []sharer         `json:"evs"`
	AvailableA    unit.Amps        `json:"available_a"`
	MinA          unit.Amps        `json:"min_a"`
	RangeMi       unit.Miles       `json:"range_mi"`
	Charge240H    unit.Hours       `json:"charge240_h"`
	Cents         float64          `json:"cents_per_kwh"`
	StartKWh      float64          `json:"start_kwh"`
	LimitKWh      float64          `json:"limit_kwh"`
	ReserveKWh    float64          `json:"reserve_kwh"`
	NightKWh      oneOrMany        `json:"night_kwh"`
	NeedKWh       []float64        `json:"need_kwh"`
	KW            []unit.Kilowatts `json:"kw"`
	MiPerH        []unit.Miles     `json:"mi_per_h"`
	Eta0          float64          `json:"eta0"`
	AuxKW         unit.Kilowatts   `json:"aux_kw"`
}

type sharer struct {
	WallKWh unit.KilowattHours `json:"wall_kwh"`
	MaxKW   unit.Kilowatts     `json:"max_kw"`
}

type oneOrMany []float64

func (o *oneOrMany) UnmarshalJSON(raw []byte) error {
	if strings.HasPrefix(string(raw), "[") {
		return json.Unmarshal(raw, (*[]float64)(o))
	}
	*o = make([]float64, 1)
	return json.Unmarshal(raw, &(*o)[0])
}

func kwh(in []float64) []unit.KilowattHours {
	var out []unit.KilowattHours
	for _, v := range in {
		out = append(out, unit.KilowattHours(v))
	}
	return out
}

type got = map[string]any

func TestVectorCharging(t *testing.T) {
	season, err := charging.LoadCurve(charging.Embedded())
	require.NoError(t, err)
	kind := func(f func(in inputs) (got, error)) vectortest.Run {
		return func(c vectortest.Case) (got, error) {
			var in inputs
			if err := json.Unmarshal(c.Inputs, &in); err != nil {
				return nil, err
			}
			return f(in)
		}
	}
	vectortest.Cases(t, "charging.json", map[string]vectortest.Run{
		"pilot_amps":          kind(pilotAmps),
		"pilot_duty":          kind(pilotDuty),
		"continuous":          kind(continuous),
		"session_power":       kind(sessionPower),
		"charge_time_battery": kind(chargeTime),
		"miles_per_hour":      kind(milesPerHour),
		"overnight":           kind(func(in inputs) (got, error) { return overnight(in, season) }),
		"max_daily_miles":     kind(func(in inputs) (got, error) { return mostMiles(in, season) }),
		"temperature_multiplier": kind(func(in inputs) (got, error) {
			m, err := season.At(*in.TempF, charging.Mid, nil)
			return got{"multiplier": m}, err
		}),
		"seasonal_average": kind(func(in inputs) (got, error) {
			y, err := season.Year(in.TAvgF, in.AnnualMiles, charging.Consumption(in.Consumption), charging.Mid)
			return got{"worst_month_multiplier": y.Worst, "best_month_multiplier": y.Best,
				"annual_multiplier": y.Average, "annual_wall_kwh": y.Energy}, err
		}),
		"shared_circuit": kind(sharedCircuit),
		"min_current": kind(func(in inputs) (got, error) {
			n, err := charging.Simultaneous(in.AvailableA, in.MinA)
			return got{"simultaneous": n}, err
		}),
		"epa_implied": kind(func(in inputs) (got, error) {
			full, kw, err := charging.LabelFull(in.RangeMi, charging.Consumption(in.Consumption), in.Charge240H)
			return got{"wall_kwh_full": full, "implied_kw": kw}, err
		}),
		"mpge": kind(func(in inputs) (got, error) {
			m, err := charging.MPGe(charging.Consumption(in.Consumption))
			return got{"mpge": m}, err
		}),
		"annual_cost":         kind(annualCost),
		"ac_taper":            kind(taper),
		"week":                kind(week),
		"implied_consumption": kind(impliedConsumption),
		"efficiency_model": kind(func(in inputs) (got, error) {
			kw, share, err := charging.Losses{Share: in.Eta0, Overhead: in.AuxKW}.Battery(in.WallKW)
			return got{"battery_kw": kw, "efficiency": share}, err
		}),
	})
}

func pilotAmps(in inputs) (got, error) {
	s, err := charging.PilotAmps(in.DutyPct)
	return got{"amps": s.Amps, "digital": s.Digital}, err
}

func pilotDuty(in inputs) (got, error) {
	d, err := charging.PilotDuty(in.Amps)
	return got{"duty_pct": d}, err
}

func continuous(in inputs) (got, error) {
	if in.BreakerA == nil {
		b, err := charging.BreakerFor(*in.EVSEA)
		return got{"breaker_a": b}, err
	}
	setting, kw, err := charging.Continuous(*in.BreakerA, in.Volts)
	return got{"evse_max_a": setting, "kw": kw}, err
}

func limit[T ~float64](v *T) charging.Cap[T] {
	if v == nil {
		return charging.None[T]()
	}
	return charging.At(*v)
}

func limits(in inputs) charging.Limits {
	l := charging.Limits{
		Supply: in.Volts, Breaker: limit(in.BreakerA), Receptacle: charging.None[unit.Amps](),
		Setting: limit(in.EVSEA), Cable: limit(in.CableA), Managed: charging.None[unit.Amps](), OnboardKW: limit(in.OBCKW),
	}
	if in.OBCA != nil {
		l.OnboardAmps = charging.At(*in.OBCA)
	}
	return l
}

func sessionPower(in inputs) (got, error) {
	r, err := charging.Power(limits(in), nil)
	return got{"kw": r.Wall, "limit": r.Binding.Word()}, err
}

func chargeTime(in inputs) (got, error) {
	if in.WallKW == 0 {
		r, err := charging.Power(limits(in), nil)
		if err != nil {
			return nil, err
		}
		in.WallKW = r.Wall
	}
	c, err := charging.ChargeTime(charging.Session{
		Usable: unit.KilowattHours(in.UsableKWh), From: in.SocFrom, To: in.SocTo,
		Wall: in.WallKW, Losses: charging.Losses{Share: in.Efficiency},
	}, nil)
	return got{"battery_kwh": c.Battery, "wall_kwh": c.Wall, "hours": c.Hours}, err
}

func factor(in inputs) float64 {
	if in.LevelFactor != nil {
		return *in.LevelFactor
	}
	return 1
}

func milesPerHour(in inputs) (got, error) {
	m, err := charging.MilesPerHour(in.WallKW, charging.Consumption(in.Consumption), factor(in), nil)
	return got{"mi_per_h": m}, err
}

func multiplier(in inputs, season charging.Curve) (float64, error) {
	if in.TempF == nil {
		return 1, nil
	}
	return season.At(*in.TempF, charging.Mid, nil)
}

func overnight(in inputs, season charging.Curve) (got, error) {
	m, err := multiplier(in, season)
	if err != nil {
		return nil, err
	}
	need, err := charging.Need(charging.Trip{Miles: in.Miles, Consumption: charging.Consumption(in.Consumption),
		Multiplier: m, Precondition: unit.KilowattHours(in.Precondition)}, nil)
	if err != nil {
		return nil, err
	}
	r, err := charging.Overnight(need, charging.Night{Wall: in.WallKW, Factor: factor(in), Window: in.WindowH}, nil)
	return got{"need_wall_kwh": r.Need, "hours": r.Hours, "fits": r.Fits, "shortfall_kwh": r.Shortfall}, err
}

func mostMiles(in inputs, season charging.Curve) (got, error) {
	m, err := multiplier(in, season)
	if err != nil {
		return nil, err
	}
	miles, err := charging.MaxDailyMiles(charging.Night{Wall: in.WallKW, Factor: factor(in), Window: in.WindowH},
		charging.Consumption(in.Consumption), m, nil)
	return got{"miles": miles}, err
}

func sharedCircuit(in inputs) (got, error) {
	_, kw, err := charging.Continuous(*in.BreakerA, in.Volts)
	if err != nil {
		return nil, err
	}
	var cars []charging.Sharer
	for _, e := range in.EVs {
		cars = append(cars, charging.Sharer{Need: e.WallKWh, Most: e.MaxKW})
	}
	done, err := charging.Share(kw, cars, nil)
	return got{"finish_h": done}, err
}

func annualCost(in inputs) (got, error) {
	usd, _ := unit.CurrencyOf("USD", 2)
	kwh, cost, err := charging.YearAtOnePrice(in.Miles, charging.Consumption(in.Consumption), in.Cents, usd)
	if err != nil {
		return nil, err
	}
	printed, err := strconv.ParseFloat(strings.TrimSuffix(cost.String(), " USD"), 64)
	return got{"wall_kwh": kwh, "usd": printed}, err
}

func taper(in inputs) (got, error) {
	t, err := charging.TaperFrom(in.SocStartTaper, in.WallKW, in.EndFraction)
	if err != nil {
		return nil, err
	}
	c, err := charging.ChargeTime(charging.Session{Usable: unit.KilowattHours(in.UsableKWh), From: in.SocStartTaper, To: 1,
		Wall: in.WallKW, Losses: charging.Losses{Share: in.Efficiency}, Taper: t}, nil)
	return got{"flat_hours": c.Flat, "factor": c.Slower(), "hours": c.Hours}, err
}

func week(in inputs) (got, error) {
	r, err := charging.RunWeek(charging.Week{
		Start: unit.KilowattHours(in.StartKWh), Limit: unit.KilowattHours(in.LimitKWh), Reserve: unit.KilowattHours(in.ReserveKWh),
		Night: kwh(in.NightKWh), Need: kwh(in.NeedKWh),
	})
	return got{"morning_kwh": r.Morning, "evening_kwh": r.Evening, "short_days": r.ShortDays,
		"shortfall_kwh": r.Shortfall, "end_kwh": r.End}, err
}

func impliedConsumption(in inputs) (got, error) {
	var out []charging.Consumption
	for i, kw := range in.KW {
		c, err := charging.ImpliedConsumption(kw, in.MiPerH[i])
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	return got{"kwh_per_100mi": out}, nil
}
