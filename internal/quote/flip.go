package quote

import (
	"math"

	"daybreak/internal/panel"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// flip says on the best fit what would change the panel's verdict: the nearest
// change of one load, the next setting, another edition, and the measured peak
// or other lawful method that would show room. Under energy management it is
// the verdict without it.
func (w *weighing) flip(best *Option) error {
	if best == nil || best.Panel == nil {
		return nil
	}
	in := w.load
	kind := panel.NewCircuit
	if best.Way == ExistingOutlet {
		kind = panel.ExistingCircuit
	}
	in.Chargers = []panel.Charger{{Setting: loadOf(best), Volts: best.Volts, Circuit: kind}}
	found, err := panel.Flips(in, w.books.Load)
	if err != nil {
		return err
	}
	if f, ok := nearest(found, panel.FlipLoad, panel.FlipHeat, panel.FlipCooling); ok {
		best.Flips = append(best.Flips, flipped(f))
	}
	for _, fact := range []panel.FlipFact{panel.FlipPeak, panel.FlipSetting, panel.FlipEdition} {
		if f, ok := nearest(found, fact); ok {
			best.Flips = append(best.Flips, flipped(f))
		}
	}
	bare, err := panel.Calculate(in, nil)
	if err != nil {
		return err
	}
	for _, m := range bare.Measures {
		switch m.Kind {
		case panel.FindPeak:
			best.Flips = append(best.Flips, Said("quote.flip.find_peak", working.Num("peak", m.Peak, "kW")))
		case panel.OtherMethod:
			best.Flips = append(best.Flips, Said("quote.flip.other_method", working.Num("total", m.Total, "A")))
		}
	}
	return nil
}

// nearest is the smallest change among some facts, as a share of what the fact
// is now.
func nearest(found []panel.Flip, facts ...panel.FlipFact) (best panel.Flip, ok bool) {
	least := math.Inf(1)
	for _, f := range found {
		for _, fact := range facts {
			if f.Fact != fact {
				continue
			}
			if change := math.Abs(f.To - f.From); change < least {
				best, ok, least = f, true, change
			}
		}
	}
	return best, ok
}

func flipped(f panel.Flip) Sentence {
	verdict := working.Word("verdict", VerdictWord(f.Verdict))
	switch f.Fact {
	case panel.FlipSetting:
		return Said("quote.flip.setting", working.Num("to", unit.Amps(f.To), "A"), verdict)
	case panel.FlipPeak:
		return Said("quote.flip.measured_peak", working.Num("from", f.From, "kW"), working.Num("to", f.To, "kW"), verdict)
	case panel.FlipEdition:
		return Said("quote.flip.edition", working.Word("to", unit.Print(f.To, 0)), verdict)
	case panel.FlipLoad:
		return Said("quote.flip.load", working.Word("load", f.Load.String()), working.Num("from", f.From, "W"), working.Num("to", f.To, "W"), verdict)
	}
	return Said("quote.flip."+f.Fact.String(), working.Num("from", f.From, "W"), working.Num("to", f.To, "W"), verdict)
}
