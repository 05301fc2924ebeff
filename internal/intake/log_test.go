package intake_test

import (
	"fmt"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/intake"
	"daybreak/internal/intake/tree"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func Example() {
	t, err := tree.Load(tree.Embedded())
	if err != nil {
		fmt.Println(err)
		return
	}
	var log intake.Log
	w := &tree.World{}
	r, err := intake.Answer(log, t, w, "panel.main", tree.Answer{Choices: []string{"m100"}}, intake.Meta{Channel: "web", Base: intake.Head})
	if err != nil {
		fmt.Println(err)
		return
	}
	log = log.With(r.Entry) // once the store has it
	s := intake.Fold(log, t, w)
	amps, _ := s.Facts.Panel.ServiceAmps.Get()
	fmt.Println(amps, s.Open, s.Left)
	// Output:
	// 100 vehicle.model 54
}

var head = intake.Meta{Channel: "web", By: "shopper", Base: intake.Head}

// answerOf draws an answer that the question takes.
func answerOf(t *rapid.T, q *tree.Question) tree.Answer {
	switch q.Kind {
	case tree.Number, tree.Hour:
		return tree.Answer{Number: q.Sets[0].Nearest(rapid.Float64Range(q.Limits.Low, q.Limits.High).Draw(t, q.ID)), HasNumber: true}
	case tree.Postal:
		return tree.Answer{Text: "00010"}
	case tree.Vehicle:
		return tree.Answer{Text: "mid-sedan-long"}
	}
	c := q.Choices[rapid.IntRange(0, len(q.Choices)-1).Draw(t, q.ID)]
	a := tree.Answer{Choices: []string{c.ID}}
	if c.Enter != nil {
		a.Number, a.HasNumber = c.Enter.Nearest(25), true
	}
	return a
}

// A thousand walks that answer, pass over or do not know whatever is asked:
// each ends, asks no question twice, and asks for danger signs third at the
// latest and before anything about outlet, panel or route.
func TestEveryWalkEndsAndKeepsItsGates(t *testing.T) {
	tr := load(t)
	walks := 0
	rapid.Check(t, func(t *rapid.T) {
		for range 10 {
			walks++
			log, asked := intake.Log{}, map[string]bool{}
			s := intake.Fold(log, tr, &world)
			for s.Open != "" {
				q, _ := tr.Question(s.Open)
				require.False(t, asked[q.ID], "%s asked again", q.ID)
				asked[q.ID] = true
				if !asked["place.signs"] {
					require.Less(t, len(asked), 3)
					require.NotRegexp(t, `^(outlet|panel|route)\.`, q.ID)
				}
				var r intake.Reply
				var err error
				switch rapid.IntRange(0, 9).Draw(t, "way") {
				case 0:
					r, err = intake.DontKnow(log, tr, &world, q.ID, head)
				case 1:
					r, err = intake.Skip(log, tr, &world, q.ID, head)
				default:
					r, err = intake.Answer(log, tr, &world, q.ID, answerOf(t, q), head)
				}
				require.NoError(t, err, q.ID)
				log, s = log.With(r.Entry), r.State
			}
			require.LessOrEqual(t, len(asked), len(tr.Questions()))
			f := s.Facts
			tr.Central(&f, &world)
			require.True(t, f.Panel.ServiceAmps.Has() && f.Route.PanelToChargerFeet.Has())
		}
	})
	require.GreaterOrEqual(t, walks, 1000)
}

// randomLog answers some questions in any order, as a desk may.
func randomLog(t *rapid.T, tr *tree.Tree) intake.Log {
	log := intake.Log{}.With(intake.Entry{Kind: intake.Unsure, Question: "place.area"})
	for range rapid.IntRange(1, 15).Draw(t, "entries") {
		q := rapid.SampledFrom(tr.Questions()).Draw(t, "question")
		if r, err := intake.Answer(log, tr, &world, q.ID, answerOf(t, q), head); err == nil {
			log = log.With(r.Entry)
		}
	}
	return log
}

func TestUndoThenUndoOfTheUndoChangesNothing(t *testing.T) {
	tr := load(t)
	rapid.Check(t, func(t *rapid.T) {
		log := randomLog(t, tr)
		before := intake.Fold(log, tr, &world)
		number := rapid.IntRange(1, log.Len()).Draw(t, "entry")
		r, err := intake.Undo(log, tr, &world, number, head)
		require.NoError(t, err)
		log = log.With(r.Entry)
		require.Equal(t, log.Len(), r.State.Number)
		require.Equal(t, map[int]bool{number: true}, log.Undone())
		r, err = intake.Undo(log, tr, &world, log.Len(), head)
		require.NoError(t, err)
		require.True(t, before.Facts == r.State.Facts)
		require.Equal(t, before.Open, r.State.Open)
	})
}

// Answers to different questions commute: what is known depends on what was
// said, not on the order in which independent things were said.
func TestTheOrderOfAnswersDoesNotMatter(t *testing.T) {
	tr := load(t)
	rapid.Check(t, func(t *rapid.T) {
		answers := map[string]intake.Entry{}
		for range rapid.IntRange(2, 15).Draw(t, "entries") {
			q := rapid.SampledFrom(tr.Questions()).Draw(t, "question")
			answers[q.ID] = intake.Entry{Kind: intake.Answered, Question: q.ID, Answer: answerOf(t, q)}
		}
		var ids []string
		for _, q := range tr.Questions() {
			if _, ok := answers[q.ID]; ok {
				ids = append(ids, q.ID)
			}
		}
		shuffled := rapid.Permutation(ids).Draw(t, "order")
		var one, other intake.Log
		for i := range ids {
			one, other = one.With(answers[ids[i]]), other.With(answers[shuffled[i]])
		}
		require.True(t, intake.Fold(one, tr, &world).Facts == intake.Fold(other, tr, &world).Facts)
	})
}

func TestALogIsAValue(t *testing.T) {
	tr := load(t)
	one, err := intake.Answer(intake.Log{}, tr, &world, "place.tenure", tree.Answer{Choices: []string{"own"}}, head)
	require.NoError(t, err)
	log := intake.Log{}.With(one.Entry)
	left := log.With(intake.Entry{Kind: intake.Skipped, Question: "place.area"})
	right := log.With(intake.Entry{Kind: intake.Unsure, Question: "place.area"})
	a, _ := left.Entry(2)
	b, _ := right.Entry(2)
	require.Equal(t, intake.Skipped, a.Kind)
	require.Equal(t, intake.Unsure, b.Kind)
	require.Equal(t, 1, log.Len())
	require.Equal(t, 1, left.At(1).Len())
	_, ok := log.Entry(2)
	require.False(t, ok)
}

// Two writers on one session: who is told what.
func TestAWriterIsStaleOnlyWhereItMatters(t *testing.T) {
	tr := load(t)
	say := func(log intake.Log, q, choice string, base int) (intake.Reply, error) {
		return intake.Answer(log, tr, &world, q, tree.Answer{Choices: []string{choice}}, intake.Meta{Channel: "web", Base: base})
	}
	log := intake.Log{}
	for _, e := range [][2]string{{"place.tenure", "rent"}, {"panel.kind", "breakers"}, {"panel.main", "m100"}} {
		r, err := say(log, e[0], e[1], log.Len())
		require.NoError(t, err)
		require.False(t, r.Rebased)
		log = log.With(r.Entry)
	}
	// Nothing it touches changed: appended at the head, and told so.
	r, err := say(log, "place.parking", "street", 1)
	require.NoError(t, err)
	require.True(t, r.Rebased)
	// It writes what changed since its base.
	_, err = say(log, "panel.main", "m200", 2)
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindConflict, Reason: "STALE_REVISION"})
	f, _ := fault.As(err)
	require.Equal(t, "panel.service_amps", f.Field)
	require.Contains(t, f.Error(), "told 200")
	require.Contains(t, f.Error(), "told 100")
	// The same answer by both is no conflict.
	_, err = say(log, "panel.main", "m100", 2)
	require.NoError(t, err)
	// Its question's condition reads what changed since its base.
	_, err = say(log, "place.permission", "asked", 0)
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindConflict})
	f, _ = fault.As(err)
	require.Equal(t, "place.tenure", f.Field)
	// A base that is no revision of this log.
	_, err = say(log, "place.parking", "street", 9)
	require.ErrorContains(t, err, "base_revision")
}

