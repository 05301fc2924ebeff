// Package fault says what is wrong, where, and what would be accepted.
//
// A fault is part of the product: it names the field of a request or the file
// and line of a data file, the value that was given and what would do instead.
// Kinds are ours, not a transport's; one function in room service turns a kind
// into a gRPC code, details and REST. An error that is no *Fault is internal:
// logged whole, shown to nobody.
//
// Read [Fault] first. A design that cannot be built is a result, not a fault.
package fault

import (
	"errors"
	"fmt"
	"strings"
)

// Kind says what sort of trouble it is and so what the caller may do about it.
type Kind uint8

const (
	// KindInvalid: the input is wrong; the same input will never do.
	KindInvalid Kind = iota + 1
	// KindNotFound: there is no such thing, or it is not the caller's.
	KindNotFound
	// KindConflict: the state moved on, or the request id was used for another body.
	KindConflict
	// KindDenied: the caller is not who may do this.
	KindDenied
	// KindPrecondition: the thing is in a state that does not allow it.
	KindPrecondition
	// KindExhausted: a limit was reached; later may do.
	KindExhausted
	// KindUnavailable: something we depend on is away; later will do.
	KindUnavailable
)

// Fault is one piece of trouble. Field is a path in the request, such as
// "facts.panel.service_amps"; File, Line and Field place it in a data file.
type Fault struct {
	Kind     Kind
	Reason   string // stable upper-case word for programs, such as STALE_REVISION
	Field    string
	File     string
	Line     int
	Got      string // what was given, cut to a printable length
	Accepted string // what would be accepted, in the words of the field
	Detail   string // one more sentence, where it helps
	Current  string // with STALE_REVISION: the revision in force
}

// Error gives the place first, then what was given, then what would do.
func (f *Fault) Error() string {
	var b strings.Builder
	if f.File != "" {
		b.WriteString(f.File)
		if f.Line > 0 {
			fmt.Fprintf(&b, ":%d", f.Line)
		}
		b.WriteString(": ")
	}
	if f.Field != "" {
		b.WriteString(f.Field + ": ")
	}
	switch {
	case f.Got != "" && f.Accepted != "":
		fmt.Fprintf(&b, "%s is not accepted; give %s", f.Got, f.Accepted)
	case f.Accepted != "":
		b.WriteString("give " + f.Accepted)
	}
	if f.Detail != "" {
		if f.Got != "" || f.Accepted != "" {
			b.WriteString("; ")
		}
		b.WriteString(f.Detail)
	}
	return b.String()
}

// Is makes errors.Is match on kind and, when the target names one, on reason.
func (f *Fault) Is(target error) bool {
	t, ok := target.(*Fault)
	return ok && t.Kind == f.Kind && (t.Reason == "" || t.Reason == f.Reason)
}

// Invalid faults a field of a request: what was given, and what is accepted.
func Invalid(field string, got any, accepted string) *Fault {
	return &Fault{Kind: KindInvalid, Reason: "INVALID_FIELD", Field: field, Got: short(got), Accepted: accepted}
}

// InFile faults a place in a data file. Line 0 means the file as a whole.
func InFile(file string, line int, field string, got any, accepted string) *Fault {
	return &Fault{Kind: KindInvalid, Reason: "INVALID_DATA", File: file, Line: line, Field: field, Got: short(got), Accepted: accepted}
}

// NotFound faults a name that is absent or another's; the two read alike.
func NotFound(field, name string) *Fault {
	return &Fault{Kind: KindNotFound, Reason: "NOT_FOUND", Field: field, Got: short(name), Accepted: "the name of something that exists and is yours"}
}

// As returns the fault inside err, if there is one.
func As(err error) (*Fault, bool) {
	var f *Fault
	ok := errors.As(err, &f)
	return f, ok
}

// All returns every fault inside a joined error, in order.
func All(err error) []*Fault {
	if err == nil {
		return nil
	}
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		var out []*Fault
		for _, e := range many.Unwrap() {
			out = append(out, All(e)...)
		}
		return out
	}
	if f, ok := As(err); ok {
		return []*Fault{f}
	}
	return nil
}

// short prints a value for a message: one line, at most 60 runes.
func short(v any) string {
	s := fmt.Sprint(v)
	if q, ok := v.(string); ok {
		s = fmt.Sprintf("%q", q)
	}
	if r := []rune(s); len(r) > 60 {
		return string(r[:57]) + "…"
	}
	return s
}
