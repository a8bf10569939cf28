package export

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Bin is the usual time, s, of which a history keeps the first and last row and the rows of the extremes.
const Bin = 1e-3

// followed are the series whose extremes a reduced history keeps.
var followed = []string{"velocity", "pressure_down"}

// rowsKept says in words what the histories keep, and the tables of forces where there are some. The run itself holds a part of the steps of a long history
// only, of as many seconds as held says in the coarsest of them.
func rowsKept(bin, held float64, forces bool) string {
	text := "every time step"
	if bin > 0 {
		text = fmt.Sprintf("of every %g ms the first, the last and those with the extremes of %s", 1e3*bin, strings.Join(followed, " and "))
		if forces {
			text += ", or of every force"
		}
	}
	if held > bin {
		text += fmt.Sprintf("; of runs of very many steps, away from the events and the first reversals and seatings, of every %.3g ms the first, the last and those with the extremes of any series", 1e3*held)
	}
	return text
}

// Kept lists the rows of a history that remain: of every bin, s, the first and the last, and those with the least and the greatest value of each
// series. With a bin of 0 every row does. Values that are not finite are no extremes.
func Kept(time []float64, bin float64, series [][]float64) []int {
	var rows []int
	for i := 0; i < len(time); {
		j := i + 1
		for n := math.Floor(time[i] / bin); bin > 0 && j < len(time) && math.Floor(time[j]/bin) == n; {
			j++
		}
		some := []int{i, j - 1}
		for _, x := range series {
			least, most := -1, -1
			for k := i; k < j; k++ {
				if finite(x[k]) && (least < 0 || x[k] < x[least]) {
					least = k
				}
				if finite(x[k]) && (most < 0 || x[k] > x[most]) {
					most = k
				}
			}
			if least >= 0 {
				some = append(some, least, most)
			}
		}
		slices.Sort(some)
		rows = append(rows, slices.Compact(some)...)
		i = j
	}
	return rows
}
