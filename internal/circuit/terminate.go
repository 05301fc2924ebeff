package circuit

import "daybreak/internal/edition"

// Safer is the reading to plan on where a rule may be read in two ways.
func Safer(r edition.Requirement) edition.Requirement {
	if r == edition.AskAHJ {
		return edition.Required
	}
	return r
}
