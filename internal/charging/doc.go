// Package charging says how much power reaches a car, how much energy it
// needs, and how many hours that takes.
//
// It answers, in the order a person asks: what limits my power ([Power], the
// least of all limits with the binding one named)? How many miles an hour is
// that ([MilesPerHour]) and how long from here to there ([ChargeTime])? What
// does a day's driving need, in January too ([Need], [Curve])? Is the night
// long enough ([Overnight]), and does this way of charging refill a heavy
// weekday of the coldest month ([RefillsWorstWeekday], the rule of *enough for
// now*)? Does the connector fit the inlet ([Fits]), the plug the receptacle
// ([PlugFits])? How does it charge away from home ([AwayFromHome])? Which car,
// which climate ([Vehicles], [Climates])?
//
// Cars come from our own table, from the US fuel-economy vehicles file
// ([ReadFuelEconomy]) or from a file of ours ([ReadVehicles], which
// [WriteListed] writes). What a row does not tell is a [Span] from its class and
// named as unsure, never a value.
//
// Two efficiencies are kept apart. Consumption of the US label is energy at
// the wall, losses at Level 2 included: distance needs no further efficiency,
// except that Level 1 delivers 0.93 of it ([Level.DistanceFactor]). State of
// charge needs battery energy: [Losses] turns wall power into battery power.
// Applying both counts the loss twice.
//
// Tables lie beside the code as CSV, each row with source and status; loaders
// take an fs.FS and name file and line of what is broken. Standards used: SAE
// J1772, SAE J3400, SAE J1634 through 40 CFR 600.311-12, NEC article 625.
//
// Read [Limits] first. The room quotes alternating current only; charging with
// direct current is explained as something away from home ([FastCharge]). It
// counts no days a year and prices nothing: rooms readiness and tariff do.
package charging
