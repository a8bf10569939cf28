package plots

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg/draw"
)

// ErrNoPeak is returned when there is no reported peak to draw.
var ErrNoPeak = errors.New("plots: no reported peak to draw")

// Peak is a greatest head of an experiment, m: as reported, and as computed for it.
type Peak struct {
	Series             string // experiments of one source
	Reported, Computed float64
}

// agreementLines are the deviations, %, within which the sources are known, dotted in the figure.
var agreementLines = []float64{2, 10}

// Agreement draws computed against reported greatest heads, and the deviation of each. Notes say what "reported" means. The error is [ErrNoPeak], or
// wraps [ErrSeries] when a value cannot be drawn.
func Agreement(peaks []Peak, notes ...string) (Figure, error) {
	if len(peaks) == 0 {
		return Figure{}, ErrNoPeak
	}
	var series []string
	top, most := 0.0, agreementLines[len(agreementLines)-1]
	for _, p := range peaks {
		if !finite(p.Reported) || !finite(p.Computed) || p.Reported <= 0 {
			return Figure{}, fmt.Errorf("%w: a peak of %s is no head above zero", ErrSeries, p.Series)
		}
		if !slices.Contains(series, p.Series) {
			series = append(series, p.Series)
		}
		top = max(top, p.Reported, p.Computed)
		most = max(most, math.Abs(p.deviation()))
	}
	heads := linear("Reported greatest head (m)", 0, 1.04*top, 5)
	both := &panel{x: heads, y: heads, head: "Computed against reported"}
	both.y.label = "Computed greatest head (m)"
	both.lines = append(both.lines, line{[]point{{0, 0}, {heads.max, heads.max}}, plain(draw.LineStyle{Color: mist, Width: steadyWidth})})
	both.labels = append(both.labels, label{text: "computed = reported", spots: beneath(heads)})
	apart := &panel{x: heads, y: linear("Deviation (%)", -1.1*most, 1.25*most, 6), head: "Deviation of the computed from the reported"}
	apart.horizontal(0, plain(draw.LineStyle{Color: mist, Width: steadyWidth}))
	for _, d := range agreementLines {
		for _, y := range []float64{d, -d} {
			apart.horizontal(y, limitLine())
		}
		apart.labels = append(apart.labels, label{text: fmt.Sprintf("%g %%", d), spots: along(across(apart.x, d), 1)})
	}
	var key []entry
	for i, s := range series {
		letter := string(rune('A' + i%26))
		col := palette[i%len(palette)]
		key = append(key, entry{text: clean(letter + ": " + s), sty: plain(draw.LineStyle{Color: col, Width: 3 * dataWidth})})
		named := map[float64]bool{}
		for _, p := range peaks {
			if p.Series != s {
				continue
			}
			for _, on := range []struct {
				panel *panel
				at    point
			}{{both, point{p.Reported, p.Computed}}, {apart, point{p.Reported, p.deviation()}}} {
				if named[p.Reported] {
					on.panel.dots = append(on.panel.dots, dot{on.at, col})
					continue
				}
				on.panel.mark(on.at, col, letter)
			}
			named[p.Reported] = true
		}
	}
	const about = "Greatest heads in laboratory lines that were shut quickly, computed against reported"
	return Figure{
		Name:    "reported-peaks",
		Caption: about + ".",
		page:    page{title: "Verification", about: about, key: key, body: grid{rows: [][]*panel{{both, apart}}, inside: cm(6)}, notes: notes},
	}, nil
}

// beneath are spots to the right below the diagonal, upper ones first.
func beneath(x axis) []spot {
	var s []spot
	for f := 0.62; f > 0.3; f -= 0.04 {
		s = append(s, spot{point{x.value(f), x.value(f)}, 1, -1, 4})
	}
	return s
}

// deviation is in %.
func (p Peak) deviation() float64 { return 100 * (p.Computed/p.Reported - 1) }
