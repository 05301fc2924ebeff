package outlet

import "daybreak/internal/unit"

// Receptacle is one configuration a household may have.
type Receptacle struct {
	ID        string     // our id: the configuration, "14-50", or with its device, "5-15 GFCI"
	Name      string     // "NEMA 14-50"
	Rated     unit.Volts // voltage rating of the device
	Nominal   unit.Volts // voltage it gives at home: 120 or 240
	Amps      unit.Amps  // current rating
	Poles     int        // poles of the device
	Wires     int        // wires, ground included
	Ground    bool       // has an equipment ground
	Neutral   bool       // has a neutral
	Shape     string     // what it looks like, in plain words
	Uses      string     // where it is met
	Nicknames []string   // what people call it; a nickname never settles it
	Confused  []string   // ids it is taken for
}

// Receptacles lists every configuration known, in the order of the file.
//
// Source: ANSI/NEMA WD 6, beside each row of receptacles.yaml.
func Receptacles() []Receptacle { return nil }
