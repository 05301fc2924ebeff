package intake

import (
	"encoding/binary"
	"errors"
	"math"
	"unicode/utf8"

	"daybreak/internal/facts"
)

// A record is a version byte and fields: a tag, a length and that many bytes.
// Numbers are unsigned varints, quantities eight bytes. A field with a tag this
// version does not know is kept and written back as it came, so a record never
// loses what a newer version said.
const recordVersion = 1

const (
	tagKind     = 1
	tagQuestion = 2
	tagChoice   = 3 // once for each choice
	tagNumber   = 4
	tagText     = 5
	tagFact     = 6 // once for each fact; its bytes are fields again
	tagUndoes   = 7
	tagChannel  = 8
	tagBy       = 9
	tagAt       = 10
)

const (
	tagPath   = 1
	tagOp     = 2
	tagValue  = 3 // once for each value
	tagWeight = 4
)

// Values begin with a letter for their sort.
const (
	valueNumber = 'n'
	valueWhole  = 'w'
	valueMoney  = 'm'
	valueFlag   = 'b'
	valueText   = 't'
	valueSet    = 's'
	valueDay    = 'd'
)

const mostText = 4096

var errDamaged = errors.New("the record is cut short or malformed")

// Encode writes the entry as a record.
func (e Entry) Encode() []byte {
	b := []byte{recordVersion}
	b = appendVarint(b, tagKind, uint64(e.Kind))
	b = appendText(b, tagQuestion, e.Question)
	for _, c := range e.Answer.Choices {
		b = appendField(b, tagChoice, []byte(c))
	}
	if e.Answer.HasNumber {
		b = appendField(b, tagNumber, binary.BigEndian.AppendUint64(nil, math.Float64bits(e.Answer.Number)))
	}
	b = appendText(b, tagText, e.Answer.Text)
	for _, f := range e.Facts {
		b = appendField(b, tagFact, f.encode())
	}
	b = appendVarint(b, tagUndoes, uint64(max(0, e.Undoes)))
	b = appendText(b, tagChannel, e.Channel)
	b = appendText(b, tagBy, e.By)
	b = appendVarint(b, tagAt, uint64(max(0, e.At)))
	return append(b, e.extra...)
}

func (f Fact) encode() []byte {
	b := appendText(nil, tagPath, f.Path)
	b = appendVarint(b, tagOp, uint64(f.Op))
	for _, v := range f.Values {
		b = appendField(b, tagValue, encodeValue(v))
	}
	b = appendVarint(b, tagWeight, uint64(f.Weight))
	return append(b, f.extra...)
}

func encodeValue(v any) []byte {
	switch v := v.(type) {
	case float64:
		return binary.BigEndian.AppendUint64([]byte{valueNumber}, math.Float64bits(v))
	case int:
		return binary.AppendVarint([]byte{valueWhole}, int64(v))
	case int64:
		return binary.AppendVarint([]byte{valueMoney}, v)
	case bool:
		if v {
			return []byte{valueFlag, 1}
		}
		return []byte{valueFlag, 0}
	case string:
		return append([]byte{valueText}, v...)
	case facts.Date:
		return append([]byte{valueDay}, v.String()...)
	case []string:
		b := []byte{valueSet}
		for _, word := range v {
			b = append(binary.AppendUvarint(b, uint64(len(word))), word...)
		}
		return b
	}
	return nil
}

func appendField(b []byte, tag uint64, value []byte) []byte {
	b = binary.AppendUvarint(b, tag)
	b = binary.AppendUvarint(b, uint64(len(value)))
	return append(b, value...)
}

func appendText(b []byte, tag uint64, s string) []byte {
	if s == "" {
		return b
	}
	return appendField(b, tag, []byte(s))
}

func appendVarint(b []byte, tag, n uint64) []byte {
	if n == 0 {
		return b
	}
	return appendField(b, tag, binary.AppendUvarint(nil, n))
}

// Decode reads a record. Its error says that the record is damaged, or of a
// version this program cannot read.
func Decode(record []byte) (Entry, error) {
	var e Entry
	if len(record) == 0 || record[0] != recordVersion {
		return e, errors.New("the record is of another version than 1")
	}
	extra, err := fields(record[1:], e.field)
	e.extra = extra
	if err == nil && (e.Kind < Answered || e.Kind > Undone) {
		err = errors.New("the record is of a kind this version does not know")
	}
	return e, err
}

