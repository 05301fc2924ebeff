package main

import (
	"errors"
	"io"
	"os"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/facts"
	"daybreak/internal/fault"
	"daybreak/internal/service"
	"daybreak/internal/service/wire"

	"google.golang.org/protobuf/encoding/protojson"
)

// readFacts reads a file of facts, or standard input for "-", up to the size
// of a request.
func readFacts(in io.Reader, file string) ([]byte, error) {
	const accepted = "a readable file, or - for standard input"
	if file != "-" {
		f, err := os.Open(file)
		if err != nil {
			return nil, because(fault.Invalid("FACTS.json", file, accepted), err)
		}
		defer f.Close()
		in = f
	}
	raw, err := io.ReadAll(io.LimitReader(in, service.MaxRequest+1))
	if err != nil {
		return nil, because(fault.Invalid("FACTS.json", file, accepted), err)
	}
	if len(raw) > service.MaxRequest {
		return nil, fault.Invalid("FACTS.json", "more than 64 KiB", "at most 64 KiB")
	}
	return raw, nil
}

// because adds to a fault what the system said, without the path it repeats.
func because(f *fault.Fault, err error) *fault.Fault {
	var path *os.PathError
	if errors.As(err, &path) {
		err = path.Err
	}
	f.Detail = err.Error()
	return f
}

// decodeFacts reads the API's Facts message, or the "facts" member of an
// object such as a request body. Each fault names file, line and field.
func decodeFacts(file string, raw []byte) (facts.Facts, error) {
	if file == "-" {
		file = "standard input"
	}
	p := places{file: file, raw: raw}
	if err := p.whole(); err != nil {
		return facts.Facts{}, err
	}
	m := &daybreakv1.Facts{}
	if err := protojson.Unmarshal(p.raw, m); err != nil {
		return facts.Facts{}, p.misread(err)
	}
	told, err := wire.Facts("facts", m)
	return told, p.placed(err)
}
