package band

// primes are the bases of the points, one for each dimension.
var primes = [...]int{
	2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89, 97, 101, 103, 107, 109, 113,
	127, 131, 137, 139, 149, 151, 157, 163, 167, 173, 179, 181, 191, 193, 197, 199, 211, 223, 227, 229, 233, 239, 241, 251,
	257, 263, 269, 271, 277, 281, 283, 293, 307, 311, 313, 317, 331, 337, 347, 349, 353, 359, 367, 373, 379, 383, 389, 397,
}

// point fills u with the k-th point, each coordinate inside (0, 1), and with
// the middle where a dimension is not open. Every dimension is turned by its
// own constant, so that large bases do not march in step over the first few
// points.
//
// Source: Halton (1960), radical inverse; Cranley and Patterson (1976), rotation.
func point(k int, u []float64, open []bool) {
	for d := range u {
		if !open[d] {
			u[d] = 0.5
			continue
		}
		x := radicalInverse(k+1, primes[d%len(primes)]) + rotation(d)
		u[d] = min(max(x-float64(int(x)), 1e-9), 1-1e-9)
	}
}

func radicalInverse(n, base int) float64 {
	x, f := 0.0, 1.0
	for n > 0 {
		f /= float64(base)
		x += f * float64(n%base)
		n /= base
	}
	return x
}

// rotation spreads the dimensions' turns by the golden ratio.
func rotation(d int) float64 {
	const golden = 0.6180339887498949
	x := golden * float64(d+1)
	return x - float64(int(x))
}
