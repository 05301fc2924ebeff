package shop

import (
	codebook "daybreak/internal/edition"
	"daybreak/internal/edition/nec"
	"daybreak/internal/pricing/bookfile"
	"daybreak/internal/working"
)

// amended are the code books of jurisdictions that change them, by
// jurisdiction and year.
type amended map[string]map[int]codebook.Edition

// readAmendments reads what a jurisdiction changes, and opens its book of every
// year with the changes made: an unknown switch, or two at odds, is a fault of
// the list.
func readAmendments(n bookfile.Node, name string) map[int]codebook.Edition {
	if !n.OK() {
		return nil
	}
	var changes []codebook.Amendment
	for _, v := range n.Items() {
		v.Only("switch", "publication", "section", "status")
		changes = append(changes, codebook.Amendment{
			Switch:      v.At("switch").Text(),
			Publication: v.At("publication").Text(),
			Section:     v.At("section").Text(),
			Status: working.Status(v.At("status").Word(string(working.Verified), string(working.SecondHand),
				string(working.FromMemory), string(working.Judgement))),
		})
	}
	books := map[int]codebook.Edition{}
	for _, year := range nec.Years() {
		book, err := nec.Amended(nec.Embedded(), nec.EmbeddedSwitches(), year, name, changes)
		if err != nil {
			n.Fault(err, "switches of the closed list, none at odds with another")
			return nil
		}
		books[year] = book
	}
	return books
}

// EditionIn is the code book of a year as a jurisdiction has it in force: its
// own where it changes something, else the book as published. The error is a
// fault that names the years there are.
func (b *Books) EditionIn(jurisdiction string, year int) (codebook.Edition, error) {
	if own, ok := b.Jurisdictions.amended[jurisdiction][year]; ok {
		return own, nil
	}
	return b.Edition(year)
}
