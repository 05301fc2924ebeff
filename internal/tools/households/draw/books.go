package draw

import (
	"daybreak/internal/intake/tree"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"
)

// Books are the demo shop's, with the common tables and the question tree.
func Books() (*shop.Books, error) {
	common, err := shop.OpenCommon(shop.Sources{})
	if err != nil {
		return nil, err
	}
	tenant, err := shop.Load(alderbay.Files())
	if err != nil {
		return nil, err
	}
	questions, err := tree.Load(tree.Embedded())
	if err != nil {
		return nil, err
	}
	return shop.Join(common, tenant, questions), nil
}
