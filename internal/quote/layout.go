package quote

import "daybreak/internal/working"

// inFull lays a weighed option out: its working, its worksheets and its bill
// line by line.
func (w *weighing) inFull(o *Option) (Option, error) {
	w.full = &working.Sheet{Steps: make([]working.Step, 0, usualSteps)}
	defer func() { w.full = nil }()
	full, err := w.again(o)
	full.Role, full.Findings, full.Working = o.Role, o.Findings, w.full.Steps
	return full, err
}

// usualSteps is room for the working of most options.
const usualSteps = 128

func (w *weighing) again(o *Option) (Option, error) {
	if o.Taken != nil {
		return w.remedyAgain(o)
	}
	if o.Way != ExistingOutlet {
		wired, err := w.wired(o.Way, o.Setting, o.Volts)
		if err != nil || !o.Managed {
			return wired, err
		}
		w.full = branched(w.full)
		return w.managed(wired)
	}
	for i := range w.outlets {
		if w.outlets[i].slot != o.OutletSlot {
			continue
		}
		j, err := w.judgeOne(i)
		if err != nil {
			return Option{}, err
		}
		for _, way := range j.verdict.Ways {
			if way.Kind == o.OutletWay.Kind {
				return w.existing(&j, way)
			}
		}
	}
	return *o, nil
}
