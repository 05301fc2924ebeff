package tree

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// order puts the questions in scripted order and holds gates and blocks.
func (b *builder) order() {
	scripted := b.doc.Order.Scripted
	for i, id := range scripted {
		q, ok := b.tree.byID[id]
		if !ok || slices.Contains(scripted[:i], id) {
			b.fault(id, "each question once", "order", "scripted", i)
			continue
		}
		q.Place = len(b.tree.questions)
		b.tree.questions = append(b.tree.questions, q)
	}
	if len(b.tree.questions) != len(b.tree.byID) {
		b.fault(len(b.tree.questions), fmt.Sprintf("all %d questions", len(b.tree.byID)), "order", "scripted")
		return
	}
	for i, g := range b.doc.Order.Gates {
		b.gate(i, g)
	}
	for _, name := range slices.Sorted(maps.Keys(b.doc.Order.Blocks)) {
		b.block(name, b.doc.Order.Blocks[name])
	}
	b.readsComeFirst()
}

func (b *builder) gate(i int, g gateDoc) {
	q, ok := b.tree.byID[g.Question]
	if !ok {
		b.fault(g.Question, "the id of a question", "order", "gates", i, "question")
		return
	}
	q.AmongFirst = max(q.AmongFirst, g.AmongFirst)
	if g.AmongFirst > 0 && q.Place >= g.AmongFirst {
		b.fault(fmt.Sprintf("place %d", q.Place+1), fmt.Sprintf("a scripted order with %s among the first %d", q.ID, g.AmongFirst), "order", "gates", i)
	}
	if g.AmongFirst == 0 && len(g.Before)+len(g.BeforeRooms) == 0 {
		b.fault("no rule", "among_first, before or before_rooms", "order", "gates", i)
	}
	for _, id := range g.Before {
		later, ok := b.tree.byID[id]
		if !ok || later.Place <= q.Place {
			b.fault(id, "a question that the scripted order asks after "+q.ID, "order", "gates", i, "before")
		}
	}
	for _, room := range g.BeforeRooms {
		for _, other := range b.tree.questions[:q.Place] {
			if strings.HasPrefix(other.ID, room+".") {
				b.fault(other.ID, "nothing about the "+room+" before "+q.ID, "order", "gates", i, "before_rooms")
			}
		}
	}
}

// block marks the questions of a block, which must be asked in its order.
func (b *builder) block(name string, ids []string) {
	place := -1
	for i, id := range ids {
		q, ok := b.tree.byID[id]
		if !ok || q.Block != "" || q.Place <= place {
			b.fault(id, "a question of this block alone, in the order of the script", "order", "blocks", name, i)
			return
		}
		q.Block, place = name, q.Place
	}
}

// readsComeFirst refuses a question whose condition rests on a later one.
func (b *builder) readsComeFirst() {
	for i, d := range b.doc.Questions {
		q := b.tree.byID[d.ID]
		if q == nil || q.When == nil {
			continue
		}
		for _, path := range q.When.Reads() {
			setters := b.tree.Setting(path)
			if len(setters) > 0 && setters[0].Place > q.Place {
				b.fault(path, "a fact that the scripted order asks for earlier", "questions", i, "when")
			}
		}
	}
}
