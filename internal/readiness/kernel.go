package readiness

// kernel is one day's need on a grid of deficits: what it adds, cell by cell,
// and what it means to start the day from each cell.
type kernel struct {
	weights []float64 // reversed: weights[n-k] is the chance of adding k cells; three zeros follow
	short   []float64 // chance that a day begun at cell k is short
	missing []float64 // mean energy missing on it, kWh
	average float64   // mean need, kWh
}

// days is a day's need as a distribution: its mean, and for any energy the share
// of days that need no more and the integral of that share from nothing.
type days interface {
	average() float64
	at(kWh float64) (share, integral float64)
}

// kernelOf puts a need on n cells between nothing and room, with weights that
// keep total and mean exact (hat functions); n is a multiple of four. What it means to be short is taken
// from the distribution itself, never from rounded weights.
func kernelOf(d days, room float64, n int) kernel {
	k := kernel{
		weights: make([]float64, n+4),
		short:   make([]float64, n+1),
		missing: make([]float64, n+1),
		average: d.average(),
	}
	h := room / float64(n)
	before, here := 0.0, 0.0
	for i := 0; i <= n+1; i++ {
		share, next := d.at(float64(i) * h)
		if i <= n {
			k.short[n-i] = 1 - share
			k.missing[n-i] = max(k.average-float64(i)*h+next, 0)
		}
		switch {
		case i == 1:
			k.weights[n] = next / h
		case i > 1:
			k.weights[n-i+1] = max((next-2*here+before)/h, 0)
		}
		before, here = here, next
	}
	return k
}

// drive moves the chances of the morning's deficits, in, to the evening's, out;
// whatever passes the last cell stays there. Four cells are summed together,
// since they share what they read: the walk spends nearly all its time here.
func (k *kernel) drive(in, out []float64) {
	n := len(in) - 1
	total, kept := in[n], 0.0
	for j := 0; j < n; j += 4 {
		x := in[: j+4 : j+4]
		w := k.weights[n-j-3:]
		w = w[:len(x)+3]
		a, b, c := w[0], w[1], w[2]
		var s0, s1, s2, s3 float64
		for i := 0; i+4 <= len(x); i += 4 {
			y, v := x[i:i+4:i+4], w[i+3:i+7:i+7]
			s3 += (y[0]*a + y[1]*b) + (y[2]*c + y[3]*v[0])
			s2 += (y[0]*b + y[1]*c) + (y[2]*v[0] + y[3]*v[1])
			s1 += (y[0]*c + y[1]*v[0]) + (y[2]*v[1] + y[3]*v[2])
			s0 += (y[0]*v[0] + y[1]*v[1]) + (y[2]*v[2] + y[3]*v[3])
			a, b, c = v[1], v[2], v[3]
		}
		out[j], out[j+1], out[j+2], out[j+3] = s0, s1, s2, s3
		kept += (s0 + s1) + (s2 + s3)
		total += (in[j] + in[j+1]) + (in[j+2] + in[j+3])
	}
	out[n] = total - kept
}
