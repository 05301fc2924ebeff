package edition_test

import (
	"fmt"

	"daybreak/internal/edition"
	"daybreak/internal/edition/nec"
)

// A designer asks the book and prints the answer with its place.
func Example() {
	var book edition.Edition
	book, err := nec.Open(nec.Embedded(), 2023)
	if err != nil {
		fmt.Println(err)
		return
	}
	device, err := book.NextDevice(1.25 * 48)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(device.Value, "A by", device.Source.Publication, device.Source.Section)
	_, err = book.NextDevice(1000)
	fmt.Println(err)
	// Output:
	// 60 A by NEC 2023 Table 240.6(A)
	// NEC 2023: a standard device for 1000 A: ratings end at 800 A here
}