func TestFactsOutsideQuestionsAreAllTakenOrNone(t *testing.T) {
	tr := load(t)
	tell := func(given ...intake.Fact) (intake.Reply, error) {
		return intake.Tell(intake.Log{}, tr, &world, given, head)
	}
	r, err := tell(
		intake.Fact{Path: "panel.service_amps", Op: intake.OpNarrow, Weight: facts.OneOf, Values: []any{400, 200}},
		intake.Fact{Path: "place.year_built", Op: intake.OpUnsure},
		intake.Fact{Path: "driving.weekday_miles", Op: intake.OpTell, Values: []any{int64(40)}},
	)
	require.NoError(t, err)
	require.Equal(t, facts.Narrowed, r.State.Facts.Panel.ServiceAmps.State())
	require.Equal(t, facts.Unsure, r.State.Facts.Place.YearBuilt.State())
	turn, _ := r.State.Turn("panel.main")
	require.True(t, turn.Open, "narrowed, and still asked")
	turn, _ = r.State.Turn("driving.weekday")
	require.False(t, turn.Open)
	again, err := intake.Decode(r.Entry.Encode())
	require.NoError(t, err)
	require.Equal(t, r.Entry, again)

	for _, bad := range [][]intake.Fact{
		{},
		{{Path: "panel.servce_amps", Op: intake.OpUnsure}},
		{{Path: "panel.service_amps", Op: intake.OpTell, Values: []any{5.0}}},
		{{Path: "panel.service_amps", Op: intake.OpTell}},
		{{Path: "panel.service_amps", Op: 9}},
		{{Path: "panel.service_amps", Op: intake.OpUnsure}, {Path: "panel.service_amps", Op: intake.OpClear}},
		{{Path: "place.tenure", Op: intake.OpTell, Values: []any{"own"}}, {Path: "panel.bus_amps", Op: intake.OpTell, Values: []any{"x"}}},
	} {
		_, err := tell(bad...)
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid}, "%v", bad)
	}
}

