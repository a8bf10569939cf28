package choice

// jump is that of a series over an instant, between the straight line through the two points before it and that through the two after it.
type jump struct {
	before, after   [2]point
	nBefore, nAfter int
}

// take goes on with the series; past: the instant is behind it.
func (j *jump) take(t, v float64, past bool) {
	switch {
	case !past:
		j.before[0], j.before[1] = j.before[1], point{t, v}
		j.nBefore = min(j.nBefore+1, 2)
	case j.nAfter < 2:
		j.after[j.nAfter] = point{t, v}
		j.nAfter++
	}
}

// at is the jump at time t; false when there are not two points after it. A single point before it stands for steady flow.
func (j *jump) at(t float64) (float64, bool) {
	if j.nBefore == 0 || j.nAfter < 2 {
		return 0, false
	}
	line := func(a, b point) float64 { return a.v + (b.v-a.v)/(b.t-a.t)*(t-a.t) }
	was := j.before[1].v
	if j.nBefore == 2 {
		was = line(j.before[0], j.before[1])
	}
	return line(j.after[0], j.after[1]) - was, true
}
