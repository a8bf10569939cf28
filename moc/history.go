package moc

import "math"

// rows keeps series over the steps of a run, in a bounded number of rows. A row is one step, in which every series has a value.
//
// Up to the bound every step has its row. Beyond it the steps are put in bins of equal length, and of each bin those rows stay that are its
// first or its last, or hold the least or the greatest value of some series. So every row left is a state that the run was in, and the extremes of
// every series are exact in value and in time. The bins double as the run outgrows them; thinning rows that have been thinned before gives
// what thinning all of them would have given, because what stayed holds the extremes.
//
// All rows stay at the start, within a window of steps on either side of each moment of interest, and within a window of the last step, as a moment may
// come next. All windows together take no more than half the bound.
type rows struct {
	most    int // rows kept
	window  int // steps
	width   int // of a bin, steps
	thinned bool
	time    []float64
	series  []*[]float64
	stay    []bool
}

const (
	usualSamples = 200_000
	mostValues   = 50_000_000 // of all series together
)

// newRows keeps the given series, empty slices with no room yet, for a run of so many steps at the most with so many moments of interest.
func newRows(samples, steps, moments int, series []*[]float64) rows {
	most := min(or(samples, usualSamples), mostValues/max(len(series), 1))
	most = max(most, 8*(len(series)+moments+1+checkpointEvery)) // one bin, the windows, and the steps between two checkpoints
	h := rows{most: most, window: most/(4*(moments+1)) - 1, width: 2, series: series}
	room := min(steps+1, most)
	h.time, h.stay = make([]float64, 0, room), make([]bool, room)
	for _, s := range series {
		*s = make([]float64, 0, room)
	}
	return h
}

// full tells whether the rows might not last until the next checkpoint.
func (h *rows) full() bool { return len(h.time) > h.most-checkpointEvery }

// bin is the time of which a part of the steps is kept, s; 0: every step is.
func (h *rows) bin(dt float64) float64 {
	if !h.thinned {
		return 0
	}
	return float64(h.width) * dt
}

// cut drops all but the first n rows.
func (h *rows) cut(n int) {
	h.time = h.time[:n]
	for _, s := range h.series {
		*s = (*s)[:n]
	}
}

// thin makes room. Moments are steps.
func (h *rows) thin(dt float64, moments []int) {
	h.thinned = true
	last := h.step(len(h.time)-1, dt)
	for {
		h.choose(dt, last, moments)
		h.keep()
		if len(h.time) <= h.most*3/4 || h.width > last {
			return
		}
		h.width *= 2
	}
}

func (h *rows) step(row int, dt float64) int { return int(math.Round(h.time[row] / dt)) }

// choose marks the rows that stay.
func (h *rows) choose(dt float64, last int, moments []int) {
	n := len(h.time)
	stay := h.stay[:n]
	clear(stay)
	stay[0], stay[min(1, n-1)] = true, true // their distance tells the step
	for i := 0; i < n; {
		bin, j := h.step(i, dt)/h.width, i+1
		for j < n && h.step(j, dt)/h.width == bin {
			j++
		}
		stay[i], stay[j-1] = true, true
		for _, s := range h.series {
			x := (*s)[i:j]
			least, most := 0, 0
			for k, v := range x {
				if v < x[least] {
					least = k
				}
				if v > x[most] {
					most = k
				}
			}
			stay[i+least], stay[i+most] = true, true
		}
		i = j
	}
	for i := range stay {
		at := h.step(i, dt)
		near := at >= last-h.window
		for _, m := range moments {
			near = near || at >= m-h.window && at <= m+h.window
		}
		stay[i] = stay[i] || near
	}
}

// keep drops the rows that do not stay.
func (h *rows) keep() {
	n := 0
	for i, ok := range h.stay[:len(h.time)] {
		if !ok {
			continue
		}
		h.time[n] = h.time[i]
		for _, s := range h.series {
			(*s)[n] = (*s)[i]
		}
		n++
	}
	h.cut(n)
}
