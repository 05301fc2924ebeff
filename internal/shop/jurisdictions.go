package shop

import (
	"slices"
	"strings"

	"daybreak/internal/pricing"
	"daybreak/internal/pricing/bookfile"
	"daybreak/internal/unit"
)

// Jurisdictions answers which authority, code edition, climate station, time
// zone and utility a postal code has.
type Jurisdictions struct {
	Revision string
	Source   string
	rows     map[string]row    // by postal code
	editions map[string][]span // by jurisdiction
	amended  amended
	file     string
}

type row struct {
	Locality
	line                int
	permit, tax, region string // as the price book names them
}

// span is a code edition and the day from which permits ask for it.
type span struct {
	year int
	from unit.Date
}

// Locality is what the postal table proposes. A household's own word on
// edition or station wins over it.
type Locality struct {
	PostalCode   string
	Place        string
	Jurisdiction string // id, "alder-bay-city"
	Name         string // "City of Alder Bay"
	Edition      int    // year of the NEC in force for permits on the date
	Utility      string
	Station      string // name in the climate table
	StationWBAN  string
	ClimateZone  string // row of the heating-fuel shares by climate
	TimeZone     string // IANA name
}

// At proposes the locality of a postal code for a permit asked for on a date,
// and false when the shop has no row for it.
func (j *Jurisdictions) At(postalCode string, on unit.Date) (Locality, bool) {
	r, ok := j.rows[postalCode]
	if !ok {
		return Locality{}, false
	}
	l := r.Locality
	l.Edition, _ = j.EditionOf(l.Jurisdiction, on)
	return l, true
}

// EditionOf gives the year of the NEC that a jurisdiction asks for in permits
// on a date, and false when it has no such jurisdiction. Before the first date
// known it is the first edition.
func (j *Jurisdictions) EditionOf(jurisdiction string, on unit.Date) (year int, ok bool) {
	spans, ok := j.editions[jurisdiction]
	if !ok {
		return 0, false
	}
	year = spans[0].year
	for _, s := range spans {
		if !on.Before(s.from) {
			year = s.year
		}
	}
	return year, true
}

// PostalCodes lists the codes of the table, in order.
func (j *Jurisdictions) PostalCodes() []string {
	codes := make([]string, 0, len(j.rows))
	for c := range j.rows {
		codes = append(codes, c)
	}
	slices.Sort(codes)
	return codes
}

func readJurisdictions(n bookfile.Node) *Jurisdictions {
	if !n.OK() {
		return nil
	}
	n.Only("revision", "source", "status", "jurisdictions", "postal_codes")
	j := &Jurisdictions{Revision: n.At("revision").Text(), Source: n.At("source").Text(),
		rows: map[string]row{}, editions: map[string][]span{}, amended: amended{}, file: n.File()}
	n.At("status").Word("invented", "checked")
	names := map[string]string{}
	for _, v := range n.At("jurisdictions").Items() {
		v.Only("id", "name", "editions", "amendments")
		id := v.At("id").Text()
		if _, twice := names[id]; twice {
			v.At("id").Fault(id, "each id once")
		}
		names[id], j.editions[id] = v.At("name").Text(), readEditions(v.At("editions"))
		if own := readAmendments(v.Maybe("amendments"), names[id]); own != nil {
			j.amended[id] = own
		}
	}
	for _, v := range n.At("postal_codes").Items() {
		j.row(v, names)
	}
	return j
}

func readEditions(n bookfile.Node) (out []span) {
	for _, v := range n.Items() {
		v.Only("edition", "permits_from")
		e := span{v.At("edition").Whole(2017, 2026), v.At("permits_from").Date()}
		if e.year != 0 && (e.year-2017)%3 != 0 {
			v.At("edition").Fault(e.year, "2017, 2020, 2023 or 2026")
		}
		if len(out) > 0 && !out[len(out)-1].from.Before(e.from) {
			v.At("permits_from").Fault(e.from, "dates that rise")
		}
		out = append(out, e)
	}
	if len(out) == 0 {
		if n.OK() {
			n.Fault("none", "at least one edition")
		}
		out = []span{{}}
	}
	return out
}

func (j *Jurisdictions) row(n bookfile.Node, names map[string]string) {
	n.Only("postal_code", "place", "jurisdiction", "permit", "tax", "region", "utility", "climate_station", "climate_wban",
		"climate_zone", "time_zone")
	code := n.At("postal_code").Text()
	if _, twice := j.rows[code]; twice {
		n.At("postal_code").Fault(code, "each postal code once")
	}
	id := n.At("jurisdiction").Text()
	name, known := names[id]
	if !known && id != "" {
		n.At("jurisdiction").Fault(id, "the id of a jurisdiction above")
	}
	zone := n.At("time_zone").Text()
	if zone != "" && !zoneName(zone) {
		n.At("time_zone").Fault(zone, "an IANA time zone, America/Los_Angeles")
	}
	j.rows[code] = row{
		Locality: Locality{
			PostalCode: code, Place: n.At("place").Text(), Jurisdiction: id, Name: name, Utility: n.At("utility").Text(),
			Station: n.At("climate_station").Text(), StationWBAN: n.At("climate_wban").Text(),
			ClimateZone: n.At("climate_zone").Text(), TimeZone: zone,
		},
		line: n.Line(), permit: n.At("permit").Text(), tax: n.At("tax").Text(), region: n.At("region").Text(),
	}
}

// zoneName reports whether a text has the shape of an IANA name, area and
// place. Whether the machine knows the zone is for the edge to say.
func zoneName(s string) bool {
	area, place, ok := strings.Cut(s, "/")
	other := func(r rune) bool {
		return (r < 'A' || r > 'Z') && (r < 'a' || r > 'z') && r != '_' && r != '-' && r != '/'
	}
	return ok && area != "" && place != "" && !strings.ContainsFunc(s, other)
}

// agree checks the postal table against the price book: the same codes, and
// the same region, permit and tax for each.
func (j *Jurisdictions) agree(book *pricing.Book, faults *bookfile.Faults) {
	for _, code := range j.PostalCodes() {
		r := j.rows[code]
		place, err := book.At(code, book.From)
		if err != nil {
			faults.Add(j.file, r.line, "postal_codes.postal_code", code, "a postal code of the price book")
			continue
		}
		for _, c := range [...]struct{ field, says, book string }{
			{"permit", r.permit, place.Permit().Jurisdiction},
			{"tax", r.tax, place.Tax().Jurisdiction},
			{"region", r.region, place.Region()},
		} {
			if c.says != c.book {
				faults.Add(j.file, r.line, "postal_codes."+c.field, c.says, c.book+", as the price book has it for "+code)
			}
		}
	}
	for _, code := range book.PostalCodes() {
		if _, ok := j.rows[code]; !ok {
			faults.Add(j.file, 0, "postal_codes", "no row for "+code, "a row for each postal code of the price book")
		}
	}
}
