package pricing

import (
	"math"

	"daybreak/internal/unit"
	"daybreak/internal/working"
)

// tally is a bill in the making: one entry per line, in the order of the job.
// The first thing that does not fit is kept and ends the bill.
type tally struct {
	book  *Book
	place *Place
	work  *Work
	sheet *working.Sheet
	err   error
	n     int
	room  [mostLines]entry // on the stack: a draw must not allocate
}

// mostLines is more lines than a circuit, its feeder and its service have.
const mostLines = 112

// entries gives the lines so far.
func (t *tally) entries() []entry { return t.room[:t.n] }

// push adds a line and gives its place.
func (t *tally) push(e entry) *entry {
	if t.n == mostLines {
		t.fail(outOfBounds("design", "more", "work of at most 112 lines"))
		t.n--
	}
	t.room[t.n] = e
	t.n++
	return &t.room[t.n-1]
}

// entry is a line without words.
type entry struct {
	kind     LineKind
	class    Class
	trade    uint8
	ref      int32 // item, task or charge
	rule     rule
	quantity Quantity
	hours    [3]Hundredths
	price    Triple
	amount   Triple
	discount Triple
	used     int64 // feet, where length is bought in packs
}

// charges that are neither item nor task.
const (
	chargeTrip int32 = iota
	chargeMinimum
)

// thousand is one whole of a Quantity.
const thousand = 1000

func (t *tally) fail(err error) {
	if t.err == nil {
		t.err = err
	}
}

// item adds a quantity of the item that answers a key. Two needs for one item
// are one line; an item sold as a set is billed once however many labels or
// parts it answers to.
func (t *tally) item(k key, count int64, r rule, field string) {
	if count <= 0 {
		return
	}
	id, ok := t.book.index[k]
	if !ok {
		t.fail(missing(field, keyText(k)))
		return
	}
	t.add(id, count, r)
}

func (t *tally) add(id int32, count int64, r rule) *entry {
	it := &t.book.items[id]
	for i := range t.entries() {
		e := &t.room[i]
		if e.kind == ItemLine && e.ref == id {
			if it.unit != "set" {
				e.quantity += Quantity(count) * thousand
				e.use(it, count)
				t.extend(e)
			}
			return e
		}
	}
	e := t.push(entry{
		kind: ItemLine, class: it.class, trade: it.trade, ref: id, rule: r,
		quantity: Quantity(count) * thousand, price: t.place.prices[id],
	})
	e.use(it, count)
	t.extend(e)
	return e
}

// use keeps the feet of what is sold by the foot, for what must be bought.
func (e *entry) use(it *item, count int64) {
	if it.unit == "ft" {
		e.used += count
	}
}

// length adds feet of cable or wire, used or in whole rolls as the book bills.
func (t *tally) length(k key, feet int64, r rule, field string) {
	id, ok := t.book.index[k]
	if !ok {
		t.fail(missing(field, keyText(k)))
		return
	}
	e := t.add(id, feet, r)
	if t.book.rolls {
		e.quantity = Quantity(cover(t.book.items[id].rollFeet, e.used)) * thousand
		t.extend(e)
	}
}

// extend multiplies out a line of items, half to even.
func (t *tally) extend(e *entry) {
	for s := range e.amount {
		e.amount[s], _ = unit.RoundRatio(int64(e.quantity), e.price[s], thousand, unit.HalfEven)
	}
}

// task adds a quantity of a task, in thousandths of its unit, with the size
// group of what is pulled where the task asks for one.
func (t *tally) task(id taskID, quantity Quantity, size Condition, r rule) {
	if quantity <= 0 {
		return
	}
	ref := t.book.labour.byID[id]
	if ref < 0 {
		t.fail(missing("design", taskCodes[id]))
		return
	}
	k := &t.book.labour.tasks[ref]
	rate := t.place.region.rates.electrician
	if k.twoPerson {
		rate = t.place.region.rates.pair
	}
	e := entry{
		kind: LabourLine, class: ClassLabour, trade: k.trade, ref: ref, rule: r, quantity: quantity,
		price: Triple{rate, rate, rate},
	}
	product, scale := t.factors(k.groups, size)
	for s := range e.hours {
		h, ok := unit.RoundRatio(int64(quantity)*k.hours[s], product[s]*100, thousand*10_000*scale[s], unit.HalfEven)
		if !ok {
			t.fail(missing("design", taskCodes[id]))
			return
		}
		e.hours[s] = Hundredths(h)
		e.amount[s], _ = unit.RoundRatio(h, rate, 100, unit.HalfEven)
	}
	t.push(e)
	t.stepHours(k, &e, product, scale)
}

// factors multiplies one factor from each group a task names. The product is
// a ratio, exact, and held at the book's cap.
func (t *tally) factors(groups groupSet, size Condition) (product, scale [3]int64) {
	product, scale = [3]int64{1, 1, 1}, [3]int64{1, 1, 1}
	if groups == 0 {
		return product, scale
	}
	c := &t.work.Conditions
	for i, code := range [...]Condition{c.House, c.Height, c.Attic, c.Crawl, c.Masonry, c.Soil, c.Panel, size} {
		if code == "" || groups&(1<<i) == 0 {
			continue
		}
		f, ok := t.book.labour.factors[code]
		if !ok || f.group != 1<<i {
			t.fail(missing("conditions."+groupNames[i], code))
			return product, scale
		}
		for s := range product {
			if f.factor[s] != 100 {
				product[s] *= f.factor[s]
				scale[s] *= 100
			}
		}
	}
	for s := range product {
		if product[s]*100 > t.book.labour.cap*scale[s] {
			product[s], scale[s] = t.book.labour.cap, 100
		}
	}
	return product, scale
}

// milli counts a length in thousandths of a foot, the finest the bill knows.
func milli(f unit.Feet) int64 { return int64(math.Round(float64(f) * 1000)) }

// ceilDiv is the least whole number not below a/b; a is not negative.
func ceilDiv(a, b int64) int64 { return (a + b - 1) / b }

// cover gives the feet of the cheapest cover of a length by whole rolls: as
// all rolls of one item cost the same a foot, that is the cover with the least
// left over.
func cover(rolls []int64, feet int64) int64 {
	if len(rolls) == 0 || feet <= 0 {
		return feet
	}
	largest := rolls[len(rolls)-1]
	// Below two largest rolls every sum is tried; above, largest rolls fill up.
	head := int64(0)
	if feet > 2*largest {
		head = (feet - 2*largest) / largest * largest
	}
	rest := feet - head
	reach := make([]bool, rest+largest+1)
	reach[0] = true
	for sum := int64(0); sum < int64(len(reach)); sum++ {
		if !reach[sum] {
			continue
		}
		if sum >= rest {
			return head + sum
		}
		for _, r := range rolls {
			if sum+r < int64(len(reach)) {
				reach[sum+r] = true
			}
		}
	}
	return head + ceilDiv(rest, largest)*largest
}
