package shop_test

import (
	"fmt"

	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
	"daybreak/internal/unit"
)

func ExampleLoad() {
	s, err := shop.Load(alderbay.Files())
	if err != nil {
		fmt.Println(err)
		return
	}
	on, _ := unit.ParseDate("2026-11-25")
	_, locality, _ := s.At("00012", on)
	fmt.Println(s.Name, "in", s.Town)
	fmt.Println(locality.Name, "asks for the NEC of", locality.Edition)
	// Output:
	// Fernhill Home & Motor in Alder Bay
	// Harbor Point asks for the NEC of 2023
}