func TestNothingToUndoSaysSo(t *testing.T) {
	tr := load(t)
	_, err := intake.Undo(intake.Log{}, tr, &world, 0, head)
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindPrecondition})
	r, err := intake.Answer(intake.Log{}, tr, &world, "place.tenure", tree.Answer{Choices: []string{"own"}}, intake.Meta{By: "agent-7", Base: intake.Head})
	require.NoError(t, err)
	_, err = intake.Undo(intake.Log{}.With(r.Entry), tr, &world, 0, head)
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindPrecondition}, "one takes back only one's own without naming it")
}

func TestAFullLogIsRefused(t *testing.T) {
	tr := load(t)
	log := intake.Log{}
	for range intake.MostEntries {
		log = log.With(intake.Entry{Kind: intake.Skipped, Question: "place.area"})
	}
	_, err := intake.Skip(log, tr, &world, "place.area", head)
	require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindExhausted})
}

func BenchmarkFold(b *testing.B) {
	tr := load(b)
	log := intake.Log{}
	for _, q := range tr.Questions() {
		if len(q.Choices) > 0 {
			if r, err := intake.Answer(log, tr, &world, q.ID, tree.Answer{Choices: []string{q.Choices[0].ID}}, head); err == nil {
				log = log.With(r.Entry)
			}
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		_ = intake.Fold(log, tr, &world)
	}
}
