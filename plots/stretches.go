package plots

import (
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// part is a part of the route with a scale of its own.
type part struct {
	from, to    float64 // in the unit of the figure
	head, label string
	ticks       int
	share       float64 // of the width
	words       bool    // the lines are named here
}

// A first stretch this short, over the whole route, would be a line at the axis: it gets a panel of its own of shortShare of the width.
const (
	shortStretch = 0.08
	shortShare   = 0.24
)

// wholeRoute is the route of an outcome in one piece.
func (b *book) wholeRoute(o *choice.Outcome) part {
	_, symbol := b.unit(quantity.Length)
	x := b.route(o).x
	return part{from: x[0], to: x[len(x)-1], label: "Distance along the route (" + symbol + ")", ticks: 8, share: 1, words: true}
}

// stretches cuts the route into the parts that are drawn side by side: the branch, or a first pipe, where it is too short to be read on the scale of the
// whole, and the rest.
func (b *book) stretches(outs []*choice.Outcome) []part {
	_, symbol := b.unit(quantity.Length)
	whole := b.wholeRoute(outs[0])
	from, to := whole.from, whole.to
	route := outs[0].Route
	first := route[0].Chainage
	if len(route) < 2 || len(first) < 2 {
		return []part{whole}
	}
	cut := b.units.Unit(quantity.Length).From(first[len(first)-1])
	if !(cut > from) || cut-from > shortStretch*(to-from) {
		return []part{whole}
	}
	for _, o := range outs { // of all routes
		other := b.route(o).x
		if c := o.Route[0].Chainage; len(o.Route) < 2 || len(c) < 2 || c[len(c)-1] != first[len(first)-1] || other[0] != from || other[len(other)-1] != to {
			return []part{whole}
		}
	}
	head := "First pipe, " + clean(route[0].Pipe)
	if strings.Contains(route[0].Pipe, "branch") {
		head = "Branch"
	}
	return []part{
		{from: from, to: cut, head: head, label: "Distance (" + symbol + ")", ticks: 3, share: shortShare},
		{from: cut, to: to, head: "Route behind the branch", label: whole.label, ticks: 6, share: 1 - shortShare, words: true},
	}
}
