package draw

import (
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
)

// Books are the demo shop's, with the common tables and the question tree.
func Books() (*shop.Books, error) {
	return shop.Open(alderbay.Files())
}
