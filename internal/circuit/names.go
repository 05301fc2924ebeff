package circuit

import (
	"fmt"

	"daybreak/internal/edition"
)

var methodNames = [edition.MethodKinds]string{edition.NMB: "NM-B", edition.UFB: "UF-B", edition.MC: "MC", edition.SER: "SER",
	edition.THWN2: "THWN-2", edition.XHHW2: "XHHW-2", edition.THWNWet: "THWN"}

var racewayNames = [edition.RacewayKinds]string{edition.EMT: "EMT", edition.PVC40: "PVC 40", edition.PVC80: "PVC 80", edition.RMC: "RMC",
	edition.AluminiumConduit: "aluminium conduit", edition.IMC: "IMC", edition.FMC: "FMC", edition.LFMC: "LFMC",
	edition.LFNCA: "LFNC-A", edition.LFNCB: "LFNC-B", edition.ENT: "ENT"}

var methodInRaceway = func() (out [edition.MethodKinds][edition.RacewayKinds]string) {
	for m := range out {
		for r := range out[m] {
			out[m][r] = methodNames[m]
			if r != int(edition.NoRaceway) && methodNames[m] != "" {
				out[m][r] += " in " + racewayNames[r]
			}
		}
	}
	return out
}()

// MethodName is a way of wiring as the trade writes it: "NM-B", "THWN-2 in
// EMT". It is "" for what is none.
func MethodName(m edition.Method, r edition.Raceway) string {
	if int(m) >= edition.MethodKinds || int(r) >= edition.RacewayKinds {
		return ""
	}
	return methodInRaceway[m][r]
}

// RacewayName is a raceway as the trade writes it, "EMT"; "" for none.
func RacewayName(r edition.Raceway) string {
	if int(r) >= edition.RacewayKinds {
		return ""
	}
	return racewayNames[r]
}

// String is a part as the trade writes it: "NM-B 6 AWG, 3 wires, ground 10
// AWG" or "THWN-2 in EMT 3/4: 2 × 6 AWG, ground 10 AWG".
func (p *Part) String() string {
	name := MethodName(p.Method, p.Raceway)
	if p.Metal == edition.Aluminium {
		name = "aluminium " + name
	}
	if p.Hot.None() {
		return name
	}
	if p.Ground.None() {
		return name + " " + p.Hot.String()
	}
	if p.Method.Cable() {
		return fmt.Sprintf("%s %s, %d wires, ground %s", name, p.Hot, p.Conductors(), p.Ground)
	}
	return fmt.Sprintf("%s %s: %d × %s, ground %s", name, p.Trade, p.Conductors(), p.Hot, p.Ground)
}

// Wiring is the candidate's parts, in the order of the route.
func (c *Candidate) Wiring() string {
	s := c.Parts[0].String()
	for i := 1; i < len(c.Parts) && c.Parts[i].Method != 0; i++ {
		s += "; then " + c.Parts[i].String()
	}
	return s
}

var limitWords = [...]string{"below 125 % of the load at the terminals", "below the load in its surroundings",
	"breaker too large for it", "voltage drop above the limit", "grounding conductor of the cable too small",
	"no raceway holds it", "may not be used on this route", "only if both ends are marked 75 °C", "not sold by the shop",
	"does not come large enough"}

// Words are the limits of the set, one by one.
func (l Limit) Words() (out []string) {
	for i, w := range limitWords {
		if l&(1<<i) != 0 {
			out = append(out, w)
		}
	}
	return out
}

var reasonWords = [...]string{"", "a trench of unknown cover", "a method not designed here", "the route would change method more than twice",
	"no allowed method may be used on this route", "no conductor passes all tests", "voltage drop above the limit in every size",
	"the charger allows no breaker that large", "no receptacle of that kind fits the breaker", "the shop stocks nothing that fits",
	"the building has a supply already", "no wiring may lie as shallow as can be dug"}

// String is the reason in a few words.
func (r Reason) String() string { return reasonWords[r] }

var remedyWords = [...]string{"", "a lower setting", "wiring in raceway", "terminals marked 75 °C, seen on site", "hardwiring",
	"a plug of a larger configuration", "a shorter route", "a design by an electrician",
	"one feeder in place of the old supply", "a deeper trench", "a larger conductor"}

