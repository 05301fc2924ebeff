// Package readiness says on how many days a year a way of charging at home
// leaves its driver short.
//
// A day is short when it needs more energy than the battery holds at departure
// above the reserve. The room follows the deficit of the battery, the energy
// missing below the charge limit, from morning to morning: a day's driving
// adds to it, a night at the plug takes from it, and it stays between nothing
// and all that may be used. On a grid of deficits this is a Markov chain, solved
// whole for every month and day of the week: no draws, no noise. The same chain
// with nights that always refill, plugged in as usual and then every night at
// home, splits the short days into those *caused by this option*, those of
// nights not plugged in, and those *no home option cures*. Options are compared
// by the first alone.
//
// Read [Input] first, then [Assess]. One driver with many options asks
// [Prepare] once and [Model.Assess] for each. Two cars on one circuit are
// [AssessPair]; what the inputs themselves leave open is [Around].
//
// Days are independent of each other: measured daily distances hardly depend
// on the day before (Transportation Research Part D, 2021). Weekdays and
// weekends are structure and follow the calendar. Energy is counted in the
// battery: the label's wall energy times 0.90 (40 CFR 600.311-12).
//
// The room knows no prices, no circuits and no permission; it recommends
// nothing. Temperature is a monthly mean: a cold snap inside a month is not
// followed. Winter days are taken as long as summer days, which is the safer
// reading. The arithmetic errs by less than 0.1 %, and by less than 1 % where a
// commute, alike every day, takes almost what a night gives; the inputs weigh
// far more.
package readiness
