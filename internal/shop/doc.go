// Package shop holds one tenant's books, parsed and checked together.
//
// It answers: what does this shop sell, at which prices, under which
// authorities, and are its books fit to be served? [Load] reads a shop's
// folder in one go: shop.yaml says who it is, prices/ is its price book,
// jurisdictions.yaml its postal table, and tariffs/, which a shop may leave out,
// the utility's prices. Books that disagree with each other are
// refused like books that disagree with themselves, and every fault is told
// with file, line, field and what would do.
//
// Read [Shop], then [Keeper], which holds the set in force: a set that fails is
// never served, the last good one stays. Each book carries the revision its
// staff gave it and the digest of its bytes, so a quote can name the books it
// was made from; tariffs, on which no quote rests, stand beside them. The demo shop lies in alderbay/.
//
// The room reads no directory by itself: it takes an fs.FS.
package shop
