package moc

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// grid is one time step for the network and whole reaches for every pipe.
//
// A pipe of length L and wave speed a takes N = round(L/(a dt)) reaches of length a dt, so its length becomes N a dt; a/(gA) stays true, so
// a velocity change makes exactly the Joukowsky head everywhere. Pipes at a check valve are to fit within fitValve, all others within
// fitOther. Among the steps at which a pipe fits exactly, the largest that keeps to both bounds is taken; if none does, the one that misses least,
// and beyond lengthBound it is an error. With check valves the step is at most stepOfDiscs, however long the pipes are, unless the reaches are asked for.
type grid struct {
	dt      float64
	reaches []int
	from    string
	change  float64 // greatest relative change of a length
	where   string
	short   []string // pipes of a single reach
}

const (
	stepOfDiscs = 0.010 // s; discs take tenths of a second, and the velocity at the seating is wanted to some 5 mm/s
	fitValve    = 1e-3
	fitOther    = 1e-2
	lengthBound = 0.15
	maxNodes    = 2_000_000
	maxSteps    = math.MaxInt32 // counted in 32 bits by the envelopes
)

func (m *model) grid(s Settings, until float64) (*grid, error) {
	if len(m.pipes) == 0 {
		return nil, fmt.Errorf("%w: the network has no pipe", ErrGrid)
	}
	atValve, inLongest := or(s.ReachesAtValve, 4), or(s.ReachesInLongest, 100)
	longest, limit, from := 0.0, math.Inf(1), ""
	for i := range m.pipes {
		c := &m.pipes[i]
		t := c.length / c.a
		longest = math.Max(longest, t)
		least := atValve
		if c.column { // a stand-in for the liquid in pump and suction need not be finer than must be
			least = min(least, 2)
		}
		if c.atValve && t/float64(least) < limit {
			limit, from = t/float64(least), fmt.Sprintf("%s in %d reaches", c.name, least)
		}
	}
	if t := longest / float64(inLongest); t < limit {
		limit, from = t, fmt.Sprintf("longest pipe in %d reaches", inLongest)
	}
	if s.ReachesInLongest == 0 && len(m.units) > 0 && stepOfDiscs < limit {
		limit, from = stepOfDiscs, "check valves"
	}
	if s.Step > 0 {
		limit, from = s.Step, "step given"
	}
	best, score := 0.0, math.Inf(1)
	try := func(dt float64) bool {
		v, o := m.misfit(dt)
		if sc := math.Max(v/fitValve, o/fitOther); sc < score*(1-1e-9) {
			best, score = dt, sc
		}
		return score <= 1
	}
	// Steps at which some pipe fits exactly, from the largest down to a sixteenth of the limit, and that of a single reach of a pipe that is shorter: those of
	// the short pipes first, as the long ones fit nearly any step.
	var steps, times []float64
	for i := range m.pipes {
		times = append(times, m.pipes[i].length/m.pipes[i].a)
	}
	slices.Sort(times)
	for _, t := range slices.Compact(times) {
		most := max(int(math.Ceil(t/limit-1e-9)), 1)
		for k := most; k <= int(16*t/limit)+1 && (k == most || len(steps) < 20000); k++ {
			steps = append(steps, t/float64(k))
		}
	}
	slices.SortFunc(steps, func(a, b float64) int { return cmp.Compare(b, a) })
	for _, dt := range steps {
		if try(dt) {
			break
		}
	}
	if best < limit/2 {
		c := slices.MinFunc(m.pipes, func(a, b conduit) int { return cmp.Compare(a.length/a.a, b.length/b.a) })
		from = fmt.Sprintf("whole reaches of %s, the shortest pipe", c.name)
	}
	g := &grid{dt: best, from: from, reaches: make([]int, len(m.pipes))}
	nodes := 0
	scale := 1 << s.Halvings
	for i := range m.pipes {
		c := &m.pipes[i]
		n := c.reaches(best)
		if d := math.Abs(float64(n)*best*c.a/c.length - 1); d > g.change {
			g.change, g.where = d, c.name
		}
		if n == 1 {
			g.short = append(g.short, c.name)
		}
		g.reaches[i] = n * scale
		nodes += n*scale + 1
	}
	g.dt /= float64(scale)
	if g.change > lengthBound {
		return nil, fmt.Errorf("%w: %s would change its length by %.0f %% to make whole reaches of %.3g s (%s); merge it with its neighbour", ErrGrid, g.where, 100*g.change, best, g.from)
	}
	if nodes > maxNodes {
		return nil, fmt.Errorf("%w: %d nodes at a step of %.3g s (%s); leave out or lengthen that pipe, or merge it with its neighbour", ErrGrid, nodes, g.dt, g.from)
	}
	if end := m.span(until).end; end/g.dt > maxSteps {
		return nil, fmt.Errorf("%w: a run of %.4g s takes %.2g steps of %.3g s (%s), more than can be counted; let it end earlier, or leave out the shortest pipe at a check valve", ErrGrid, end, end/g.dt, g.dt, g.from)
	}
	return g, nil
}

// span is how long a run lasts.
type span struct {
	given bool
	end   float64 // at the latest, s
	event float64 // the last event, s
	say   float64 // after the first seating of each disc, s
}

// span is the time asked for; when none is, it is at most the greater of 20 s and 40 periods 4L/a of the longest pipe after the last event,
// and the greater of 2 s and 4 periods after the discs first came to their seats.
func (m *model) span(until float64) span {
	s := span{given: until > 0, end: until, event: m.lastEvent}
	longest := 0.0
	for i := range m.pipes {
		longest = math.Max(longest, m.pipes[i].length/m.pipes[i].a)
	}
	s.say = math.Max(2, 16*longest)
	if !s.given {
		s.end = s.event + math.Max(20, 160*longest)
	}
	return s
}

// misfit is the greatest relative change of length of the pipes at check valves, and of the others.
func (m *model) misfit(dt float64) (valves, others float64) {
	for i := range m.pipes {
		c := &m.pipes[i]
		d := math.Abs(float64(c.reaches(dt))*dt*c.a/c.length - 1)
		if c.atValve {
			valves = math.Max(valves, d)
		} else {
			others = math.Max(others, d)
		}
	}
	return valves, others
}

// reaches is the whole number of reaches at a step; at least two where a check valve is touched.
func (c *conduit) reaches(dt float64) int {
	least := 1
	if c.atValve {
		least = 2
	}
	return max(least, int(math.Round(c.length/c.a/dt)))
}

func or(n, otherwise int) int {
	if n == 0 {
		return otherwise
	}
	return n
}
