package pricing

import "daybreak/internal/unit"

// Triple is one amount in the three scenarios, in minor units of the book's
// currency.
type Triple [3]int64

// The three scenarios. Low and high of a price are its P10 and P90.
const (
	Low = iota
	Likely
	High
)

// Class is a line's tax class.
type Class uint8

const (
	ClassEquipment Class = iota
	ClassMaterial
	ClassCivil
	ClassLabour
	ClassPermit
	ClassFee
	classes
)

// ClassSet is a set of tax classes.
type ClassSet uint8

// Classes makes a set.
func Classes(list ...Class) (s ClassSet) {
	for _, c := range list {
		s |= 1 << c
	}
	return s
}

// Has reports whether the set holds a class.
func (s ClassSet) Has(c Class) bool { return s&(1<<c) != 0 }

// Figures are a bill's amounts without its lines: what a draw needs.
type Figures struct {
	Currency unit.Currency
	Sum      Triple // of the lines
	Discount Triple // taken off them
	Subtotal Triple // sum less discount
	Permit   Triple
	Taxable  Triple // base of the tax line
	Tax      Triple
	Total    Triple // likely is the priced figure
	Spread   Spread // of the subtotal
	AllIn    Spread // of the total
}

// Money gives minor units of the bill as money.
func (f Figures) Money(minor int64) unit.Money { return unit.Money{Minor: minor, Currency: f.Currency} }

// Spread is how an amount varies from one such job to the next, in minor
// units. It is a statistic and not an amount, so it is a float; round it only
// to show it. The mean stands for P50.
//
// Source: Swanson's rule for P10, P50 and P90 (weights 0.3, 0.4, 0.3), common
// in petroleum estimating; correlation 0.6 within a trade, engineering judgement.
type Spread struct {
	Mean, SD, P10, P90 float64
}

// Bill is a priced piece of work, every amount an integer of minor units.
type Bill struct {
	Figures
	Lines       []Line
	FeetAssumed unit.Feet // run and drops, without tails and waste
	TenMoreFeet Triple    // what ten more feet of the longest segment add to the total; zero without wiring
	Permits     PermitNote
	Taxes       TaxNote
	Findings    []Finding
	Utility     *UtilityNote // only of a service upgrade
	Asides      []AsideNote  // priced by others, not in the total
}

// UtilityNote is what the utility does in a service upgrade, and how long it
// may take.
type UtilityNote struct {
	Weeks [3]int   // low, likely, high, from the request to the new meter; zero where the rating stays
	Steps []string // word keys, in order
}

// AsideNote is work or a fee that others price. A zero amount is a price
// nobody here can name.
type AsideNote struct {
	Key    string // of its words
	What   string
	Code   string // of the book's allowance; "" without one
	Amount Triple
}

// Line is one line of a bill.
type Line struct {
	Code      string // of the item or task
	Words     string // the book's description
	Kind      LineKind
	Quantity  Quantity // billed
	Unit      string
	UnitPrice Triple
	Amount    Triple
	Discount  Triple         // its share of the discount
	Hours     *[3]Hundredths // labour only
	Class     Class
	Trade     string
	Why       string    // rule key whose words say why the line is there and how much
	From      string    // rule key of the design step it comes from; "" when pricing's own
	Purchase  *Purchase // only where what is bought is not what is used
}

// LineKind sorts lines for reading.
type LineKind uint8

const (
	// ItemLine: something supplied.
	ItemLine LineKind = iota
	// LabourLine: hours of a task.
	LabourLine
	// ChargeLine: trip, minimum charge.
	ChargeLine
)

// Quantity counts in thousandths, so that 3.4 stays exact.
type Quantity int64

// Hundredths is hours in hundredths of an hour, the step hours are billed in.
type Hundredths int64

// Purchase is what has to be bought to have what is used. What is left over
// belongs to whoever paid for it.
type Purchase struct {
	Used   int64 // feet
	Pack   int64 // feet in one stick or roll; 0 when rolls of several sizes are mixed
	Bought int64 // feet
}

// PermitNote says which authority takes the fee and how it is reckoned.
type PermitNote struct {
	Jurisdiction string
	Kind         string
	WorkingDays  [3]int // 0 when not stated
	Needs        []string
}

// TaxNote says what the tax line stands on.
type TaxNote struct {
	Jurisdiction string
	Kind         string
	Rate         string // a decimal fraction as the book writes it
	Included     bool   // use tax lies inside our prices
}

// Finding is something a reader of the bill must know about its books.
type Finding struct {
	Key  string // "pricing.book_expired", "pricing.book_not_yet"
	Date unit.Date
}

// SumOf adds the same amount of several bills of one quote, scenario by
// scenario. Each bill keeps its own permit, tax and spread: a bill is not
// split after tax.
func SumOf(parts ...Triple) (sum Triple) {
	for _, p := range parts {
		for s := range sum {
			sum[s] += p[s]
		}
	}
	return sum
}
