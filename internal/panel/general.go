package panel

import (
	"math"

	"daybreak/internal/unit"
)

// GeneralSheet is what the general method is fed, for a dwelling, for part of
// one, or for several dwellings together.
type GeneralSheet struct {
	Units        int             // dwellings alike in area and circuits; 0 and 1 are one
	FloorArea    unit.SquareFeet // of each
	SmallCirc    int             // of each
	LaundryCir   int             // of each
	Fastened     []unit.VoltAmps
	Dryers       []unit.VoltAmps
	Cooking      []unit.Kilowatts
	Column       CookingColumn
	Heat         unit.VoltAmps
	Cooling      unit.VoltAmps
	LargestMotor unit.VoltAmps
	Chargers     []Charger
}

// GeneralLoad is the general method's result line by line.
type GeneralLoad struct {
	Lighting, Fastened, Cooking, Dryers, HVAC, Motor, Charging unit.VoltAmps
	Total                                                      unit.VoltAmps // chargers in full
	Continuous                                                 unit.VoltAmps // chargers at 125 %
	// Neutral is of lighting, cooking and dryers; appliances connected line to
	// neutral are to be added.
	Neutral unit.VoltAmps
}

// GeneralLoad calculates by the general method.
//
// Source: NEC article 220 Part III (article 120 in 2026).
func (r *Rules) GeneralLoad(s GeneralSheet) (GeneralLoad, error) {
	var g fastenedGroup
	for _, x := range s.Fastened {
		g.add(r, float64(x), 1)
	}
	lines := generalLines{
		lighting: r.tiered(float64(max(1, s.Units)) * r.generalVA(float64(s.FloorArea), s.SmallCirc, s.LaundryCir)),
		fastened: g.demand(r),
		dryers:   float64(r.DryerDemand(s.Dryers)),
		cooking:  float64(r.CookingDemand(s.Cooking, s.Column)),
		hvac:     r.noncoincidentVA(float64(s.Heat), float64(s.Cooling)),
		motor:    float64(s.LargestMotor) * r.motors.adder,
	}
	full, cont := 0.0, 0.0
	for _, c := range s.Chargers {
		load, err := r.ChargerLoad(c)
		if err != nil {
			return GeneralLoad{}, err
		}
		full, cont = full+float64(load.Full), cont+float64(load.Continuous)
	}
	return GeneralLoad{
		Lighting: va(lines.lighting), Fastened: va(lines.fastened), Cooking: va(lines.cooking), Dryers: va(lines.dryers),
		HVAC: va(lines.hvac), Motor: va(lines.motor), Charging: va(full),
		Total: va(lines.sum() + full), Continuous: va(lines.sum() + cont),
		Neutral: va(lines.lighting + r.neutral.factor*(lines.cooking+lines.dryers)),
	}, nil
}

// generalLines are the lines of the general method, chargers apart.
type generalLines struct {
	lighting, fastened, other, dryers, cooking, hvac, motor float64
}

func (g *generalLines) sum() float64 {
	return g.lighting + g.fastened + g.other + g.dryers + g.cooking + g.hvac + g.motor
}

// noncoincidentVA is the larger of heat and cooling; cooling that is not the
// larger is compared at the edition's factor.
func (r *Rules) noncoincidentVA(heat, cooling float64) float64 {
	if cooling < heat {
		cooling *= r.noncoincident.lesserCooling
	}
	return math.Max(heat, cooling)
}

// largestMotor is the largest motor of the dwelling, with the compressor of
// the heating or cooling that is counted.
func (in *Input) largestMotor(t *tally) float64 {
	motor := math.Max(t.motor, float64(in.Heat.Compressor))
	if in.Heat.Kind != HeatPumpAlone && in.Heat.Kind != HeatPumpWithStrips {
		motor = t.motor
	}
	if cool := float64(in.Cooling); cool >= in.Heat.nameplate() {
		motor = math.Max(motor, cool)
	}
	return motor
}

func (in *Input) generalLines(t *tally) generalLines {
	r := in.Rules
	return generalLines{
		lighting: r.tiered(t.lighting + t.small + t.laundry),
		fastened: t.fastened.demand(r),
		other:    t.other,
		dryers:   t.dryers.demand(r),
		cooking:  t.cooking.demand(r),
		hvac:     r.noncoincidentVA(in.Heat.nameplate(), float64(in.Cooling)),
		motor:    r.motors.adder * in.largestMotor(t),
	}
}

// generalOutcome is Part III: always lawful, and the only method for a feeder
// that does not carry a whole dwelling.
func (in *Input) generalOutcome(t *tally) Outcome {
	out := Outcome{Method: General, Source: in.Rules.general, NoLiteral: true}
	if in.Dwelling == Mobile && in.Carries == WholeDwelling {
		out.Refusal = RefusedMobile
		return out
	}
	lines, c := in.generalLines(t), &t.chargers
	alone := lines.sum()
	out.Base = va(alone + c.oldCont)
	out.set(in, Continuous, alone+c.oldCont+c.newCont)
	out.set(in, Full, alone+c.oldFull+c.newFull)
	return out
}
