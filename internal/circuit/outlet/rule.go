package outlet

import (
	"io/fs"
	"slices"
	"strings"
	"sync"

	"daybreak/internal/fault"
	"daybreak/internal/fault/datafile"
	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// Rulebook holds the receptacles and rules, checked. It is read-only after
// [Load] and safe for concurrent use.
type Rulebook struct {
	receptacles []*Receptacle
	confusions  []Confusion
	rules       []rule
	settings    []unit.Amps // what equipment offers, rising
}

// rule is one row of rules.yaml. A zero mask in wants looks at nothing.
type rule struct {
	reason   Reason
	from, to int // years, 0 is open
	wants    shown
	verdict  Word
	now      unit.Amps
	limits   bool // now is a limit
	never    bool // nothing comes of this outlet once put right
	ways     []WayKind
	anyWay   bool
	work     []WorkKind
	verify   []Check
}

func (r *rule) matches(year int, s *shown) bool {
	if year < r.from || (r.to != 0 && year > r.to) {
		return false
	}
	for d := range r.wants {
		if r.wants[d] != 0 && r.wants[d]&s[d] == 0 {
			return false
		}
	}
	return true
}

type ruleRow struct {
	ID      string              `yaml:"id"`
	When    map[string][]string `yaml:"when"`
	Verdict string              `yaml:"verdict"`
	Now     *float64            `yaml:"now"`
	After   string              `yaml:"after"`
	Ways    *[]WayKind          `yaml:"ways"`
	Work    []WorkKind          `yaml:"work"`
	Verify  []Check             `yaml:"verify"`
	Finding string              `yaml:"finding"`
	Section string              `yaml:"section"`
	Status  working.Status      `yaml:"status"`
	Note    string              `yaml:"note"`
}

type ruleFile struct {
	Publication string      `yaml:"publication"`
	Unit        string      `yaml:"unit"`
	Settings    []unit.Amps `yaml:"settings"`
	Rules       []ruleRow   `yaml:"rules"`
}

// Load reads receptacles.yaml and rules.yaml. A row without source or status,
// a word that is on no list and an unknown field are faults with file and line.
func Load(fsys fs.FS) (*Rulebook, error) {
	b := &Rulebook{}
	var faces receptacleFile
	f, err := datafile.Open(fsys, "receptacles.yaml", &faces)
	if err != nil {
		return nil, err
	}
	if err := b.loadReceptacles(&faces, f); err != nil {
		return nil, err
	}
	var rules ruleFile
	if f, err = datafile.Open(fsys, "rules.yaml", &rules); err != nil {
		return nil, err
	}
	if rules.Publication == "" || rules.Unit != "A" || len(rules.Rules) == 0 {
		return nil, fault.InFile(f.Name, 1, "publication", rules.Publication, "a publication, unit A and rules")
	}
	if len(rules.Settings) == 0 || !slices.IsSorted(rules.Settings) || rules.Settings[0] <= 0 {
		return nil, fault.InFile(f.Name, 1, "settings", rules.Settings, "rising amperes")
	}
	b.settings = rules.Settings
	for i := range rules.Rules {
		if err := b.addRule(&rules, i, f); err != nil {
			return nil, err
		}
	}
	return b, nil
}

// ours is the rulebook that ships with the program; a broken one is found by
// the tests, and by everybody who asks.
var ours = sync.OnceValues(func() (*Rulebook, error) { return Load(embedded) })

// Receptacles lists every configuration known, in the order of the file. It
// must not be changed.
//
// Source: ANSI/NEMA WD 6, beside each row of receptacles.yaml.
func Receptacles() []*Receptacle {
	b, err := ours()
	if err != nil {
		return nil
	}
	return b.receptacles
}

// Receptacles lists the book's configurations.
func (b *Rulebook) Receptacles() []*Receptacle { return b.receptacles }

// Confusions lists the pairs of faces that are taken for one another.
func (b *Rulebook) Confusions() []Confusion { return b.confusions }

func (b *Rulebook) find(id string) *Receptacle {
	for _, r := range b.receptacles {
		if r.ID == id {
			return r
		}
	}
	return nil
}

var (
	verdictWords = []string{"use", "use_lower", "needs_work", "stop"}
	wayKinds     = []WayKind{SetDown, PutRight, WiredIn}
	// workOrder is every kind of work, in the order of the job.
	workOrder = []WorkKind{Inspect, GroundConductor, Reterminate, MoveOutlet, NewBreaker, GFCIBreaker, NewReceptacle,
		WeatherCover, Hardwire, SharingSwitch, SharingChargers, MountEquipment, LockSetting}
	// checkOrder is every check, what decides most first.
	checkOrder = []Check{CheckCondition, CheckGround, CheckWire, CheckBreaker, CheckSharing, CheckGrade, CheckGFCI,
		CheckCover, CheckReach, CheckSetting}
)

func (b *Rulebook) addRule(doc *ruleFile, i int, f *datafile.File) error {
	row := &doc.Rules[i]
	bad := func(field string, got any, accepted string) error {
		return fault.InFile(f.Name, f.Line("rules", i, field), field, got, accepted)
	}
	if !strings.HasPrefix(row.ID, "O-") || slices.ContainsFunc(b.rules, func(r rule) bool { return r.reason.Rule == row.ID }) {
		return bad("id", row.ID, "O- and a number, each once")
	}
	if row.Section == "" || !row.Status.Known() {
		return bad("status", row.Status, "a section and one of the five words of status")
	}
	r := rule{
		reason: Reason{Rule: row.ID, Words: ruleKey(row.ID), Finding: row.Finding,
			Source: &working.Source{Publication: doc.Publication, Section: row.Section, Status: row.Status}},
		never: row.After == "never", anyWay: row.Ways == nil, work: row.Work, verify: row.Verify,
	}
	if row.After != "" && row.After != "cap" && row.After != "never" {
		return bad("after", row.After, "cap or never")
	}
	if row.Verdict != "" {
		v := indexOf(verdictWords, row.Verdict)
		if v < 0 {
			return bad("verdict", row.Verdict, strings.Join(verdictWords, ", "))
		}
		r.verdict = Word(v)
	}
	if row.Now != nil {
		if *row.Now < 0 || *row.Now > 80 {
			return bad("now", *row.Now, "0 to 80 A")
		}
		r.now, r.limits = unit.Amps(*row.Now), true
	}
	if row.Finding != "" && !strings.HasPrefix(row.Finding, "D-") {
		return bad("finding", row.Finding, "a finding, D- and a number")
	}
	if row.Ways != nil {
		r.ways = *row.Ways
	}
	for _, list := range []struct {
		field string
		known bool
	}{{"ways", allIn(r.ways, wayKinds)}, {"work", allIn(r.work, workOrder)}, {"verify", allIn(r.verify, checkOrder)}} {
		if !list.known {
			return bad(list.field, list.field, "words of its closed list")
		}
	}
	if err := b.readWhen(&r, row, bad); err != nil {
		return err
	}
	b.rules = append(b.rules, r)
	return nil
}

func (b *Rulebook) readWhen(r *rule, row *ruleRow, bad func(string, any, string) error) error {
	if len(row.When) == 0 {
		return bad("when", "nothing", "at least one dimension")
	}
	for name, words := range row.When {
		if name == "years" {
			years, ok := yearsOf(words)
			if !ok {
				return bad("when", words, "years as [from, to], an open end 0")
			}
			r.from, r.to = years[0], years[1]
			continue
		}
		d := indexOf(dimensionNames[:], name)
		if d < 0 || len(words) == 0 {
			return bad("when", name, strings.Join(dimensionNames[:], ", "))
		}
		for _, w := range words {
			bit, ok := b.bit(dimension(d), w)
			if !ok {
				return bad("when", name+": "+w, strings.Join(dimensionWords[d], ", "))
			}
			r.wants[d] |= 1 << bit
		}
	}
	return nil
}

func (b *Rulebook) bit(d dimension, word string) (uint, bool) {
	if d == byReceptacle {
		if r := b.find(word); r != nil {
			return r.bit, true
		}
		return 0, false
	}
	i := indexOf(dimensionWords[d], word)
	return uint(max(i, 0)), i >= 0
}

func yearsOf(words []string) (years [2]int, ok bool) {
	if len(words) != 2 {
		return years, false
	}
	for i, w := range words {
		for _, c := range w {
			if c < '0' || c > '9' || len(w) > 4 {
				return years, false
			}
			years[i] = years[i]*10 + int(c-'0')
		}
	}
	return years, years[1] == 0 || years[0] <= years[1]
}

func allIn[T comparable](list, known []T) bool {
	return !slices.ContainsFunc(list, func(v T) bool { return !slices.Contains(known, v) })
}

// ruleKey turns "O-09" into "outlet.rule.o09", the key of its words.
func ruleKey(id string) string {
	return "outlet.rule." + strings.ReplaceAll(strings.ToLower(id), "-", "")
}
