package wire

import (
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/working"
)

// Working maps steps to a sheet in which each source stands once.
func (w *Words) Working(steps []working.Step) *daybreakv1.Working {
	if len(steps) == 0 {
		return nil
	}
	out := &daybreakv1.Working{Steps: make([]*daybreakv1.WorkingStep, len(steps))}
	places := map[working.Source]int32{}
	for i, s := range steps {
		step := &daybreakv1.WorkingStep{Rule: s.Rule, Result: term(s.Out), Formula: w.rules.Formula(s), Sentence: w.rules.Sentence(s)}
		for _, t := range s.In {
			if t.Name != "" {
				step.Terms = append(step.Terms, term(t))
			}
		}
		if s.Source != nil {
			place, known := places[*s.Source]
			if !known {
				place = int32(len(out.Sources))
				places[*s.Source] = place
				out.Sources = append(out.Sources, source(s.Source))
			}
			step.Source = &place
		}
		out.Steps[i] = step
	}
	return out
}

func term(t working.Term) *daybreakv1.WorkingTerm {
	out := &daybreakv1.WorkingTerm{Name: t.Name, Unit: t.Unit}
	if t.Word != "" {
		out.Value = &daybreakv1.WorkingTerm_Word{Word: t.Word}
	} else {
		out.Value = &daybreakv1.WorkingTerm_Number{Number: t.Value}
	}
	return out
}

func source(s *working.Source) *daybreakv1.WorkingSource {
	return &daybreakv1.WorkingSource{Publication: s.Publication, Section: s.Section, Cell: s.Cell, Status: status(s.Status)}
}

func status(s working.Status) daybreakv1.SourceStatus {
	switch s {
	case working.Verified:
		return daybreakv1.SourceStatus_SOURCE_STATUS_VERIFIED
	case working.SecondHand:
		return daybreakv1.SourceStatus_SOURCE_STATUS_VERIFIED_SECOND_HAND
	case working.FromMemory:
		return daybreakv1.SourceStatus_SOURCE_STATUS_FROM_MEMORY
	case working.Computed:
		return daybreakv1.SourceStatus_SOURCE_STATUS_COMPUTED
	case working.Judgement:
		return daybreakv1.SourceStatus_SOURCE_STATUS_ENGINEERING_JUDGEMENT
	}
	return daybreakv1.SourceStatus_SOURCE_STATUS_UNSPECIFIED
}

// section prints where a source is written, "NEC 2023, Table 310.16".
func section(s *working.Source) string {
	if s == nil {
		return ""
	}
	return strings.Trim(s.Publication+", "+s.Section, ", ")
}
