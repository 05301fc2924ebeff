package main

import (
	"encoding/json"
	"fmt"
	"os"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/service/wire"
	"daybreak/internal/shop"
	"daybreak/internal/tools/households/draw"

	"google.golang.org/protobuf/encoding/protojson"
)

// household is a replay file.
type household struct {
	Seed   uint64          `json:"seed"`
	Number uint64          `json:"number"`
	Facts  json.RawMessage `json:"facts"`
}

// record is a household on one line, to be replayed.
func record(out *draw.Outcome) ([]byte, error) {
	told, err := protojson.MarshalOptions{UseProtoNames: true}.Marshal(wire.FactsMessage(&out.Told))
	if err != nil {
		return nil, err
	}
	return json.Marshal(household{Seed: out.Seed, Number: out.Number, Facts: told})
}

// again inspects the household of a file.
func again(books *shop.Books, file string) (draw.Outcome, error) {
	raw, err := os.ReadFile(file)
	if err != nil {
		return draw.Outcome{}, err
	}
	var h household
	if err := json.Unmarshal(raw, &h); err != nil {
		return draw.Outcome{}, fmt.Errorf("%s: %w", file, err)
	}
	m := &daybreakv1.Facts{}
	if err := protojson.Unmarshal(h.Facts, m); err != nil {
		return draw.Outcome{}, fmt.Errorf("%s: facts: %w", file, err)
	}
	told, err := wire.Facts("facts", m)
	if err != nil {
		return draw.Outcome{}, fmt.Errorf("%s: %w", file, err)
	}
	return draw.Of(books, told, h.Seed, h.Number), nil
}
