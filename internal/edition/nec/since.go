package nec

// since holds what changed: the entry of the newest year not after the year
// asked for is in force. It is the only place where years are compared.
type since[T any] map[int]T

// at returns the entry in force in a year, and false before the first.
func (s since[T]) at(year int) (v T, ok bool) {
	newest := -1
	for y, entry := range s {
		if y <= year && y > newest {
			newest, v, ok = y, entry, true
		}
	}
	return v, ok
}
