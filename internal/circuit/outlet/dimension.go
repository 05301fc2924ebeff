package outlet

// dimension is one thing a rule may look at, with its closed list of words.
// A rule holds a set of words per dimension and matches when the outlet shows
// one of them in each it names.
type dimension uint8

const (
	byReceptacle dimension = iota
	byAmps
	byLevel
	byBreaker
	byBreakerAmps
	byWire
	bySharing
	byCondition
	byGrade
	byLocation
	byCover
	byReach
	byGFCI
	byEquipmentFit
	bySetting
	byEquipment
	byAdapter
	bySupply
	byChargers
	dimensions
)

var (
	sharings  = []string{"individual", "dryer", "range", "appliance", "welder_built", "general_idle", "general_loaded", "garage_loads", Unknown}
	grades    = []string{"ev_listed", "industrial", "residential", Unknown}
	locations = []string{"indoor", "garage", "outdoor", Unknown}
	answers   = []string{Yes, No, Unknown}
	settings  = []string{"locked", "open", "uncounted", Unknown}
	kinds     = []string{"portable", "fastened", Unknown}
)

// names of the dimensions in rules.yaml and their words. The receptacles' own
// words are their ids.
var dimensionNames = [dimensions]string{
	"receptacle", "amps", "level", "breaker", "breaker_amps", "wire", "sharing", "condition", "grade", "location",
	"in_use_cover", "reach", "gfci", "equipment_fit", "setting", "equipment", "adapter", "supply", "chargers",
}

var dimensionWords = [dimensions][]string{
	byAmps:         {"15", "20", "30", "50", "60"},
	byLevel:        {"1", "2"},
	byBreaker:      {"within", "over", "under", "unread"},
	byBreakerAmps:  {"40", "other"},
	byWire:         {"borne", "over", "unread"},
	bySharing:      sharings,
	byCondition:    conditions[:],
	byGrade:        grades,
	byLocation:     locations,
	byCover:        answers,
	byReach:        {"reaches", "short", "unread"},
	byGFCI:         answers,
	byEquipmentFit: {"within", "over", "unread"},
	bySetting:      settings,
	byEquipment:    kinds,
	byAdapter:      answers,
	bySupply:       {"120", "208", "240"},
	byChargers:     {"one", "several"},
}

// shown is what an outlet shows in every dimension, as sets of words.
type shown [dimensions]uint32

func (s *shown) word(d dimension, w string) { s[d] = 1 << indexOf(dimensionWords[d], w) }
