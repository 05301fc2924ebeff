package charging

import (
	"errors"
	"fmt"

	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

// Week is a run of days, one after another, told by battery energy.
type Week struct {
	Start   unit.KilowattHours   // in the battery on the first morning
	Limit   unit.KilowattHours   // the charge limit
	Reserve unit.KilowattHours   // what the driver will not go below
	Night   []unit.KilowattHours // put in each night; one value stands for all
	Need    []unit.KilowattHours // battery energy each day, 1 to 366 days
}

// WeekResult follows the battery through the days.
type WeekResult struct {
	Morning   []unit.KilowattHours
	Evening   []unit.KilowattHours
	End       unit.KilowattHours // on the morning after the last night
	ShortDays int                // days that ended below the reserve but for charging elsewhere
	Shortfall unit.KilowattHours // what was charged elsewhere
}

// RunWeek walks the days: the evening is the morning less the need, but never
// below the reserve, since what is missing is charged on the road; the next
// morning is the evening and the night, but never above the limit.
func RunWeek(w Week) (WeekResult, error) {
	if err := w.check(); err != nil {
		return WeekResult{}, err
	}
	r := WeekResult{}
	now := w.Start
	for i, need := range w.Need {
		r.Morning = append(r.Morning, now)
		now -= need
		if now < w.Reserve {
			r.ShortDays++
			r.Shortfall += w.Reserve - now
			now = w.Reserve
		}
		r.Evening = append(r.Evening, now)
		night := w.Night[0]
		if len(w.Night) > 1 {
			night = w.Night[i]
		}
		now = min(w.Limit, now+night)
	}
	r.End = now
	return r, nil
}

func (w Week) check() error {
	const most = unit.KilowattHours(500)
	err := errors.Join(
		above("limit_kwh", w.Limit, 0, most, "kWh"),
		within("start_kwh", w.Start, 0, most, "kWh"),
		within("reserve_kwh", w.Reserve, 0, most, "kWh"),
	)
	if err == nil && (w.Start > w.Limit || w.Reserve > w.Limit) {
		err = fault.Invalid("limit_kwh", float64(w.Limit), "at least the start and the reserve")
	}
	if len(w.Need) == 0 || len(w.Need) > 366 {
		err = errors.Join(err, fault.Invalid("need_kwh", len(w.Need), "1 to 366 days"))
	}
	if len(w.Night) != 1 && len(w.Night) != len(w.Need) {
		err = errors.Join(err, fault.Invalid("night_kwh", len(w.Night), "one night for all, or one for each day"))
	}
	for i, n := range w.Need {
		err = errors.Join(err, within(fmt.Sprintf("need_kwh[%d]", i), n, 0, 1000, "kWh"))
	}
	for i, n := range w.Night {
		err = errors.Join(err, within(fmt.Sprintf("night_kwh[%d]", i), n, 0, 1000, "kWh"))
	}
	return err
}
