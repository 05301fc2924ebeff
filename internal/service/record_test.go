package service

import (
	"archive/zip"
	"bytes"
	"io/fs"
	"testing"

	"daybreak/internal/intake"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
	"pgregory.net/rapid"
)

func TestRecordsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := header{locale: rapid.String().Draw(t, "locale"), tree: rapid.String().Draw(t, "tree")}
		got, err := decodeHeader(h.encode())
		require.NoError(t, err)
		require.Equal(t, h, got)

		entries := rapid.SliceOf(rapid.SliceOf(rapid.Byte())).Draw(t, "entries")
		several, err := unpack(pack(entries))
		require.NoError(t, err)
		require.Len(t, several, len(entries))
		for i := range entries {
			require.True(t, bytes.Equal(entries[i], several[i]))
		}
	})
}

func TestNewerRecordsAreRead(t *testing.T) {
	raw := appendField(header{locale: "en-US"}.encode(), 99, []byte("from a later version"))
	got, err := decodeHeader(raw)
	require.NoError(t, err)
	require.Equal(t, "en-US", got.locale)
	_, err = decodeHeader([]byte{2})
	require.ErrorIs(t, err, errRecord)
}

func FuzzRecords(f *testing.F) {
	f.Add(header{locale: "en-US", tree: "r"}.encode())
	f.Add(issued{asOf: "2026-11-25", canonical: []byte("c"), books: []string{"h"}}.encode())
	f.Add(pack([][]byte{(intake.Entry{Kind: intake.Answered, Question: "place.postal"}).Encode()}))
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, raw []byte) {
		_, _ = decodeHeader(raw)
		_, _ = decodeIssued(raw)
		entries, err := unpack(raw)
		if err == nil {
			again, err := unpack(pack(entries))
			require.NoError(t, err)
			require.Len(t, again, len(entries))
		}
	})
}

// The digest of a request is over what it says: not over its name, not over
// the revision it was based on, and not over the order of bytes.
func TestBodiesAreDigestedByWhatTheySay(t *testing.T) {
	base := &daybreakv1.AnswerRequest{Name: "sessions/s", Answers: []*daybreakv1.Answer{{Question: "a.b", Given: &daybreakv1.Answer_Hour{Hour: 7}}}}
	same := proto.CloneOf(base)
	same.RequestId, same.BaseRevision = "another", "3-9f86d081"
	require.Equal(t, bodyOf(base), bodyOf(same))
	for _, change := range []func(*daybreakv1.AnswerRequest){
		func(r *daybreakv1.AnswerRequest) { r.Name = "sessions/t" },
		func(r *daybreakv1.AnswerRequest) { r.Answers[0].Question = "a.c" },
		func(r *daybreakv1.AnswerRequest) { r.Answers[0].Given = &daybreakv1.Answer_Hour{Hour: 8} },
		func(r *daybreakv1.AnswerRequest) { r.Answers[0].Given = &daybreakv1.Answer_Choice{Choice: "7"} },
		func(r *daybreakv1.AnswerRequest) { r.Answers = append(r.Answers, r.Answers[0]) },
		func(r *daybreakv1.AnswerRequest) {
			r.Answers[0].Given = &daybreakv1.Answer_Skip{Skip: &daybreakv1.Skip{}}
		},
	} {
		other := proto.CloneOf(base)
		change(other)
		require.NotEqual(t, bodyOf(base), bodyOf(other))
	}
}

// Books are packed alike each time, and what was packed opens as the shop it
// was.
func TestPackedBooksOpenAgain(t *testing.T) {
	one, err := packFolder(alderbay.Files())
	require.NoError(t, err)
	two, err := packFolder(alderbay.Files())
	require.NoError(t, err)
	require.Equal(t, one, two)
	z, err := zip.NewReader(bytes.NewReader(one), int64(len(one)))
	require.NoError(t, err)
	was, err := shop.Load(alderbay.Files())
	require.NoError(t, err)
	is, err := shop.Load(fs.FS(z))
	require.NoError(t, err)
	require.Equal(t, was.Revisions, is.Revisions)
}
