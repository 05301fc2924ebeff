package wire

import (
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/quote/caution"
)

// contradicts tells a pair of facts that cannot both be right from a danger.
func contradicts(f *caution.Finding) bool { return strings.HasPrefix(f.Code, "C-") }

// Cautions are the dangers among the findings, in their order, filled with the
// household's own values.
func (w *Words) Cautions(found []caution.Finding, f *facts.Facts) []*daybreakv1.Caution {
	var out []*daybreakv1.Caution
	for i := range found {
		if !contradicts(&found[i]) {
			out = append(out, w.caution(&found[i], f))
		}
	}
	return out
}

func (w *Words) caution(x *caution.Finding, f *facts.Facts) *daybreakv1.Caution {
	text := w.dangers.Of(*x, f)
	out := &daybreakv1.Caution{
		Code: x.Code, Gravity: gravity(x.Gravity), Reach: reach(x.Halts), Level: text.Level, Title: text.Title, Seen: text.Seen,
		DoNow: text.DoNow, Risk: text.Why, Ask: text.Ask, WhoToCall: text.Call, Paths: x.Leaves, Slot: x.Slot, Section: section(x.Source),
	}
	if x.Source != nil {
		out.Status = status(x.Source.Status)
	}
	if x.Emergency {
		out.Emergency = w.dangers.Emergency
	}
	return out
}

// Contradictions are the pairs of facts among the findings that do not fit
// together.
func (w *Words) Contradictions(found []caution.Finding, f *facts.Facts) []*daybreakv1.Contradiction {
	var out []*daybreakv1.Contradiction
	for i := range found {
		x := &found[i]
		if !contradicts(x) {
			continue
		}
		text := w.dangers.Of(*x, f)
		out = append(out, &daybreakv1.Contradiction{
			Code: x.Code, Paths: x.Leaves, Halts: x.Gravity == caution.Halt,
			Text: strings.TrimSpace(text.Seen + " " + text.DoNow),
		})
	}
	return out
}

func gravity(g caution.Gravity) daybreakv1.CautionGravity {
	switch g {
	case caution.Halt:
		return daybreakv1.CautionGravity_CAUTION_GRAVITY_HALTS
	case caution.AddsLines:
		return daybreakv1.CautionGravity_CAUTION_GRAVITY_ADDS_LINES
	case caution.Said:
		return daybreakv1.CautionGravity_CAUTION_GRAVITY_SAID
	case caution.ToBeChecked:
		return daybreakv1.CautionGravity_CAUTION_GRAVITY_TO_BE_CHECKED
	}
	return daybreakv1.CautionGravity_CAUTION_GRAVITY_UNSPECIFIED
}

func reach(r caution.Reach) daybreakv1.CautionReach {
	switch r {
	case caution.Nothing:
		return daybreakv1.CautionReach_CAUTION_REACH_NOTHING
	case caution.Quote:
		return daybreakv1.CautionReach_CAUTION_REACH_QUOTE
	case caution.ExistingOutlet:
		return daybreakv1.CautionReach_CAUTION_REACH_EXISTING_OUTLET
	case caution.OptionsUsing:
		return daybreakv1.CautionReach_CAUTION_REACH_OPTIONS_USING
	}
	return daybreakv1.CautionReach_CAUTION_REACH_UNSPECIFIED
}
