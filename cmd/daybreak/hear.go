package main

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/google/uuid"
)

// hear acts on one line. It reports true when the conversation is over.
func (t *talk) hear(ctx context.Context, q *daybreakv1.Question, line string) (bool, error) {
	switch line {
	case "":
		return false, nil
	case "q":
		return true, t.quote()
	case "?":
		fmt.Fprintf(t.out, "  %s\n", q.Why)
		for _, step := range q.Find {
			fmt.Fprintf(t.out, "  - %s\n", step)
		}
		return false, nil
	case "u":
		return false, t.undo(ctx)
	case "c":
		return false, t.change()
	case "!":
		t.again = "place.signs"
		return false, nil
	}
	answer, problem := t.read(q, line)
	if problem != "" {
		fmt.Fprintf(t.out, "  %s\n", problem)
		return false, nil
	}
	reply, err := t.intake.Answer(ctx, &daybreakv1.AnswerRequest{
		Name: t.session.Name, Answers: []*daybreakv1.Answer{answer},
		BaseRevision: t.session.Revision, RequestId: uuid.NewString(),
	})
	if err != nil {
		return false, t.said(err)
	}
	t.session, t.again, t.asked = reply.Session, "", ""
	t.react()
	return false, nil
}

// react says at once what is dangerous and what does not fit together.
func (t *talk) react() {
	for _, c := range t.session.Cautions {
		if c.Gravity == daybreakv1.CautionGravity_CAUTION_GRAVITY_HALTS {
			fmt.Fprintf(t.out, "\n  %s: %s\n  %s %s\n", strings.ToUpper(c.Level), c.Title, c.DoNow, c.WhoToCall)
		}
	}
	if t.session.Halted {
		fmt.Fprintf(t.out, "\n  %s\n", t.session.GetHalt().GetText())
	}
	for _, c := range t.session.Contradictions {
		fmt.Fprintf(t.out, "\n  %s\n", c.Text)
	}
}

// read turns a line into an answer, or says what would do.
func (t *talk) read(q *daybreakv1.Question, line string) (*daybreakv1.Answer, string) {
	a := &daybreakv1.Answer{Question: q.Id}
	switch line {
	case "-":
		a.Given = &daybreakv1.Answer_Unsure{Unsure: &daybreakv1.Unsure{}}
		return a, ""
	case "s":
		a.Given = &daybreakv1.Answer_Skip{Skip: &daybreakv1.Skip{}}
		return a, ""
	}
	switch q.Kind {
	case daybreakv1.QuestionKind_QUESTION_KIND_POSTAL, daybreakv1.QuestionKind_QUESTION_KIND_VEHICLE:
		a.Given = &daybreakv1.Answer_Text{Text: line}
		return a, ""
	case daybreakv1.QuestionKind_QUESTION_KIND_NUMBER:
		return readNumber(a, line)
	case daybreakv1.QuestionKind_QUESTION_KIND_HOUR:
		return readHour(a, line)
	}
	return readChoices(a, q, line)
}

func readNumber(a *daybreakv1.Answer, line string) (*daybreakv1.Answer, string) {
	value, unit, _ := strings.Cut(line, " ")
	n, err := strconv.ParseFloat(value, 64)
	if err != nil {
		return nil, "Type a number, and its unit if it is another one: 65 km."
	}
	a.Given = &daybreakv1.Answer_Number{Number: &daybreakv1.NumberAnswer{Value: n, Unit: strings.TrimSpace(unit)}}
	return a, ""
}

func readHour(a *daybreakv1.Answer, line string) (*daybreakv1.Answer, string) {
	hours, minutes, colon := strings.Cut(line, ":")
	h, err := strconv.ParseFloat(hours, 64)
	if colon && err == nil {
		var m float64
		if m, err = strconv.ParseFloat(minutes, 64); err == nil {
			h += m / 60
		}
	}
	if err != nil {
		return nil, "Type the hour of the day from 0 to 24: 18:30."
	}
	a.Given = &daybreakv1.Answer_Hour{Hour: h}
	return a, ""
}

func readChoices(a *daybreakv1.Answer, q *daybreakv1.Question, line string) (*daybreakv1.Answer, string) {
	var ids []string
	for _, field := range strings.FieldsFunc(line, func(r rune) bool { return r == ',' || r == ' ' }) {
		n, err := strconv.Atoi(field)
		if err != nil || n < 1 || n > len(q.Choices) {
			return nil, fmt.Sprintf("Type a number from 1 to %d.", len(q.Choices))
		}
		ids = append(ids, q.Choices[n-1].Id)
	}
	if q.Kind == daybreakv1.QuestionKind_QUESTION_KIND_SEVERAL {
		a.Given = &daybreakv1.Answer_Choices{Choices: &daybreakv1.ChoiceSet{Ids: ids}}
		return a, ""
	}
	if len(ids) != 1 {
		return nil, "Type one number."
	}
	a.Given = &daybreakv1.Answer_Choice{Choice: ids[0]}
	return a, ""
}

func (t *talk) undo(ctx context.Context) error {
	reply, err := t.intake.Undo(ctx, &daybreakv1.UndoRequest{
		Name: t.session.Name, BaseRevision: t.session.Revision, RequestId: uuid.NewString(),
	})
	if err != nil {
		return t.said(err)
	}
	t.session, t.asked, t.again = reply.Session, "", ""
	return nil
}

// change lists what is known and asks the chosen question again.
func (t *talk) change() error {
	var questions []string
	for _, c := range t.session.Chips {
		if c.Question == "" {
			continue
		}
		questions = append(questions, c.Question)
		fmt.Fprintf(t.out, "  %d  %s: %s\n", len(questions), c.Label, c.Value)
	}
	fmt.Fprint(t.out, "change > ")
	if !t.in.Scan() {
		return nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(t.in.Text()))
	if err != nil || n < 1 || n > len(questions) {
		fmt.Fprintln(t.out, "  Nothing changed.")
		return nil
	}
	t.again, t.asked = questions[n-1], ""
	return nil
}
