package plot

// Face draws the receptacle with the given id, "14-50", as it looks from the
// front, and returns an SVG element. False when there is no such face.
//
// Source: ANSI/NEMA WD 6, as far as faces.yaml says verified.
func Face(id string) (string, bool) { return "", false }

// Faces lists the ids of every face, in the order of the file.
func Faces() []string { return nil }

// Inlet draws the charge port of a vehicle: "j1772", "ccs1", "j3400" or
// "two_ports". False when there is no such inlet.
//
// Source: SAE J1772 and SAE J3400 for number and place of the contacts, from
// memory; shape only, not to scale.
func Inlet(id string) (string, bool) { return "", false }

// Inlets lists the ids of every inlet.
func Inlets() []string { return nil }

// Body draws a vehicle's silhouette: "small", "mid", "big", "suv", "suv3",
// "pickup", "van", "phev_car" or "phev_suv". False when there is no such body.
func Body(id string) (string, bool) { return "", false }

// Bodies lists the ids of every body.
func Bodies() []string { return nil }
