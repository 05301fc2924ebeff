package intake_test

import (
	"bytes"
	"encoding/binary"
	"testing"

	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/intake"
	"daybreak/internal/intake/tree"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var permitDay, _ = facts.ParseDate("2026-03-01")

func samples() []intake.Entry {
	return []intake.Entry{
		{Kind: intake.Answered, Question: "place.signs", Answer: tree.Answer{Choices: []string{"hot", "loose"}}, Channel: "web", By: "shopper", At: 1_780_000_000_000},
		{Kind: intake.Answered, Question: "route.feet", Answer: tree.Answer{Number: 40.5, HasNumber: true}},
		{Kind: intake.Answered, Question: "place.postal", Answer: tree.Answer{Text: "00010"}},
		{Kind: intake.Unsure, Question: "panel.main"},
		{Kind: intake.Skipped, Question: "panel.main"},
		{Kind: intake.Undone, Undoes: 3, Channel: "desk"},
		{Kind: intake.Told, Facts: []intake.Fact{
			{Path: "panel.service_amps", Op: intake.OpTell, Values: []any{200.0}},
			{Path: "panel.free_full_spaces", Op: intake.OpTell, Values: []any{3}},
			{Path: "wishes.budget_minor", Op: intake.OpTell, Values: []any{int64(150000)}},
			{Path: "vehicle.petrol_backup", Op: intake.OpTell, Values: []any{false}},
			{Path: "place.parking", Op: intake.OpTell, Values: []any{"attached"}},
			{Path: "place.danger_signs", Op: intake.OpTell, Values: []any{[]string{}}},
			{Path: "route.ways", Op: intake.OpTell, Values: []any{[]string{"open", "attic"}}},
			{Path: "place.permit_date", Op: intake.OpTell, Values: []any{permitDay}},
			{Path: "panel.bus_amps", Op: intake.OpUnsure},
			{Path: "panel.main_breaker_amps", Op: intake.OpNarrow, Weight: facts.Range, Values: []any{100.0, 200.0}},
		}},
	}
}

func TestRecordsKeepWhatTheyAreGiven(t *testing.T) {
	for _, e := range samples() {
		again, err := intake.Decode(e.Encode())
		require.NoError(t, err)
		require.Equal(t, e, again)
	}
	require.LessOrEqual(t, len(samples()[3].Encode()), 18, "an answer is small")
}

// A newer version may write fields and paths that this one does not know. They
// are passed over and written back as they came.
func TestUnknownFieldsAndPathsAreKept(t *testing.T) {
	tr := load(t)
	e := intake.Entry{Kind: intake.Told, Facts: []intake.Fact{
		{Path: "place.moon_phase", Op: intake.OpTell, Values: []any{"full"}},
		{Path: "place.tenure", Op: intake.OpTell, Values: []any{"own"}},
	}}
	record := e.Encode()
	record = append(record, binary.AppendUvarint(nil, 99)...)
	record = append(record, 3, 'n', 'e', 'w')
	again, err := intake.Decode(record)
	require.NoError(t, err)
	require.True(t, bytes.Equal(record, again.Encode()))
	log, err := intake.Read([][]byte{record})
	require.NoError(t, err)
	require.True(t, intake.Fold(log, tr, &world).Facts.Place.Tenure.Is(facts.TenureOwn))
}

func TestDamagedRecordsAreNamedByTheirNumber(t *testing.T) {
	good := samples()[0].Encode()
	for _, bad := range [][]byte{nil, {}, {2}, {1}, good[:len(good)-1], append([]byte{1, 1, 1, 77}, 0)} {
		_, err := intake.Read([][]byte{good, bad})
		require.ErrorIs(t, err, &fault.Fault{Kind: fault.KindInvalid, Reason: "DAMAGED_RECORD"}, "%v", bad)
		require.ErrorContains(t, err, "log[2]")
	}
}

// Random households' answers survive the trip, and fold to the same.
func TestALogReadBackFoldsToTheSame(t *testing.T) {
	tr := load(t)
	rapid.Check(t, func(t *rapid.T) {
		log := randomLog(t, tr)
		var records [][]byte
		for i := 1; i <= log.Len(); i++ {
			e, _ := log.Entry(i)
			records = append(records, e.Encode())
		}
		again, err := intake.Read(records)
		require.NoError(t, err)
		require.True(t, intake.Fold(log, tr, &world).Facts == intake.Fold(again, tr, &world).Facts)
	})
}

func FuzzDecode(f *testing.F) {
	for _, e := range samples() {
		f.Add(e.Encode())
	}
	tr := load(f)
	f.Fuzz(func(t *testing.T, record []byte) {
		e, err := intake.Decode(record)
		if err != nil {
			return
		}
		again, err := intake.Decode(e.Encode())
		require.NoError(t, err)
		require.Equal(t, e.Encode(), again.Encode())
		_ = intake.Fold(intake.Log{}.With(e), tr, &world)
	})
}
