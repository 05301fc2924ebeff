package shop

import (
	"io/fs"
	"sync/atomic"
)

// Keeper holds the set of books in force. Readers take the whole set once and
// keep it for one piece of work, so no quote mixes two sets. It is safe for
// use by many at once.
type Keeper struct{ current atomic.Pointer[Shop] }

// NewKeeper loads a first set, which must be good.
func NewKeeper(fsys fs.FS) (*Keeper, error) {
	k := &Keeper{}
	if _, err := k.Reload(fsys); err != nil {
		return nil, err
	}
	return k, nil
}

// Current gives the set in force.
func (k *Keeper) Current() *Shop { return k.current.Load() }

// Reload reads a folder and puts it in force. A folder with a fault changes
// nothing: the last good set stays, and the faults are returned.
func (k *Keeper) Reload(fsys fs.FS) (*Shop, error) {
	s, err := Load(fsys)
	if err != nil {
		return nil, err
	}
	k.current.Store(s)
	return s, nil
}
