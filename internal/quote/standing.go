package quote

import (
	"slices"

	"daybreak/internal/circuit"
	"daybreak/internal/circuit/outlet"
	"daybreak/internal/edition"
	"daybreak/internal/facts"
	"daybreak/internal/panel"
	"daybreak/internal/quote/caution"
	"daybreak/internal/working"
)

// seenOnSite are the leaves an electrician looks at first. Where one of them
// was not told, a quote on a new circuit is subject to a site check.
var seenOnSite = []string{
	"place.jurisdiction", "panel.service_amps", "panel.main_breaker_amps", "panel.free_full_spaces",
	"panel.heat_kind", "place.floor_area_sqft", "route.panel_to_charger_feet", "route.ways",
	"route.wall_finish", "place.parking", "place.mounting",
}

// seenAtOutlet are those for an outlet that is there already.
var seenAtOutlet = []string{"condition", "breaker_amps", "shared_with", "configuration"}

// stand gives the firmest standing the facts allow, and why it is no firmer.
// Room band lowers it to a ballpark while a deciding leaf is drawn.
func (w *weighing) stand(q *Quote, best *Option) {
	if caution.Halted(q.Findings) || best != nil && optionHalted(best) {
		q.Standing = Halted
		q.Reasons = append(q.Reasons, Said("quote.standing.halted"))
		return
	}
	q.Standing = ReadyToBook
	lower := func(s Sentence) {
		q.Standing = SubjectToSiteCheck
		q.Reasons = append(q.Reasons, s)
	}
	if best == nil {
		lower(Said("quote.standing.no_option"))
		return
	}
	if w.facts.Wishes.SecondVehicle.Is(facts.SecondVehicleWishNow) {
		lower(Said("quote.standing.second_car"))
	}
	if needsPermission(w.facts, best) {
		lower(Said("quote.standing.permission"))
	}
	if !w.served {
		lower(Said("quote.standing.postal", working.Word("town", w.locality.Place)))
	}
	if !toldAt(w.facts, "place.jurisdiction") {
		lower(Said("quote.standing.jurisdiction", working.Word("authority", w.locality.Name)))
	}
	for _, path := range w.sitePaths(best) {
		if path != "place.jurisdiction" && !toldAt(w.facts, path) {
			lower(Said("quote.standing.leaf", working.Word("leaf", path)))
		}
	}
	if best.Panel != nil && !best.Managed && best.Panel.Verdict != panel.Fits {
		lower(Said("quote.standing.verdict", working.Word("verdict", VerdictWord(best.Panel.Verdict))))
	}
	w.toVerify(q, best)
	if c := best.Circuit; c != nil && c.Outcome != circuit.Designed {
		lower(Said("quote.standing.not_designed"))
	}
	for _, s := range best.Unpriced {
		lower(s)
	}
	if best.Subpanel > 0 || best.Tandems > 0 {
		lower(Said("quote.standing.spaces"))
	}
	if len(best.Apart) > 0 {
		lower(Said("quote.standing.apart"))
	}
	if best.Outlet != nil && len(best.Outlet.Verify) > 0 {
		lower(Said("quote.standing.outlet"))
	}
}

// toVerify lists what an electrician reads or asks before the work, and what is
// left for others to do after it.
func (w *weighing) toVerify(q *Quote, best *Option) {
	say := func(key string, args ...working.Term) { q.Verify = append(q.Verify, Said(key, args...)) }
	if c := best.Circuit; c != nil {
		if c.GroundFault.Value == edition.AskAHJ {
			say("quote.verify.ground_fault")
		}
		if slices.Contains(c.Notes, circuit.NoteCheckMarking) {
			say("quote.verify.terminals")
		}
		if !w.facts.Panel.BreakerListingKnown.Is(true) {
			say("quote.verify.listing")
		}
	}
	if best.Way != ExistingOutlet {
		q.Verify = append(q.Verify, best.Verify...)
	}
	if n := holesLeft(best); n > 0 {
		say("quote.exclude.patching", working.Num("holes", n, ""))
	}
}

// optionHalted reports whether a finding stops the outlet an option goes on
// using. Work that replaces what was found cures it: see SafeFirst.
func optionHalted(o *Option) bool {
	if o.OutletWay.Kind == outlet.PutRight || o.OutletWay.Kind == outlet.WiredIn {
		return false
	}
	for _, f := range o.Findings {
		if f.Gravity == caution.Halt && f.Halts != caution.Nothing {
			return true
		}
	}
	return false
}

// sitePaths are the leaves that must have been told for an option to be firm.
func (w *weighing) sitePaths(o *Option) []string {
	if o.Way != ExistingOutlet {
		return w.digPaths(seenOnSite)
	}
	paths := make([]string, 0, len(seenAtOutlet))
	for _, leaf := range seenAtOutlet {
		paths = append(paths, o.OutletSlot+"."+leaf)
	}
	return paths
}

// needsPermission reports whether somebody must still say yes in writing. Using
// an outlet that is there asks the owner's leave as well.
func needsPermission(f *facts.Facts, _ *Option) bool {
	if f.Place.Tenure.Is(facts.TenureOwn) {
		return false
	}
	return !f.Place.Permission.Is(facts.PermissionWritten)
}

// toldAt reports whether a leaf was told, or follows from what was told.
func toldAt(f *facts.Facts, path string) bool {
	leaf, ok := facts.LeafAt(path)
	if !ok {
		return false
	}
	slot := leaf.At(f)
	switch slot.State() {
	case facts.Told:
		return true
	case facts.Derived:
		return slot.Basis() == facts.FromAnotherAnswer || slot.Basis() == facts.FromCodeRule
	}
	return false
}

// VerdictWord is a panel verdict as data and wire spell it.
func VerdictWord(v panel.Verdict) string {
	return wordOf([]string{"does_not_fit", "ask_the_ahj", "tight", "fits"}, int(v))
}

// holesLeft counts the access holes a fished run leaves for others to patch.
func holesLeft(o *Option) int {
	n := 0
	for i := range o.Bill.Lines {
		if l := &o.Bill.Lines[i]; l.Code == accessHoleTask {
			n += int(l.Quantity / 1000)
		}
	}
	return n
}

// accessHoleTask is the labour task that cuts a hole into a finished surface.
const accessHoleTask = "lab.access_hole"
