package choice

import (
	"math"

	"seatwise/moc"
)

// recent is the last points of a series, so many that a run that goes back to where it saved last still has those it needs: copies share their room,
// and one of them may be written on while the other waits.
type recent struct {
	room []point
	n    int // points ever put in
}

type point struct{ t, v float64 }

// fewest is how many points a slope is taken over at least, zero apart.
const fewest = 4

// newRecent keeps at least so many steps.
func newRecent(steps int) recent {
	return recent{room: make([]point, max(steps, fewest)+2+moc.StepsBetweenSaves)}
}

func (r *recent) push(p point) {
	r.room[r.n%len(r.room)] = p
	r.n++
}

// at is the last point but i.
func (r *recent) at(i int) point { return r.room[(r.n-1-i)%len(r.room)] }

// slope is that of a straight line through points.
type slope struct {
	of     float64
	points int
}

// slope is by least squares over the points of the last window before the zero of the series, itself one of them: not before the event, and over four
// steps at least.
func (r *recent) slope(zero, window, event float64) slope {
	have := min(r.n, len(r.room))
	from := math.Max(math.Min(zero-window, r.at(min(fewest, have)-1).t), event)
	n := 0
	for n < have && r.at(n).t >= from {
		n++
	}
	points := func(f func(p point)) {
		f(point{t: zero})
		for i := range n {
			f(r.at(i))
		}
	}
	var mt, mv, tt, tv float64
	points(func(p point) { mt, mv = mt+p.t, mv+p.v })
	mt, mv = mt/float64(n+1), mv/float64(n+1)
	points(func(p point) { tt, tv = tt+(p.t-mt)*(p.t-mt), tv+(p.t-mt)*(p.v-mv) })
	return slope{tv / tt, n + 1}
}
