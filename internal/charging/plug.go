package charging

import (
	"daybreak/internal/fault"
	"daybreak/internal/working"
)

// plugs are the configurations of household plugs and receptacles, with the
// receptacles that take the plug besides its own. Whatever is not listed does
// not fit and must never be made to by an adapter.
var plugs = map[string]string{
	"1-15": "", "5-15": "5-20", "5-20": "", "6-15": "6-20", "6-20": "", "6-30": "", "6-50": "", "10-30": "", "10-50": "",
	"14-30": "", "14-50": "", "14-60": "", "TT-30": "", "L5-30": "", "L6-20": "", "L6-30": "", "L14-30": "",
}

const plugNames = "1-15, 5-15, 5-20, 6-15, 6-20, 6-30, 6-50, 10-30, 10-50, 14-30, 14-50, 14-60, TT-30, L5-30, L6-20, L6-30 or L14-30"

// PlugFits says whether equipment with a plug goes into a receptacle, both by
// their NEMA configuration without letter P or R. There is no third answer: a
// plug that does not fit must not be adapted, and receptacles without a ground
// (1-15, 10-30, 10-50) take no charging equipment at all.
//
// Source: ANSI/NEMA WD 6; NEC 406.4, 625.44
func PlugFits(plug, receptacle string, sheet *working.Sheet) (Fit, error) {
	also, known := plugs[plug]
	if !known {
		return Fit{}, fault.Invalid("plug", plug, plugNames)
	}
	if _, known := plugs[receptacle]; !known {
		return Fit{}, fault.Invalid("receptacle", receptacle, plugNames)
	}
	fit := Fit{Joint: NoFit, Condition: "charging.plug.no", Source: plugFaces}
	switch {
	case receptacle == "1-15" || receptacle == "10-30" || receptacle == "10-50":
		fit.Condition = "charging.plug.no_ground"
	case plug == receptacle || also == receptacle:
		fit.Joint, fit.Condition = Direct, "charging.plug.direct"
	}
	sheet.Add(working.Step{
		Rule:   fit.Condition,
		In:     working.In(working.Word("plug", plug), working.Word("receptacle", receptacle)),
		Out:    working.Word("joint", fit.Joint.Word()),
		Source: fit.Source,
	})
	return fit, nil
}
