package panel

import "math"

// tally is one pass over a dwelling's loads, in the groups the methods ask for.
type tally struct {
	lighting, small, laundry float64 // connected VA
	plates                   float64 // every appliance at nameplate, chargers apart
	fastened                 fastenedGroup
	dryers                   dryers
	dryerPlates              float64
	cooking                  cooking
	cookingPlates            float64
	rangePlates              float64 // free-standing ranges only, for the mobile home sheet
	other                    float64 // appliances in no demand group
	motor                    float64 // largest motor among the loads
	chargers                 chargers
}

func (in *Input) tally() (t tally) {
	r := in.Rules
	t.lighting = float64(in.FloorArea) * r.lighting.perSqFt
	t.small = float64(in.SmallCirc) * r.small.perCircuit
	t.laundry = float64(in.LaundryCir) * r.laundry.perCircuit
	for i := range in.Loads {
		t.add(r, in.Loads[i])
	}
	t.chargers = in.chargers()
	return t
}

func (t *tally) add(r *Rules, l Load) {
	k, va := r.loads[l.Kind], float64(l.VA)
	all := va * float64(l.Count)
	if k.class == ClassCharger || all == 0 {
		return
	}
	t.plates += all
	if k.motor {
		t.motor = math.Max(t.motor, va)
	}
	switch {
	case k.class == ClassCooking:
		t.cooking.add(r, va/1000, l.Count)
		t.cookingPlates += all
		if l.Kind == Range {
			t.rangePlates += all
		}
	case k.class == ClassDryer:
		t.dryers.add(r, va, l.Count)
		t.dryerPlates += all
	case k.fastened:
		t.fastened.add(r, va, l.Count)
	default:
		t.other += all
	}
}

// connected is lighting, circuits and nameplates in all, chargers and heat apart.
func (t *tally) connected() float64 { return t.lighting + t.small + t.laundry + t.plates }

// nameplate is the heat in all that can run at once, at full load.
func (h *Heat) nameplate() float64 {
	switch h.Kind {
	case HeatPumpAlone:
		return float64(h.Compressor)
	case HeatPumpWithStrips:
		if h.Interlock == NeverWithStrips {
			return math.Max(float64(h.Compressor), float64(h.VA))
		}
		return float64(h.Compressor) + float64(h.VA)
	case Resistance, Storage:
		return float64(h.VA)
	}
	return 0
}

// bracket takes the first part of a load in full and the rest at a factor.
func bracket(va, first, rest float64) float64 {
	return math.Min(va, first) + math.Max(0, va-first)*rest
}
