package charging

import (
	"slices"
	"strings"
	"unicode"
)

// Match is a vehicle found by search; Distance is how many letters had to be
// changed, 0 for an exact hit.
type Match struct {
	Vehicle  Vehicle
	Distance int
}

const (
	longestQuery = 100 // runes read of a query
	mostWords    = 8
)

// Search finds vehicles whose id or label holds every word of the query,
// nearest first, at most so many. It forgives one wrong letter in words of
// four, two from seven letters on, and takes a beginning of a word for the word.
func (v Vehicles) Search(query string, most int) []Match {
	asked := words(query)
	if len(asked) == 0 || most <= 0 {
		return nil
	}
	var found []Match
	for i, c := range v.rows {
		total, all := 0, true
		for _, q := range asked {
			d, ok := nearest(q, v.words[i])
			total += d
			all = all && ok
		}
		if all {
			found = append(found, Match{c, total})
		}
	}
	slices.SortStableFunc(found, func(a, b Match) int { return a.Distance - b.Distance })
	return found[:min(most, len(found))]
}

// words are the lower-case runs of letters and digits.
func words(s string) []string {
	if r := []rune(s); len(r) > longestQuery {
		s = string(r[:longestQuery])
	}
	w := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return w[:min(mostWords, len(w))]
}

func forgiven(word string) int {
	switch n := len([]rune(word)); {
	case n < 4:
		return 0
	case n < 7:
		return 1
	}
	return 2
}

func nearest(q string, has []string) (int, bool) {
	best := forgiven(q) + 1
	for _, h := range has {
		if strings.HasPrefix(h, q) {
			return 0, true
		}
		best = min(best, editDistance([]rune(q), []rune(h)))
	}
	return best, best <= forgiven(q)
}

// editDistance counts insertions, deletions, changes and swaps of neighbours
// (optimal string alignment).
func editDistance(a, b []rune) int {
	before := make([]int, len(b)+1)
	last := make([]int, len(b)+1)
	now := make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last, now = last, now, before
	}
	return last[len(b)]
}
