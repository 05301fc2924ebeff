// Package outlet judges the receptacle a household already has: may equipment
// for charging a vehicle use it, at which setting, and what must be done first?
//
// [Judge] takes an [Existing] outlet as it was described and lays every rule
// of rules.yaml beside it. The worst verdict among the matching rules stands,
// and the least of the caps. Configuration, breaker and wire are read
// together: the handle alone never settles what a circuit may carry, since a
// welder's circuit may lawfully have a breaker larger than its wire. Then
// [Verdict.Ways] says what could be made of the same wires, least work first:
// the receptacle put right, a smaller breaker, or equipment wired in.
//
// "Not known" is a word of the input. A rule that has a branch for it takes
// it; where none has, the outlet is judged on what is known, the missing
// reading stands in [Verdict.Verify], and [Verdict.Plan] is the setting to
// plan on meanwhile.
//
// Standards used: NFPA 70 (NEC) 2017 to 2026, articles 110, 210, 240, 250,
// 310, 400, 406, 625 and 630; ANSI/NEMA WD 6 for configurations. The sections
// stand beside each rule with how firmly they are known.
//
// The room does not design new circuits (see its parent), prices nothing and
// draws nothing; faces are drawn by document/plot.
package outlet
