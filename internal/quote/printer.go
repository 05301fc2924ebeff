package quote

import (
	"strconv"
	"strings"

	"daybreak/internal/pricing"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// printer writes the lines of a canonical body.
type printer struct{ out []byte }

func (p *printer) line(s string) { p.out = append(append(p.out, s...), '\n') }

// text writes a path and a value; a value never breaks the line.
func (p *printer) text(path, value string) {
	p.line(path + "\t" + strings.ReplaceAll(value, "\n", " "))
}

func (p *printer) flag(path string, v bool) { p.text(path, strconv.FormatBool(v)) }

func (p *printer) number(path string, v float64, decimals int) { p.text(path, number(v, decimals)) }

func (p *printer) sentence(path string, s Sentence) {
	if s.Empty() {
		return
	}
	line := s.Key
	for _, a := range s.Args {
		line += " " + a.Name + "=" + term(a)
	}
	p.text(path, line)
}

func (p *printer) sentences(path string, all []Sentence) {
	for _, s := range all {
		p.sentence(path, s)
	}
}

// number prints a quantity to stated decimals. It first drops what lies
// beyond twelve significant digits, so that platforms which fuse a multiply
// with an add print the same.
func number(v float64, decimals int) string {
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	return unit.Print(v, decimals)
}

func term(t working.Term) string {
	if t.Word != "" {
		return t.Word
	}
	return number(t.Value, 4) + t.Unit
}

func triple(t pricing.Triple) string {
	return minor(t[0]) + " " + minor(t[1]) + " " + minor(t[2])
}
