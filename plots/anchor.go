package plots

import (
	"cmp"
	"math"
	"slices"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// anchor is the measure of the figure; with it the figure has the rounding of the table.
var anchor = choice.Measure{Key: "max_anchor_force_n", Dimension: quantity.Force, Get: func(o *choice.Outcome) choice.Value { return o.AnchorForce }}

// anchorForce is the force on the hardest loaded straight run of each candidate: the closing, and all that follows where that is much longer.
func (b *book) anchorForce(scenario int) (Figure, bool) {
	all := b.Scenarios[scenario].Outcomes
	var outs []*choice.Outcome
	var notes []string
	for i := range all {
		o := &all[i]
		switch {
		case hardest(o) != nil:
			outs = append(outs, o)
			if !exists(o.AnchorForce) {
				notes = append(notes, because(o, "greatest anchor force", o.AnchorForce))
			}
		case o.Failed != "":
			notes = append(notes, absent(o, "forces"))
		}
	}
	if len(outs) == 0 {
		return Figure{}, false
	}
	about, key := "Axial force of the liquid on the hardest loaded straight run of pipe", b.entries(outs)
	where := func(o *choice.Outcome) string { return clean(hardest(o).Name(b.units)) }
	if slices.ContainsFunc(outs, func(o *choice.Outcome) bool { return where(o) != where(outs[0]) }) {
		for i, o := range outs {
			key[i].text += ": " + where(o)
		}
	} else {
		about += ", " + where(outs[0])
	}
	about += ", change from steady flow; positive towards the end of the pipe"
	var rows [][]*panel
	for _, band := range bands(outs, perPanel) {
		rows = append(rows, b.forceRow(scenario, band, outs))
	}
	return Figure{
		Name:    b.name(AnchorForce, scenario),
		Caption: about + ", with the greatest value of each candidate.",
		page:    page{title: b.title(scenario), about: about, key: key, body: banded(rows), notes: b.notes(notes...)},
	}, true
}

// hardest is the run of an outcome that the figure shows; nil where there is none.
func hardest(o *choice.Outcome) *choice.StraightRun {
	if run, _ := o.Hardest(); run != nil && len(o.Time) > 0 {
		return run
	}
	return nil
}

// peakForce is the index of the force of greatest size on a run; false when its series is empty.
func peakForce(o *choice.Outcome, run *choice.StraightRun) (int, bool) {
	every := span{math.Inf(-1), math.Inf(1)}
	up, ok := extreme(o.Time, run.Force, every, 1)
	down, _ := extreme(o.Time, run.Force, every, -1)
	if ok && -run.Force[down] > run.Force[up] {
		return down, true
	}
	return up, ok
}

// forceViews are the spans of time of the pressure's figure, the last of them long enough for every peak.
func (b *book) forceViews(scenario int, outs []*choice.Outcome) []view {
	views := b.views(scenario, outs)
	s := &views[len(views)-1].span
	for _, o := range outs {
		if i, ok := peakForce(o, hardest(o)); ok && o.Time[i] > s.to {
			s.to = o.Time[i] + 0.08*(o.Time[i]-s.from)
		}
	}
	*s = clip(outs, *s)
	return views
}

// forceRow draws a band of candidates in every view, on the scales that all candidates share. A peak is marked in the first view that holds it.
func (b *book) forceRow(scenario int, band, all []*choice.Outcome) []*panel {
	u, symbol := b.unit(quantity.Force)
	bound, limited := b.forceLimit()
	lo, hi := 0.0, 0.0
	for _, o := range all {
		for _, f := range hardest(o).Force {
			lo, hi = math.Min(lo, u.From(f)), math.Max(hi, u.From(f))
		}
	}
	lo, hi = math.Min(lo, -bound.value), math.Max(hi, bound.value)
	y := linear("Axial force ("+symbol+")", lo-0.05*(hi-lo), hi+0.05*(hi-lo), 6)
	ticks := 9
	if len(all) > perPanel {
		ticks = 5
	}
	sc := b.Scenarios[scenario].Scale(anchor, b.units)
	size := func(o *choice.Outcome) float64 {
		_, p := o.Hardest()
		return p.Force
	}
	marked := map[string]bool{}
	var row []*panel
	for _, v := range b.forceViews(scenario, all) {
		p := &panel{head: v.head, x: window(timeLabel, v.span.from, v.span.to, ticks), y: y}
		p.y.bare = len(row) > 0
		b.events(p, scenario)
		if limited {
			p.limits([]limit{bound})
			p.horizontal(-bound.value, limitLine())
		}
		for _, o := range band {
			p.trace(o.Time, hardest(o).Force, u, v.span, b.lineOf(o))
		}
		for _, o := range slices.SortedStableFunc(slices.Values(band), func(a, b *choice.Outcome) int { return cmp.Compare(size(b), size(a)) }) {
			run := hardest(o)
			if i, ok := peakForce(o, run); ok && !marked[o.Candidate] && exists(o.AnchorForce) && o.AnchorForce.SI > 0 {
				marked[o.Candidate] = p.mark(point{o.Time[i], u.From(run.Force[i])}, b.lineOf(o).Color, fixed(u.From(o.AnchorForce.SI), sc.Places)+" "+symbol)
			}
		}
		row = append(row, p)
	}
	return row
}

// forceLimit is the greatest force allowed, either way.
func (b *book) forceLimit() (limit, bool) {
	f := b.limits().AnchorForce
	if f == nil || !finite(*f) || *f <= 0 {
		return limit{}, false
	}
	u, symbol := b.unit(quantity.Force)
	words := "anchor force limit ±" + short(u.From(*f), 3) + " " + symbol
	return limit{u.From(*f), words, words, 1}, true
}
