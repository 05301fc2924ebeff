package intake

import (
	"fmt"

	"daybreak/internal/fault"
)

// MostEntries bounds a conversation; a long one has about two hundred.
const MostEntries = 2000

// Log is everything said in one conversation, oldest first. Its zero value is
// empty. It is a value: adding to a log leaves the old one as it was.
type Log struct {
	entries []Entry
}

// Read makes a log from its records, oldest first. It faults, by the number of
// the record, on one that is damaged.
func Read(records [][]byte) (Log, error) {
	l := Log{entries: make([]Entry, 0, len(records))}
	for i, r := range records {
		e, err := Decode(r)
		if err != nil {
			return Log{}, &fault.Fault{
				Kind: fault.KindInvalid, Reason: "DAMAGED_RECORD", Field: fmt.Sprintf("log[%d]", i+1),
				Accepted: "a record of this log", Detail: err.Error(),
			}
		}
		l.entries = append(l.entries, e)
	}
	return l, nil
}

// Len is the number of entries, and so the number of the last one.
func (l Log) Len() int { return len(l.entries) }

// Entry returns the entry with that number, and false outside 1 to Len.
func (l Log) Entry(number int) (Entry, bool) {
	if number < 1 || number > len(l.entries) {
		return Entry{}, false
	}
	return l.entries[number-1], true
}

// At is the log as it stood after that many entries; all of it when there are
// fewer.
func (l Log) At(number int) Log {
	return Log{l.entries[:max(0, min(number, len(l.entries)))]}
}

// With is the log and one entry more.
func (l Log) With(e Entry) Log {
	return Log{append(l.entries[:len(l.entries):len(l.entries)], e)}
}

// alive says of each entry whether it still counts. An undo that was itself
// undone takes nothing back.
func (l Log) alive() []bool {
	alive := make([]bool, len(l.entries))
	for i := range alive {
		alive[i] = true
	}
	for i := len(l.entries) - 1; i >= 0; i-- {
		e := &l.entries[i]
		if e.Kind == Undone && alive[i] && e.Undoes >= 1 && e.Undoes <= i {
			alive[e.Undoes-1] = false
		}
	}
	return alive
}

// Undone tells, by number, the entries that were taken back.
func (l Log) Undone() map[int]bool {
	undone := map[int]bool{}
	for i, alive := range l.alive() {
		if !alive {
			undone[i+1] = true
		}
	}
	return undone
}
