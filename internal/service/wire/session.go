package wire

import (
	"strconv"
	"strings"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/intake"
	"daybreak/internal/intake/tree"
	"daybreak/internal/quote"
	"daybreak/internal/quote/caution"

	"google.golang.org/protobuf/types/known/timestamppb"
)

// Conversation is a session as it stands: what was said, what it comes to, and
// what is dangerous in it.
type Conversation struct {
	Name     string
	Revision string
	Created  time.Time
	Expires  time.Time
	Log      intake.Log
	State    intake.State
	Tree     *tree.Tree
	Findings []caution.Finding
	Open     *tree.Question // to ask now; nil when nothing is left
	// Names says what people call the thing an id names, such as a vehicle; ""
	// leaves the id. nil leaves all.
	Names func(leaf *facts.Leaf, id string) string
}

// value is a leaf's value as people read it, ids by what they name.
func (c *Conversation) value(words *tree.Words, l *facts.Leaf, v any) string {
	if id, ok := v.(string); ok && l.Kind == facts.Text && c.Names != nil {
		if name := c.Names(l, id); name != "" {
			return name
		}
	}
	return valueText(words, l, v)
}

// Session is a conversation on the wire, without its band.
func (w *Words) Session(c *Conversation) *daybreakv1.Session {
	out := &daybreakv1.Session{
		Name: c.Name, Revision: c.Revision, Locale: w.Locale,
		CreateTime: timestamppb.New(c.Created), ExpireTime: timestamppb.New(c.Expires),
		Turn:           w.turn(c),
		Chips:          w.chips(c),
		Entries:        w.entries(c),
		Contradictions: w.Contradictions(c.Findings, &c.State.Facts),
		Cautions:       w.Cautions(c.Findings, &c.State.Facts),
		Halted:         caution.Halted(c.Findings),
		Facts:          FactsMessage(&c.State.Facts),
	}
	if out.GetHalted() {
		out.Halt = w.say("session.halt")
	}
	return out
}

// turn is the question that is open.
func (w *Words) turn(c *Conversation) *daybreakv1.Turn {
	if c.Open == nil {
		return nil
	}
	out := &daybreakv1.Turn{Question: w.Question(c.Tree, c.Open), Answered: int32(c.State.Answered), Left: int32(c.State.Left)}
	if at, ok := c.State.Turn(c.Open.ID); ok && at.Kind == intake.Answered {
		if e, ok := c.Log.Entry(at.Entry); ok {
			out.Chosen = e.Answer.Choices
		}
	}
	if c.Open.Block == "panel_walk" && !c.walking() {
		out.LeadIn = said(quote.Said("help.walk"), w.treeWords(c.Tree).Help["walk"])
	}
	return out
}

// walking reports whether a question of the open one's block was answered
// already, so that the walk has begun.
func (c *Conversation) walking() bool {
	for _, t := range c.State.Turns {
		if t.Question.Block == c.Open.Block && t.Entry > 0 {
			return true
		}
	}
	return false
}

func (w *Words) chips(c *Conversation) []*daybreakv1.Chip {
	words := w.treeWords(c.Tree)
	var out []*daybreakv1.Chip
	for _, chip := range c.State.Chips(c.Tree) {
		one := &daybreakv1.Chip{
			Path: chip.Leaf.Path, Label: words.Leaves[chip.Leaf.Path], Value: c.value(words, chip.Leaf, chip.Value),
			Question: chip.Question, State: chipState(chip.State),
		}
		switch chip.State {
		case facts.Derived:
			one.Source = words.Bases[chip.Basis.String()]
		case facts.Unsure:
			one.Value = words.States["unsure"]
		case facts.Narrowed:
			one.Value = narrowedText(words, chip.Narrowing)
		}
		out = append(out, one)
	}
	return out
}

func chipState(s facts.State) daybreakv1.ChipState {
	switch s {
	case facts.Told:
		return daybreakv1.ChipState_CHIP_STATE_TOLD
	case facts.Derived:
		return daybreakv1.ChipState_CHIP_STATE_DERIVED
	case facts.Unsure:
		return daybreakv1.ChipState_CHIP_STATE_UNSURE
	case facts.Narrowed:
		return daybreakv1.ChipState_CHIP_STATE_NARROWED
	}
	return daybreakv1.ChipState_CHIP_STATE_UNSPECIFIED
}