// field takes one field of a record, and false when its tag is not known.
func (e *Entry) field(tag uint64, value []byte) (bool, error) {
	var err error
	switch tag {
	case tagKind:
		n, nerr := small(value, 255)
		e.Kind, err = Kind(n), nerr
	case tagQuestion:
		e.Question, err = text(value)
	case tagChoice:
		c, terr := text(value)
		e.Answer.Choices, err = append(e.Answer.Choices, c), terr
	case tagNumber:
		if len(value) != 8 {
			return true, errDamaged
		}
		e.Answer.Number, e.Answer.HasNumber = math.Float64frombits(binary.BigEndian.Uint64(value)), true
	case tagText:
		e.Answer.Text, err = text(value)
	case tagFact:
		f, ferr := decodeFact(value)
		e.Facts, err = append(e.Facts, f), ferr
	case tagUndoes:
		n, nerr := small(value, math.MaxInt32)
		e.Undoes, err = int(n), nerr
	case tagChannel:
		e.Channel, err = text(value)
	case tagBy:
		e.By, err = text(value)
	case tagAt:
		n, nerr := small(value, math.MaxInt64)
		e.At, err = int64(n), nerr
	default:
		return false, nil
	}
	return true, err
}

func decodeFact(b []byte) (Fact, error) {
	var f Fact
	extra, err := fields(b, func(tag uint64, value []byte) (bool, error) {
		var err error
		switch tag {
		case tagPath:
			f.Path, err = text(value)
		case tagOp:
			n, nerr := small(value, 255)
			f.Op, err = Op(n), nerr
		case tagValue:
			v, verr := decodeValue(value)
			f.Values, err = append(f.Values, v), verr
		case tagWeight:
			n, nerr := small(value, 255)
			f.Weight, err = facts.Weight(n), nerr
		default:
			return false, nil
		}
		return true, err
	})
	f.extra = extra
	return f, err
}

func decodeValue(b []byte) (any, error) {
	if len(b) == 0 {
		return nil, errDamaged
	}
	rest := b[1:]
	switch b[0] {
	case valueNumber:
		if len(rest) == 8 {
			return math.Float64frombits(binary.BigEndian.Uint64(rest)), nil
		}
	case valueWhole, valueMoney:
		n, size := binary.Varint(rest)
		if size != len(rest) || size <= 0 {
			return nil, errDamaged
		}
		if b[0] == valueMoney {
			return n, nil
		}
		return int(n), nil
	case valueFlag:
		if len(rest) == 1 {
			return rest[0] == 1, nil
		}
	case valueText:
		return text(rest)
	case valueDay:
		if d, ok := facts.ParseDate(string(rest)); ok {
			return d, nil
		}
	case valueSet:
		return decodeSet(rest)
	}
	return nil, errDamaged
}

func decodeSet(b []byte) (any, error) {
	words := []string{}
	for len(b) > 0 {
		n, size := binary.Uvarint(b)
		if size <= 0 || n > uint64(len(b)-size) {
			return nil, errDamaged
		}
		word, err := text(b[size : size+int(n)])
		if err != nil {
			return nil, err
		}
		words, b = append(words, word), b[size+int(n):]
	}
	return words, nil
}

// fields calls take for each field and returns those it does not know.
func fields(b []byte, take func(tag uint64, value []byte) (bool, error)) (extra []byte, err error) {
	for len(b) > 0 {
		tag, size := binary.Uvarint(b)
		if size <= 0 {
			return nil, errDamaged
		}
		length, more := binary.Uvarint(b[size:])
		head := size + more
		if more <= 0 || length > uint64(len(b)-head) {
			return nil, errDamaged
		}
		end := head + int(length)
		known, err := take(tag, b[head:end])
		if err != nil {
			return nil, err
		}
		if !known {
			extra = append(extra, b[:end]...)
		}
		b = b[end:]
	}
	return extra, nil
}

func small(b []byte, most uint64) (uint64, error) {
	n, size := binary.Uvarint(b)
	if size != len(b) || size <= 0 || n > most {
		return 0, errDamaged
	}
	return n, nil
}

func text(b []byte) (string, error) {
	if len(b) > mostText || !utf8.Valid(b) {
		return "", errDamaged
	}
	return string(b), nil
}
