package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/google/uuid"
)

// signs is the question that the danger control asks, at any turn.
const signs = "place.signs"

// hear acts on one line. It reports true when the conversation is over.
func (t *talk) hear(ctx context.Context, q *daybreakv1.Question, line string) (bool, error) {
	switch line {
	case "":
		return false, nil
	case "q":
		return true, t.quote()
	case "h":
		fmt.Fprintln(t.out, chatHelp)
		return false, nil
	case "?":
		t.explain(q)
		return false, nil
	case "u":
		return false, t.undo(ctx)
	case "c":
		t.change()
		return false, nil
	case "g":
		return false, t.guess(ctx, q)
	case "!":
		t.again, t.asked = signs, ""
		return false, nil
	}
	answer, problem, err := t.read(ctx, q, line)
	if err != nil {
		return false, err
	}
	if problem != "" {
		fmt.Fprintf(t.out, "  %s\n", problem)
		return false, nil
	}
	return false, t.answer(ctx, answer)
}

// answer says one thing, and goes on with what it came to.
func (t *talk) answer(ctx context.Context, a *daybreakv1.Answer) error {
	reply, err := t.intake.Answer(ctx, &daybreakv1.AnswerRequest{
		Name: t.session.Name, Answers: []*daybreakv1.Answer{a},
		BaseRevision: t.session.Revision, RequestId: uuid.NewString(),
	})
	if err != nil {
		return t.refused(err)
	}
	t.moved(reply.Session)
	return nil
}

// guess does not know every question of a walk, such as those at the breaker
// box; asked alone, it does not know that one.
func (t *talk) guess(ctx context.Context, q *daybreakv1.Question) error {
	for {
		before := t.session.Revision
		if err := t.answer(ctx, &daybreakv1.Answer{Question: q.Id, Given: &daybreakv1.Answer_Unsure{Unsure: &daybreakv1.Unsure{}}}); err != nil {
			return err
		}
		next := t.session.GetTurn().GetQuestion()
		if t.session.Revision == before || next.GetBlock() == "" || next.GetBlock() != q.Block {
			return nil
		}
		q = next
	}
}

// explain says why a question is asked and how to find the answer.
func (t *talk) explain(q *daybreakv1.Question) {
	fmt.Fprintf(t.out, "  %s\n", q.Why)
	for _, step := range q.Find {
		fmt.Fprintf(t.out, "  - %s\n", step)
	}
}

// moved goes on with a session that has changed, and says at once what is
// dangerous and what does not fit together; each once.
func (t *talk) moved(s *daybreakv1.Session) {
	t.session, t.again, t.asked, t.offered = s, "", "", nil
	said := map[string]bool{}
	say := func(key, format string, args ...any) {
		if !t.said[key] {
			fmt.Fprintf(t.out, format, args...)
		}
		said[key] = true
	}
	for _, c := range s.Cautions {
		if c.Gravity == daybreakv1.CautionGravity_CAUTION_GRAVITY_HALTS {
			say(c.Code, "\n  %s: %s\n  %s %s\n", strings.ToUpper(c.Level), c.Title, c.DoNow, c.WhoToCall)
		}
	}
	if s.Halted {
		say("halt", "  %s\n", s.GetHalt().GetText())
	}
	for _, c := range s.Contradictions {
		say(c.Code, "\n  %s\n", c.Text)
	}
	t.said = said
}

func (t *talk) undo(ctx context.Context) error {
	if !slices.ContainsFunc(t.session.Entries, standing) {
		fmt.Fprintln(t.out, "  There is nothing to take back.")
		return nil
	}
	reply, err := t.intake.Undo(ctx, &daybreakv1.UndoRequest{
		Name: t.session.Name, BaseRevision: t.session.Revision, RequestId: uuid.NewString(),
	})
	if err != nil {
		return t.refused(err)
	}
	t.moved(reply.Session)
	return nil
}

// standing reports whether an entry still counts.
func standing(e *daybreakv1.LogEntry) bool {
	return e.State != daybreakv1.EntryState_ENTRY_STATE_UNDONE && e.State != daybreakv1.EntryState_ENTRY_STATE_CHANGED
}

// change lists what is known and asks the chosen question again.
func (t *talk) change() {
	var questions []string
	for _, c := range t.session.Chips {
		derived := c.State == daybreakv1.ChipState_CHIP_STATE_DERIVED
		if c.Question == "" || derived || slices.Contains(questions, c.Question) {
			continue
		}
		questions = append(questions, c.Question)
		fmt.Fprintf(t.out, "  %d  %s: %s\n", len(questions), c.Label, c.Value)
	}
	if len(questions) == 0 {
		fmt.Fprintln(t.out, "  Nothing is answered yet.")
		return
	}
	fmt.Fprint(t.out, "Change which? > ")
	if !t.in.Scan() {
		return
	}
	n, err := strconv.Atoi(strings.TrimSpace(t.in.Text()))
	if err != nil || n < 1 || n > len(questions) {
		fmt.Fprintln(t.out, "  Nothing is changed.")
		return
	}
	t.again, t.asked = questions[n-1], ""
}
