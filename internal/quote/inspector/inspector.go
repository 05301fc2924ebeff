package inspector

import (
	"daybreak/internal/circuit"
	"daybreak/internal/facts"
	"daybreak/internal/quote"
)

// Violation is one place where a quote breaks a rule.
type Violation struct {
	Rule    string // name of the rule, "drop-within-limit"
	Option  string // id of the option; "" when it is about the whole quote
	Saw     string // what stands on the quote
	Allowed string // what the rule allows there
	Section string // where it is written
}

// Inspector checks quotes by one set of tables. It is read-only and safe for
// concurrent use.
type Inspector struct{ tables *tables }

// Inspect checks a quote against the household it was made for, every leaf
// filled, by the tables that ship with the program. It returns nothing when
// nothing was found. Tables that do not load are a violation too: what cannot
// be checked has not passed.
//
// Source: the rules of [Rules], each with its own.
func Inspect(q *quote.Quote, filled *facts.Facts) []Violation {
	in, err := shipped()
	if err != nil {
		return []Violation{{Rule: "tables", Saw: err.Error(), Allowed: "tables that load"}}
	}
	return in.Inspect(q, filled)
}

// Inspect checks a quote by this inspector's tables.
func (in *Inspector) Inspect(q *quote.Quote, filled *facts.Facts) []Violation {
	s := &sight{tables: in.tables, quote: q, facts: filled, year: yearOf(q.Edition)}
	s.readRoute()
	s.readLoads()
	for i := range rules {
		s.rule = &rules[i]
		s.option = nil
		if s.rule.quote != nil {
			s.rule.quote(s)
			continue
		}
		for _, list := range [][]quote.Option{q.Options, q.Others} {
			for k := range list {
				s.option = &list[k]
				s.shown = k < len(q.Options) && s.option == &q.Options[k]
				s.rule.each(s, s.option)
			}
		}
	}
	return s.found
}

// sight is one quote under inspection: what the inspector reads off it and off
// the house, worked out once.
type sight struct {
	*tables
	quote *quote.Quote
	facts *facts.Facts
	year  int // of the edition printed on the quote

	rule   *rule
	option *quote.Option
	shown  bool // the option is one of those offered
	found  []Violation

	route route
	loads loads
}

// breaks notes a violation of the rule in hand.
func (s *sight) breaks(saw, allowed string) {
	v := Violation{Rule: s.rule.Name, Saw: saw, Allowed: allowed, Section: s.rule.Section}
	if s.option != nil {
		v.Option = s.option.ID
	}
	s.found = append(s.found, v)
}

// holds notes a violation unless a condition holds.
func (s *sight) holds(ok bool, saw, allowed string) {
	if !ok {
		s.breaks(saw, allowed)
	}
}

// built is the designed circuit of an option, or nil when it has none.
func built(o *quote.Option) *circuit.Result {
	if o.Circuit == nil || o.Circuit.Outcome != circuit.Designed {
		return nil
	}
	return o.Circuit
}

// yearOf reads the year at the end of an edition's name; 0 when there is none.
func yearOf(name string) int {
	year := 0
	for _, r := range name[max(0, len(name)-4):] {
		if r < '0' || r > '9' {
			return 0
		}
		year = year*10 + int(r-'0')
	}
	return year
}
