package pricing

// Weeks is how long the utility's part of a bill may take: low, likely, high;
// zero where it has none.
func (b *Bill) Weeks() [3]int {
	if b.Utility == nil {
		return [3]int{}
	}
	return b.Utility.Weeks
}
