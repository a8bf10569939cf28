package characteristic

import (
	"fmt"
	"math"
	"slices"

	"seatwise/valve"
)

// Course is a recorded bore velocity: v, m/s, at times t, s, that increase from zero; straight between them.
type Course struct{ Time, Velocity []float64 }

func (c *Course) end() float64 { return c.Time[len(c.Time)-1] }

func (c *Course) at(t float64) float64 {
	i, _ := slices.BinarySearch(c.Time, t)
	i = min(max(i, 1), len(c.Time)-1)
	f := (t - c.Time[i-1]) / (c.Time[i] - c.Time[i-1])
	return c.Velocity[i-1] + f*(c.Velocity[i]-c.Velocity[i-1])
}

// Follow runs the bench along a course from the steady state at its first velocity, which must be above zero. The valve never seats when the
// course ends first. The point has no deceleration, as a course has no single one. The error names what is wrong with the course.
func Follow(v valve.Valve, c Course, s Settings) (Point, error) {
	if len(c.Time) < 2 || len(c.Time) != len(c.Velocity) || c.Time[0] != 0 || !(c.Velocity[0] > 0) {
		return Point{}, fmt.Errorf("characteristic: a course needs two points at least, from time zero and forward flow")
	}
	for i, t := range c.Time {
		if math.IsNaN(c.Velocity[i]) || math.IsInf(c.Velocity[i], 0) || math.IsInf(t, 0) || i > 0 && !(t > c.Time[i-1]) {
			return Point{}, fmt.Errorf("characteristic: course is not finite, or its time goes back, at point %d", i+1)
		}
	}
	start := v.Motion.Steady(c.Velocity[0])
	b := bench{m: v.Motion, v0: c.Velocity[0], course: &c, step: s.Step}
	if b.step == 0 {
		b.step = 2e-3
	}
	p := b.run(start.State, start.DP)
	p.SeatSpeed = p.SeatRate * v.Reach
	return p, nil
}
