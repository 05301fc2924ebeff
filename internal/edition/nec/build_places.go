package nec

import (
	"daybreak/internal/edition"
	"daybreak/internal/fault"
	"daybreak/internal/unit"
)

var runNames = map[string]edition.Run{
	"dry_concealed": edition.DryConcealed, "unfinished_basement": edition.UnfinishedBasement, "garage_wall": edition.GarageWall,
	"attic": edition.AtticSpace, "crawl_space": edition.CrawlSpace, "indoor_wall": edition.IndoorWall,
	"outdoor_wall": edition.OutdoorWall, "underground": edition.Underground,
}

var placeColumns = []struct {
	name     string
	cable    edition.Method
	raceways []edition.Raceway
}{
	{"NM-B", edition.NMB, nil}, {"UF-B", edition.UFB, nil}, {"MC", edition.MC, nil}, {"SER", edition.SER, nil},
	{"EMT", 0, []edition.Raceway{edition.EMT}}, {"PVC40", 0, []edition.Raceway{edition.PVC40}},
	{"PVC80", 0, []edition.Raceway{edition.PVC80}},
	{"RMC", 0, []edition.Raceway{edition.RMC, edition.IMC, edition.AluminiumConduit}}, {"FMC", 0, []edition.Raceway{edition.FMC}},
	{"LFMC", 0, []edition.Raceway{edition.LFMC}}, {"LFNC", 0, []edition.Raceway{edition.LFNCA, edition.LFNCB}},
	{"ENT", 0, []edition.Raceway{edition.ENT}},
}

func (u *builder) places() {
	columns := []string{"run"}
	for _, c := range placeColumns {
		columns = append(columns, c.name)
	}
	b, t := u.b, u.table("places", columns...)
	for _, r := range t.rows {
		run, ok := runNames[r.key]
		if !ok {
			u.fail(fault.InFile(t.file, r.line, "places", r.key, "a kind of surroundings"))
			return
		}
		p := &b.places[run]
		p.source = sourceOfRow(t, r)
		for _, c := range placeColumns {
			f := u.fitness(t, r, c.name)
			if c.cable != 0 {
				p.cable[c.cable] = f
			}
			for _, kind := range c.raceways {
				p.raceway[kind] = f
			}
		}
	}
	for name, run := range runNames {
		if b.places[run].source == nil && u.err == nil {
			u.fail(fault.InFile(t.file, t.line, "places", "nothing", "a row named "+name))
		}
	}
	b.supports = map[string]edition.Cited[edition.Supports]{}
	t = u.table("supports", "method", "spacing_ft", "from_box_in")
	for _, r := range t.rows {
		b.supports[r.key] = edition.Cited[edition.Supports]{
			Value:  edition.Supports{Spacing: unit.Feet(u.num(t, r, "spacing_ft").Value), FromBox: unit.Inches(u.num(t, r, "from_box_in").Value)},
			Source: sourceOfRow(t, r)}
	}
}

func (u *builder) fitness(t *table, r row, column string) edition.Fitness {
	switch c := t.at(r, column); c.word {
	case "fit":
		return edition.Fit
	case "protected":
		return edition.FitProtected
	case "unfit":
		return edition.Unfit
	default:
		u.fail(fault.InFile(t.file, c.line, "places: "+r.key+", "+column, c.word, "fit, protected or unfit"))
		return edition.Unfit
	}
}
