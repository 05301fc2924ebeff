// Package alderbay is the demo shop: Fernhill Home & Motor in the town of
// Alder Bay. Town, shop, prices, rates, fees, taxes and postal codes are
// invented and say so in every file.
package alderbay

import (
	"embed"
	"io/fs"
)

//go:embed shop.yaml jurisdictions.yaml prices tariffs
var files embed.FS

// Files gives the demo shop's folder, to be read by shop.Load.
func Files() fs.FS { return files }
