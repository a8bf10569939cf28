package choice

import (
	"math"

	"seatwise/moc"
)

// above measures at every node of every pipe for how long the pressure is above a bound from the first event on: the design pressure, where a rule goes by durations.
//
// Of each time step that part counts in which the head, taken as linear over the step, is above the head of the bound,
//
//	H_b = z + p_b/(rho g)
//
// with z, m, the lowest point that the node stands for and p_b, Pa gauge, the bound. All times above it in one run are added up, though a code may speak of
// the longest one: that is on the safe side.
type above struct {
	*watch
	event, bound, gamma float64 // s, Pa, N/m3
	events              float64 // a year
	pipes               []moc.PipeTrace
	bounds              [][]float64 // H_b, m
	heads, since        [][]float64 // before, m; and time above so far, s
	keptHeads, kept     [][]float64
	at, keptAt          float64 // time of the last step, s
	dt                  float64 // of it after the event, s
}

// stay is the longest time at any node, its place, and whether the pressure is still above the bound somewhere at the end.
type stay struct {
	time  float64
	spot  Spot
	still bool
}

// Along takes the profiles.
func (a *above) Along(pipes []moc.PipeTrace) {
	a.pipes = pipes
	room := func() [][]float64 {
		var out [][]float64
		for i := range pipes {
			out = append(out, make([]float64, len(pipes[i].Bottom)))
		}
		return out
	}
	a.bounds, a.heads, a.since, a.keptHeads, a.kept = room(), room(), room(), room(), room()
	for i := range pipes {
		for k, z := range pipes[i].Bottom {
			a.bounds[i][k] = z + a.bound/a.gamma
		}
	}
}

// Step goes on with the valves.
func (a *above) Step(now float64, units []moc.UnitState, forces []float64) {
	a.watch.Step(now, units, forces)
	a.dt, a.at = math.Max(0, now-math.Max(a.at, a.event)), now
}

// Heads goes on with one pipe.
func (a *above) Heads(_ float64, pipe int, heads []float64) {
	before, since, bounds := a.heads[pipe], a.since[pipe], a.bounds[pipe]
	if a.dt > 0 {
		for k, h := range heads {
			if x, y := before[k]-bounds[k], h-bounds[k]; x > 0 || y > 0 {
				since[k] += a.dt * partAbove(x, y)
			}
		}
	}
	copy(before, heads)
}

// partAbove is the part of a step in which a line from x to y is above zero.
func partAbove(x, y float64) float64 {
	switch {
	case x > 0 && y > 0:
		return 1
	case x > 0:
		return x / (x - y)
	case y > 0:
		return y / (y - x)
	}
	return 0
}

// Save keeps the state.
func (a *above) Save() {
	a.watch.Save()
	for i := range a.pipes {
		copy(a.keptHeads[i], a.heads[i])
		copy(a.kept[i], a.since[i])
	}
	a.keptAt = a.at
}

// Restore goes back to it.
func (a *above) Restore() {
	a.watch.Restore()
	for i := range a.pipes {
		copy(a.heads[i], a.keptHeads[i])
		copy(a.since[i], a.kept[i])
	}
	a.at = a.keptAt
}

// longest is the stay at the worst node. Time is negative: it is of no one moment.
func (a *above) longest(p *places) stay {
	out := stay{spot: Spot{Time: -1}}
	for i := range a.pipes {
		for k, t := range a.since[i] {
			out.still = out.still || a.heads[i][k] > a.bounds[i][k]
			if t > out.time {
				out.time, out.spot.Place = t, p.at(&a.pipes[i], k)
			}
		}
	}
	return out
}

// above takes the longest stay above the design pressure; a is nil where no rule goes by it.
func (o *Outcome) above(a *above, p *places, s Settings) {
	if a == nil {
		o.TimeAbove, o.TimeAboveYear = none(notTimed), none(notTimed)
		return
	}
	most := a.longest(p)
	if most.still {
		reason := "still exceeded when the run ends at " + seconds(a.at, s)
		o.TimeAbove, o.TimeAboveYear = none(reason), none(reason)
		return
	}
	o.TimeAbove, o.TimeAboveYear = Value{SI: most.time}, Value{SI: most.time * a.events}
	o.Spots[keyAbove], o.Spots[keyAboveYear] = most.spot, most.spot
}

const notTimed = "no rule of the limits goes by it"
