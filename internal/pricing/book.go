package pricing

import (
	"math/big"

	"daybreak/internal/unit"
)

// Book is a shop's price book: items, labour, regions, permits, taxes and
// billing rules, checked whole. It does not change once loaded.
type Book struct {
	Name      string
	Revision  string
	Source    string
	Demo      bool // every figure is invented
	Currency  unit.Currency
	From, To  unit.Date // first and last day it is meant for
	ValidDays int       // days a quote from it stands

	code       string // of the currency
	extremes   bool   // low and high are the worst and best ever seen
	rolls      bool   // cable and wire are billed by whole rolls
	trades     []string
	sundries   []key
	allowances allowances

	items    []item
	index    map[key]int32
	evses    []int32 // items of charging equipment, cheapest first
	managers []int32 // items of energy management, cheapest first
	boards   []int32 // subpanels, cheapest first
	swaps    []int32 // kits for a panel at the same rating, cheapest first

	disconnects []int32           // emergency disconnects, cheapest first
	asides      map[string]int32  // allowances by what they are for
	weeks       map[string][3]int // what the utility takes for an upgrade, by feed

	labour labour
	home   string
	areas  map[string]area // by postal code

	regions []region
	permits []permit
	taxes   []tax
}

// item is one thing the book sells.
type item struct {
	code, words, unit string
	price             Triple // as the book has it, cost or list
	list              bool   // price is a selling price
	policy            Policy
	passThrough       bool // a fee passed on: no region factor
	class             Class
	trade             uint8
	selects           []attributes
	stickFeet         int64
	rollFeet          []int64
	file              string
	line              int
}

// allowances are lengths in thousandths of a foot, shares in ten-thousandths.
type allowances struct {
	panelTail, deviceTail, boxTail                    int64
	cable, conductor, raceway                         int64 // added to the length
	nmSupport, emtSupport, pvcSupport, pvcSupportWide int64
	mcSupport, flexSupport                            int64
	maxQuarterBends, cementJoints                     int64
	rho                                               float64
}

// labour is what hours cost and how many a task takes.
type labour struct {
	electrician, second int64 // per hour, selling
	trip, minimum       int64
	cap                 int64 // of a product of factors, in hundredths
	tasks               []task
	byID                [taskIDs]int32 // −1 where the book has no such task
	factors             map[Condition]factor
}

// task is one piece of labour. Hours are in ten-thousandths.
type task struct {
	code, words, unit string
	hours             [3]int64
	groups            groupSet
	twoPerson         bool
	trade             uint8
}

// factor makes hours longer, in hundredths.
type factor struct {
	group  groupSet
	factor [3]int64
}

// groupSet is a set of condition groups, a bit each in the order of groupNames.
type groupSet uint8

// groupNames are the groups of conditions, in the order of [Conditions] and
// with the size of cable last.
var groupNames = []string{"house", "height", "attic", "crawl", "masonry", "soil", "panel", "size"}

// area is what a postal code leads to; taxes are one per span of dates.
type area struct {
	region, permit int
	taxes          []int
}

// region moves prices and rates.
type region struct {
	id                     string
	labour, material, trip *big.Rat
	rates                  rates
}

// rates are a region's labour prices in minor units.
type rates struct{ electrician, pair, trip int64 }

// tax is one row of tax law for a place and a span of dates.
type tax struct {
	jurisdiction string
	kind         string
	rate         Rate
	taxable      ClassSet // lines the buyer pays tax on
	use          ClassSet // items whose use tax lies in their cost
	rounding     unit.Rounding
	from, to     unit.Date
	prices       map[int][]Triple // unit price of each item, by region
}

// permit is one authority's fees.
type permit struct {
	jurisdiction string
	kind         string
	circuit      int64 // flat
	service      int64
	subpanel     int64
	planCheck    int64
	circuits     []fee // per item, by the breaker's amps, rising
	services     []fee
	perAmp       int64
	base, floor  int64 // valuation
	rate         Rate
	minimum      int64
	workingDays  [3]int
	needs        []string
}

// fee holds to a rating.
type fee struct {
	toAmps int
	amount int64
}

var classNames = []string{"equipment", "material", "civil", "labour", "permit", "fee"}

// String gives the class as books spell it.
func (c Class) String() string {
	if int(c) >= len(classNames) {
		return ""
	}
	return classNames[c]
}

// Covers reports whether the book is meant for a date.
func (b *Book) Covers(on unit.Date) bool { return !on.Before(b.From) && !b.To.Before(on) }

// Items gives how many items the book holds.
func (b *Book) Items() int { return len(b.items) }
