package quote

import (
	"daybreak/internal/circuit"
	"daybreak/internal/edition"
)

// ReasonWord is why a circuit was not designed, as words and data spell it.
func ReasonWord(r circuit.Reason) string {
	return wordOf([]string{"none", "underground", "other_method", "too_many_changes", "no_method_fits",
		"no_conductor", "drop_too_high", "device_above_equipment", "no_receptacle", "nothing_stocked", "second_supply", "too_shallow"}, int(r))
}

// WireWord is a circuit's wire as data spells it: "8 AWG copper NM-B".
func WireWord(c *circuit.Candidate) string {
	out := ""
	for i := range c.Parts {
		p := &c.Parts[i]
		if p.Method == 0 {
			continue
		}
		if out != "" {
			out += ", "
		}
		out += p.Hot.String() + " " + metalWord(p.Metal) + " " + methodWord(p)
	}
	return out
}

func metalWord(m edition.Material) string {
	if m == edition.Aluminium {
		return "aluminum"
	}
	return "copper"
}

func methodWord(p *circuit.Part) string {
	method := circuit.MethodName(p.Method, edition.NoRaceway)
	if p.Raceway == edition.NoRaceway {
		return method
	}
	return method + " in " + string(p.Trade) + " " + circuit.RacewayName(p.Raceway)
}

// GroundFaultWord is whether ground-fault protection is asked for, as data
// spells it.
func GroundFaultWord(r edition.Requirement) string {
	return map[edition.Requirement]string{edition.NotRequired: "no", edition.Required: "yes", edition.AskAHJ: "ask_the_ahj"}[r]
}
