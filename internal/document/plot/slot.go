package plot

import "math"

// svg draws one opening. The sheet counts y upward and SVG downward, so every
// y changes its sign; a clockwise angle stays clockwise.
func (s *slotRow) svg() string {
	switch s.Shape {
	case "round":
		return tag("circle", "cx", mm(s.X), "cy", mm(-s.Y), "r", mm(s.D/2))
	case "arc":
		return s.arc()
	case "D", "U":
		return s.rounded()
	case "T", "L":
		return tag("path", "d", s.bar()+s.leg())
	}
	if s.Angle != 0 {
		return tag("path", "d", s.bar(), "transform", "rotate("+millimetres(s.Angle)+" "+mm(s.X)+" "+mm(-s.Y)+")")
	}
	return tag("path", "d", s.bar())
}

func box(left, top, w, h float64) string {
	return "M" + mm(left) + " " + mm(top) + "h" + mm(w) + "v" + mm(h) + "h" + mm(-w) + "z"
}

func (s *slotRow) bar() string { return box(s.X-s.W/2, -s.Y-s.H/2, s.W, s.H) }

// leg is the second stroke of a T or L. A T's leg stands at the middle of the
// bar, an L's at its foot; its reach counts from the far edge of the bar.
func (s *slotRow) leg() string {
	thick := min(s.W, s.H)
	top := -s.Y - thick/2
	if s.Shape == "L" {
		top = -s.Y + s.H/2 - thick
	}
	switch s.Leg {
	case "left":
		return box(s.X+s.W/2-s.Reach, top, s.Reach, thick)
	case "right":
		return box(s.X-s.W/2, top, s.Reach, thick)
	}
	return box(s.X-thick/2, -s.Y+s.H/2-s.Reach, thick, s.Reach)
}

// rounded is the hole of the ground: flat towards the slots, round away from
// them, whichever way up the sheet has it.
func (s *slotRow) rounded() string {
	r := s.W / 2
	straight := max(s.H-r, 0)
	away, sweep := 1.0, " 0 0 1 " // down, on the screen
	if s.Y > 0 {
		away, sweep = -1, " 0 0 0 "
	}
	flat := -s.Y - away*s.H/2
	d := "M" + mm(s.X+r) + " " + mm(flat) + "v" + mm(away*straight) + "A" + mm(r) + " " + mm(r) + sweep + mm(s.X-r) + " " + mm(flat+away*straight) + "v" + mm(-away*straight) + "z"
	return tag("path", "d", d)
}

// arc is a curved slot of a locking face: a thick stroke on a circle.
func (s *slotRow) arc() string {
	point := func(radius, degrees float64) string {
		a := degrees * math.Pi / 180
		return mm(radius*math.Cos(a)) + " " + mm(-radius*math.Sin(a))
	}
	large := " 0 "
	if s.To-s.From > 180 {
		large = " 1 "
	}
	line := tag("path", "d", "M"+point(s.Radius, s.From)+"A"+mm(s.Radius)+" "+mm(s.Radius)+" 0"+large+"0 "+point(s.Radius, s.To),
		"fill", "none", "stroke", "currentColor", "stroke-width", mm(s.Thickness))
	if s.Hook == 0 {
		return line
	}
	// The hook stands inward at the first end, as wide as the slot is thick.
	at := s.From + s.Thickness/2/s.Radius*180/math.Pi
	return line + tag("path", "d", "M"+point(s.Radius, at)+"L"+point(s.Radius-s.Thickness/2-s.Hook, at),
		"stroke", "currentColor", "stroke-width", mm(s.Thickness))
}
