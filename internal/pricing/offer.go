package pricing

import "daybreak/internal/unit"

// Offer is charging equipment the book sells, as a class.
type Offer struct {
	Code   string
	Words  string
	Output unit.Amps // rating on its plate
}

// Offer gives the cheapest equipment that meets every limit named, and false
// when the book sells none.
func (b *Book) Offer(e Equipment) (Offer, bool) {
	id, ok := b.charger(&e)
	if !ok {
		return Offer{}, false
	}
	it := &b.items[id]
	o := Offer{Code: it.code, Words: it.words}
	for i := range it.selects {
		if a := &it.selects[i]; a.kind == "evse" && len(a.settings) > 0 {
			o.Output = unit.Amps(a.settings[len(a.settings)-1])
		}
	}
	return o, true
}