// String is the remedy in a few words.
func (r Remedy) String() string { return remedyWords[r] }

var noteWords = [...]string{"", "ground-fault protection may be read two ways: the GFCI breaker is priced; ask the AHJ",
	"the setting does not count: the circuit carries the rating plate", "above the limit for plugs the charger is hardwired",
	"hardwired outdoors for contact and weather; ground-fault rules still apply", "tighten every terminal to its marked torque",
	"terminals marked 75 °C at both ends would allow a smaller conductor", "larger conductor for voltage drop",
	"cable low on a wall may be hit: raceway is priced; heights are local practice", "cable may not be used outdoors, in raceway neither",
	"no cable in a concrete building", "work for licensed people; the local authority decides",
	"a disconnect at the building; a circuit alone needs no ground rod there",
	"an extra supply for listed charging equipment may be allowed: ask the AHJ",
	"have buried lines marked before digging", "the grounding conductor suits the terminals, marked or not",
	"the old supply is taken out: one supply to a building", "neutral and ground stay apart in the panel fed",
	"aluminium only where both ends are marked for it"}

// String is the note in one line.
func (n Note) String() string { return noteWords[n] }

var segmentWords = [...]string{"", "open framing", "fished", "attic", "crawl space", "surface", "outside", "trench"}

// String is the kind of stretch in the trade's words.
func (k SegmentKind) String() string { return segmentWords[k] }

var itemWords = [...]string{"", "breaker", "cable", "raceway", "conductor", "grounding conductor", "supports", "connector",
	"junction box", "nail plate", "wall entry, sealed", "device box", "receptacle", "cover", "disconnect", "label",
	"sleeve", "flexible whip", "expansion fitting", "firestop", "subpanel", "ground rod", "electrode conductor", "ground bar",
	"circuit moved", "old supply taken out"}

var groundWords = [...]string{"lawn", "bed", "gravel", "pavers", "concrete", "asphalt"}

// String is the ground in the trade's words.
func (g Ground) String() string { return groundWords[g] }

// String is the item in the trade's words.
func (i Item) String() string { return itemWords[i] }

// String is a need as one line of a take-off.
func (n *Need) String() string {
	s := fmt.Sprintf("%g × %s", n.Quantity, n.Item)
	switch n.Item {
	case CableItem, RacewayItem, SupportItem, WireItem, GroundWireItem, SleeveItem, WhipItem, RodWireItem:
		s = fmt.Sprintf("%g ft %s", n.Quantity, n.Item)
	}
	for _, part := range [...]struct {
		there bool
		text  string
	}{
		{n.Amps > 0, fmt.Sprintf("%v A", n.Amps)}, {n.Poles > 0, fmt.Sprintf("%d-pole", n.Poles)}, {n.GFCI, "GFCI"},
		{n.Config != "", n.Config}, {n.Method != 0, MethodName(n.Method, n.Raceway)}, {n.Trade != "", string(n.Trade)},
		{!n.Size.None(), n.Size.String()}, {n.Conductors > 0, fmt.Sprintf("%d wires", n.Conductors)},
		{!n.Ground.None(), "ground " + n.Ground.String()}, {n.Volume > 0, fmt.Sprintf("at least %g in³", float64(n.Volume))},
		{n.Gangs > 0, fmt.Sprintf("%d-gang", n.Gangs)}, {n.Labels != 0, labelWords[n.Labels]},
		{n.Metal == edition.Aluminium, "aluminium"}, {n.Spaces > 0, fmt.Sprintf("%d spaces", n.Spaces)},
		{n.Run != 0, n.Run.String()}, {n.Run == Trench, n.Dug.String()}, {n.Cover > 0, fmt.Sprintf("%g in of cover", float64(n.Cover))},
		{n.Wet, "wet"},
	} {
		if part.there {
			s += ", " + part.text
		}
	}
	return s
}

var labelWords = map[LabelSet]string{CircuitLabel: "circuit directory", SettingLabel: "current setting", DisconnectLabel: "disconnect",
	BuriedLabel: "buried run"}
