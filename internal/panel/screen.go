package panel

import "daybreak/internal/unit"

// Screen is what the quick screen of an easy house looks at: the input with
// whatever of the inventory is known, and what was said of two loads that
// change everything.
type Screen struct {
	Input      Input // Loads holds what is known; Chargers the one asked about
	Appliances *Appliances
	Zone       Zone
	Spa        Told
	Tankless   Told // electric, for the whole house; unsaid is taken as not there, to be seen on site
}

// Screened is what the quick screen finds.
type Screened struct {
	InventoryMatters bool
	Outcome          Outcome // 220.83 with every usual load supposed electric
	SpareShare       float64 // of the capacity
}

// QuickScreen says whether the appliances of a house are worth asking for. A
// service of 200 A or more without electric heat, spa or tankless heater, and
// a charger of at most 48 A, is calculated by 220.83 with every usual load
// supposed electric at its default plate. When that passes with room to spare,
// no inventory can change the verdict.
//
// Source: shop rule over NEC 220.83.
func QuickScreen(q Screen) (Screened, error) {
	r, s := q.Input.Rules, Screened{InventoryMatters: true}
	in := q.Input
	in.Management, in.Measured = Management{}, Measured{}
	if err := in.check(1 << ExistingDwelling); err != nil {
		return s, err
	}
	easy := float64(in.Supply.Capacity().Amps) >= r.screen.leastService && in.Heat.Kind == NoElectricHeat && q.Tankless != ToldYes &&
		q.Spa != ToldYes && in.Protection == Breakers && in.Carries == WholeDwelling && in.Stage == Existing
	total := unit.Amps(0)
	for i := range in.Chargers {
		total += in.Chargers[i].Setting
		easy = easy && in.Chargers[i].Plate == PlateKnown
	}
	if !easy || float64(total) > r.screen.mostCharger || q.Appliances == nil {
		return s, nil
	}
	spare := r.screen.spare
	in.Loads = q.Appliances.suppose(in.Loads, q.Appliances.screen)
	if q.Spa == Unsaid {
		in.Loads, spare = q.Appliances.suppose(in.Loads, q.Appliances.unseen), r.screen.unseenSpare
	}
	in.Cooling = max(in.Cooling, q.Appliances.CoolingByArea(in.FloorArea, q.Zone))
	out, err := By(in, ExistingDwelling)
	if err != nil || out.Refusal != Permitted {
		return s, err
	}
	capacity := in.Supply.Capacity().Amps
	s.Outcome, s.SpareShare = out, float64(out.spare(capacity)/capacity)
	s.InventoryMatters = s.SpareShare < spare
	return s, nil
}

// suppose adds the default plate of every kind the list does not have yet.
func (p *Appliances) suppose(loads []Load, kinds []LoadKind) []Load {
	out := append([]Load(nil), loads...)
next:
	for _, k := range kinds {
		for _, l := range loads {
			if l.Kind == k {
				continue next
			}
		}
		out = append(out, Load{Kind: k, VA: p.Of(k).Default, Count: 1})
	}
	return out
}
