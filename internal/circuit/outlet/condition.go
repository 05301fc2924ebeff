package outlet

import (
	"math/bits"
	"strings"

	"daybreak/internal/fault"
)

// conditions lists what may be wrong with an outlet or stand between it and
// the equipment, in the order of their bits.
var conditions = [...]string{
	"arcing", "backstabbed", "bare_wire", "burnt", "buzz", "cracked", "hot", "loose_grip", "loose_in_wall",
	"melted", "open_ground", "painted", "reversed", "shock", "smell", "ungrounded_three_prong", "water", "worn",
	"aluminium", "extension_cord", "power_strip", "timer_plug",
}

// ConditionSet is a set of condition words. The zero value, once read, means
// that somebody looked and found nothing.
type ConditionSet uint32

// Conditions makes a set of words such as "burnt" or "loose_grip". A word that
// is not on the list is a fault that names it.
func Conditions(words ...string) (ConditionSet, error) {
	var set ConditionSet
	for _, w := range words {
		i := indexOf(conditions[:], w)
		if i < 0 {
			return 0, fault.Invalid("outlet.condition", w, strings.Join(conditions[:], ", "))
		}
		set |= 1 << i
	}
	return set, nil
}

// Has reports whether the set holds a word.
func (c ConditionSet) Has(word string) bool {
	i := indexOf(conditions[:], word)
	return i >= 0 && c&(1<<i) != 0
}

// Words lists the set in alphabetical order of what is wrong with the outlet,
// then what stands between.
func (c ConditionSet) Words() []string {
	out := make([]string, 0, bits.OnesCount32(uint32(c)))
	for i, w := range conditions {
		if c&(1<<i) != 0 {
			out = append(out, w)
		}
	}
	return out
}

func indexOf(list []string, word string) int {
	for i, w := range list {
		if w == word {
			return i
		}
	}
	return -1
}
