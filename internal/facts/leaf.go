package facts

import (
	"fmt"
	"strings"

	"daybreak/internal/unit"
)

// Kind is the sort of value a leaf holds.
type Kind uint8

const (
	// Number is a real quantity; Unit says of what.
	Number Kind = iota + 1
	// Whole is a whole number.
	Whole
	// Money is a whole number of the shop currency's minor units.
	Money
	// Flag is true or false.
	Flag
	// Choice is one word of a closed list.
	Choice
	// Set is any number of words of a closed list; the empty set is an answer.
	Set
	// Text is an id or code of a stated form.
	Text
	// Day is a calendar date.
	Day
)

var kindWords = []string{"", "number", "whole", "money", "flag", "choice", "set", "text", "day"}

// String is the word for the kind.
func (k Kind) String() string { return wordAt(kindWords[1:], uint8(k)) }

// Leaf describes one leaf: its path, what it holds and what is accepted.
type Leaf struct {
	Index    int      // place in [Leaves]
	Path     string   // the same words in Go, on the wire, in the tree and in conditions
	Kind     Kind     //
	List     string   // of a Choice or Set: the name of its word list, "Parking"
	Words    []string // of a Choice or Set: the legal words
	Unit     string   // "A", "ft", "kWh/100 mi"; empty when the number is bare
	Low      float64  // least accepted value of a Number, Whole or Money
	High     float64  // greatest accepted value
	OneOf    []float64
	Step     float64 // accepted values are multiples of it; 0 when any will do
	Decimals int     // decimals worth printing
	form     *textForm
	cell     func(*Facts) cell
}

// At returns the slot of this leaf in f.
func (l *Leaf) At(f *Facts) Slot { return Slot{leaf: l, facts: f, cell: l.cell(f)} }

// Accepted says in words what the leaf accepts.
func (l *Leaf) Accepted() string {
	unit := ""
	if l.Unit != "" {
		unit = " " + l.Unit
	}
	switch l.Kind {
	case Number, Whole, Money:
		if len(l.OneOf) > 0 {
			parts := make([]string, len(l.OneOf))
			for i, x := range l.OneOf {
				parts[i] = unitPrint(x)
			}
			last := len(parts) - 1
			return strings.Join(parts[:last], ", ") + " or " + parts[last] + unit
		}
		s := unitPrint(l.Low) + " to " + unitPrint(l.High) + unit
		if l.Kind != Number {
			return "a whole number, " + s
		}
		if l.Step != 0 {
			s += ", in steps of " + unitPrint(l.Step)
		}
		return s
	case Flag:
		return "true or false"
	case Choice:
		return "one of " + strings.Join(l.Words, ", ")
	case Set:
		return "any of " + strings.Join(l.Words, ", ") + ", each once"
	case Day:
		return fmt.Sprintf("a date such as %04d-01-31, not before %04d-01-01", int(l.Low), int(l.Low))
	}
	return l.form.accepted
}

func unitPrint(x float64) string { return unit.Print(x, 3) }

func number[T ~float64](path, unitName string, low, high float64, decimals int, at func(*Facts) *Known[T]) *Leaf {
	return &Leaf{
		Path: path, Kind: Number, Unit: unitName, Low: low, High: high, Decimals: decimals,
		cell: func(f *Facts) cell { return numberCell[T]{at(f)} },
	}
}

func whole(path, unitName string, low, high float64, at func(*Facts) *Known[int]) *Leaf {
	return &Leaf{
		Path: path, Kind: Whole, Unit: unitName, Low: low, High: high,
		cell: func(f *Facts) cell { return wholeCell[int]{at(f)} },
	}
}

func money(path string, low, high float64, at func(*Facts) *Known[int64]) *Leaf {
	return &Leaf{
		Path: path, Kind: Money, Unit: "minor units", Low: low, High: high,
		cell: func(f *Facts) cell { return wholeCell[int64]{at(f)} },
	}
}

func flag(path string, at func(*Facts) *Known[bool]) *Leaf {
	return &Leaf{Path: path, Kind: Flag, High: 1, cell: func(f *Facts) cell { return flagCell{at(f)} }}
}

func choice[T ~uint8](path, list string, words []string, at func(*Facts) *Known[T]) *Leaf {
	return &Leaf{
		Path: path, Kind: Choice, List: list, Words: words, Low: 1, High: float64(len(words)),
		cell: func(f *Facts) cell { return wordCell[T]{at(f)} },
	}
}

func set[T ~uint32](path, list string, words []string, at func(*Facts) *Known[T]) *Leaf {
	return &Leaf{
		Path: path, Kind: Set, List: list, Words: words, High: float64(uint64(1)<<len(words) - 1),
		cell: func(f *Facts) cell { return wordCell[T]{at(f)} },
	}
}

func text(path string, form *textForm, at func(*Facts) *Known[string]) *Leaf {
	return &Leaf{Path: path, Kind: Text, form: form, cell: func(f *Facts) cell { return textCell{at(f)} }}
}

func day(path string, firstYear int, at func(*Facts) *Known[Date]) *Leaf {
	return &Leaf{Path: path, Kind: Day, Low: float64(firstYear), cell: func(f *Facts) cell { return dayCell{at(f)} }}
}

// oneOf limits a leaf to single values, all within its limits.
func (l *Leaf) oneOf(values ...float64) *Leaf {
	l.OneOf = values
	return l
}

// stepping limits a leaf to multiples of a step.
func (l *Leaf) stepping(step float64) *Leaf {
	l.Step = step
	return l
}