func narrowedText(words *tree.Words, n *facts.Narrowing) string {
	if n == nil {
		return ""
	}
	var texts []string
	for _, v := range n.Values() {
		texts = append(texts, valueText(words, n.Leaf(), v))
	}
	if _, _, limits := n.Limits(); limits {
		return strings.Join(texts, " – ")
	}
	return strings.Join(texts, " / ")
}

// entries is the log as people read it; an undo shows in what it took back.
func (w *Words) entries(c *Conversation) []*daybreakv1.LogEntry {
	words := w.treeWords(c.Tree)
	counts, undone := map[int]intake.Turn{}, takenBack(c.Log)
	for _, t := range c.State.Turns {
		if t.Entry > 0 {
			counts[t.Entry] = t
		}
	}
	var out []*daybreakv1.LogEntry
	for number := 1; number <= c.Log.Len(); number++ {
		e, _ := c.Log.Entry(number)
		if e.Kind == intake.Undone {
			continue
		}
		one := &daybreakv1.LogEntry{
			Id: strconv.Itoa(number), Question: e.Question, QuestionText: words.Questions[e.Question].Words,
			AnswerText: c.answerText(words, e), Time: timestamppb.New(time.UnixMilli(e.At)),
		}
		turn, counted := counts[number]
		one.State = entryState(e.Kind, undone[number], counted || e.Kind == intake.Told, turn.SetAside)
		out = append(out, one)
	}
	return out
}

// takenBack are the numbers of the entries that an undo which still counts took
// back.
func takenBack(l intake.Log) map[int]bool {
	out := map[int]bool{}
	for number := l.Len(); number >= 1; number-- {
		if e, _ := l.Entry(number); e.Kind == intake.Undone && !out[number] {
			out[e.Undoes] = true
		}
	}
	return out
}

func entryState(k intake.Kind, undone, counts, setAside bool) daybreakv1.EntryState {
	switch {
	case undone:
		return daybreakv1.EntryState_ENTRY_STATE_UNDONE
	case !counts:
		return daybreakv1.EntryState_ENTRY_STATE_CHANGED
	case setAside:
		return daybreakv1.EntryState_ENTRY_STATE_SET_ASIDE
	case k == intake.Unsure:
		return daybreakv1.EntryState_ENTRY_STATE_UNSURE
	case k == intake.Skipped:
		return daybreakv1.EntryState_ENTRY_STATE_SKIPPED
	}
	return daybreakv1.EntryState_ENTRY_STATE_TOLD
}

// answerText is what was said, as people read it.
func (c *Conversation) answerText(words *tree.Words, e intake.Entry) string {
	switch e.Kind {
	case intake.Unsure:
		return words.Help["unsure"]
	case intake.Skipped:
		return words.Help["skip"]
	case intake.Told:
		return toldText(words, e.Facts)
	}
	q, ok := c.Tree.Question(e.Question)
	if !ok {
		return ""
	}
	var texts []string
	for _, id := range e.Answer.Choices {
		texts = append(texts, words.Questions[q.ID].Choices[id])
	}
	if e.Answer.HasNumber {
		texts = append(texts, numberText(words, q.Sets[0], e.Answer.Number))
	}
	if e.Answer.Text != "" {
		texts = append(texts, c.value(words, q.Sets[0], e.Answer.Text))
	}
	return strings.Join(texts, ", ")
}

func toldText(words *tree.Words, given []intake.Fact) string {
	var texts []string
	for _, f := range given {
		leaf, ok := facts.LeafAt(f.Path)
		if !ok {
			continue
		}
		var values []string
		for _, v := range f.Values {
			values = append(values, valueText(words, leaf, v))
		}
		texts = append(texts, words.Leaves[f.Path]+": "+strings.Join(values, " – "))
	}
	return strings.Join(texts, "; ")
}

// Band is the price range of a session by its quote.
func (w *Words) Band(revision string, q *quote.Quote) *daybreakv1.Band {
	b := q.Band
	out := &daybreakv1.Band{Revision: revision, Movers: w.movers(q), Standing: daybreakv1.Standing(q.Standing)}
	if b.Draws > 0 {
		out.Price = span(b.P10, b.P50, b.P90, b.Currency)
		low, high := amount("low", b.P10, b.Currency), amount("high", b.P90, b.Currency)
		out.Sentence = w.say("band.sentence", low, high)
		if b.Draws == 1 {
			out.Sentence = w.say("band.sentence.one", low, high)
		}
	}
	for i := range q.Options {
		if o := &q.Options[i]; o.Role&quote.BestFit != 0 {
			out.LeadingOption, out.LeadingTitle = o.ID, w.sentence(quote.TitleOf(o))
		}
	}
	return out
}
