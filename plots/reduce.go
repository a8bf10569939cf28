package plots

import "sort"

// point is a point of a line in the units of its axes.
type point struct{ x, y float64 }

// reduce gives the part of a series between lo and hi as points, at most four in each of n columns: the first, the least, the greatest
// and the last. A point just outside on either side is kept so that the line runs to the edge. x must not decrease.
func reduce(x, y []float64, lo, hi float64, n int) []point {
	i0 := max(0, sort.SearchFloat64s(x, lo)-1)
	i1 := min(len(x), sort.SearchFloat64s(x, hi)+1)
	if i1-i0 <= 4*n {
		pts := make([]point, 0, max(0, i1-i0))
		for i := i0; i < i1; i++ {
			pts = append(pts, point{x[i], y[i]})
		}
		return pts
	}
	column := func(i int) int {
		switch {
		case x[i] < lo: // a point outside must not hide one inside
			return -1
		case x[i] > hi:
			return n + 1
		case hi <= lo:
			return 0
		}
		return int(float64(n) * (x[i] - lo) / (hi - lo))
	}
	pts := make([]point, 0, 4*n)
	for i := i0; i < i1; {
		c := column(i)
		least, most, j := i, i, i
		for ; j < i1 && column(j) == c; j++ {
			if y[j] < y[least] {
				least = j
			}
			if y[j] > y[most] {
				most = j
			}
		}
		last := -1
		for _, k := range []int{i, min(least, most), max(least, most), j - 1} {
			if k != last {
				pts = append(pts, point{x[k], y[k]})
				last = k
			}
		}
		i = j
	}
	return pts
}
