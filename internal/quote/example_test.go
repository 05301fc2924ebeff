package quote_test

import (
	"fmt"

	"daybreak/internal/facts"
	"daybreak/internal/quote"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/unit"
)

// A home with every leaf filled gets its quote. Room band fills what nobody
// told, lists it, and puts a range over it.
func ExampleCompose() {
	books, err := openBooks()
	if err != nil {
		fmt.Println(err)
		return
	}
	today := unit.Date{Year: 2026, Month: 11, Day: 25}
	var told facts.Facts
	told.Place.PostalCode = facts.Tell("00010")
	told.Vehicle.Model = facts.Tell("mid-sedan-long")
	told.Driving.WeekdayMiles = facts.Tell(unit.Miles(35))
	told.Panel.ServiceAmps = facts.Tell(unit.Amps(200))
	filled := told
	books.Complete(&filled, today)
	books.Tree.Central(&filled, books.World(today))

	q, err := quote.Compose(books, quote.Household{Told: told, Filled: filled}, today)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range q.Options {
		fmt.Println(o.Role.Words(), o.ID, o.Setting, "A on", o.Breaker, "A")
	}
	// Output:
	// [enough_for_now] outlet-put_right 12 A on 20 A
	// [best_fit] new-hardwired-32 32 A on 40 A
	// [room_to_grow] new-hardwired-48 48 A on 60 A
}

func openBooks() (*shop.Books, error) {
	return shop.Open(alderbay.Files())
}
