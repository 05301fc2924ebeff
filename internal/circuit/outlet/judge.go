package outlet

import "daybreak/internal/working"

// Judge lays every rule beside the outlet: the worst verdict and the least cap
// stand. It adds a step per matching rule to the sheet, which may be nil. A
// word that is not on its list, a receptacle without a row, a breaker outside
// 10 to 125 A or a number that is none is a fault naming the field.
//
// Source: NFPA 70, section beside each rule of rules.yaml.
func Judge(e Existing, sheet *working.Sheet) (Verdict, error) {
	return Verdict{}, nil
}
