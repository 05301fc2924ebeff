// Package unit gives the quantities that cross a room's border a type of their
// own, so that amperes cannot be passed for watts.
//
// It answers: what is this number a number of, and how is it rounded and
// printed? Physical quantities are float64 underneath; inside a function you
// may drop to float64 with the unit in the name. Money is never a float: see
// [Money], an integer count of a currency's minor units, and [RoundRatio].
//
// Standards used: ISO 4217 for currency codes and their minor digits. The room
// knows nothing of locales; words for people are made at the edge.
package unit
