package edition

import "daybreak/internal/working"

// Amendment is one change that a jurisdiction makes to a code book: a switch
// of the book's closed list, and where the change is written.
type Amendment struct {
	Switch      string         // "ground_fault.hardwired_everywhere"
	Publication string         // whose change it is, as printed
	Section     string         // where it is written there
	Status      working.Status // how firmly that place is known
}
