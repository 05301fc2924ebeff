package edition

import (
	"errors"
	"fmt"

	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Cited is an answer with the place it is written. Source is shared and must
// not be changed.
type Cited[T any] struct {
	Value  T
	Source *working.Source
}

// ErrUnanswerable is matched by every error that says the book has no answer
// to a question, such as the ampacity of a size it does not list.
var ErrUnanswerable = errors.New("the code book has no answer")

// Unanswerable names a question the book cannot answer. It is a word of the
// book's own limits, not a fault of the person who asked.
type Unanswerable struct {
	Book     string // "NEC 2023"
	Question string // "ampacity of 14 AWG aluminium"
	Why      string // "Table 310.16 gives none"
}

// Error says which book, what was asked and why there is no answer.
func (u *Unanswerable) Error() string {
	return fmt.Sprintf("%s: %s: %s", u.Book, u.Question, u.Why)
}

// Is makes errors.Is(err, ErrUnanswerable) true.
func (u *Unanswerable) Is(target error) bool { return target == ErrUnanswerable }

// OhmsPer1000Feet is a conductor's resistance or impedance per 1000 ft, one way.
type OhmsPer1000Feet float64

// CircularMils is a conductor's cross-section as the trade counts it; a book
// in square millimetres converts (1 mm² = 1973.525 cmil).
type CircularMils float64

// SquareInches is the area a conductor or raceway takes or offers.
type SquareInches float64

// CubicInches is the volume of a box or what fills it.
type CubicInches float64

// Cover is the least earth over a buried run, or Forbidden where the table
// gives no depth because that wiring may not lie there.
type Cover struct {
	Inches    unit.Inches
	Forbidden bool
}
