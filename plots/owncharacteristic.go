package plots

import (
	"math"
	"runtime"

	"golang.org/x/sync/errgroup"

	"seatwise/valve"
	"seatwise/valve/characteristic"
	"seatwise/valve/choice"
)

// octaves are the decelerations of a curve over the installation's own: few, because a curve between them is near to a power.
var octaves = []float64{1. / 8, 1. / 4, 1. / 2, math.Sqrt2 / 2, 1, math.Sqrt2, 2, 2 * math.Sqrt2, 4, 4 * math.Sqrt2, 8}

// ownCharacteristic draws the characteristics of a comparison's sound candidates about the installation's own deceleration, in the scenario where that is
// greatest.
func (b *book) ownCharacteristic() (Figure, bool) {
	hardest := -1
	for i, s := range b.Scenarios {
		if exists(s.Own) && s.Own.SI > 0 && (hardest < 0 || s.Own.SI > b.Scenarios[hardest].Own.SI) {
			hardest = i
		}
	}
	if hardest < 0 {
		return Figure{}, false
	}
	s := &b.Scenarios[hardest]
	curves := b.curves(s.Outcomes, s.Own.SI)
	if len(curves) == 0 {
		return Figure{}, false
	}
	f, err := b.characteristicOf(curves, Own{s.Own, choice.OwnMeans}, b.title(hardest))
	return f, err == nil // no valve that seats in reverse flow: there is nothing to draw
}

// curves runs the bench for the valves of the outcomes, side by side.
func (b *book) curves(outs []choice.Outcome, own float64) []Curve {
	var at []float64
	for _, f := range octaves {
		at = append(at, f*own)
	}
	var curves []Curve
	for i := range outs {
		if v := outs[i].Valve; v.Motion != nil && b.sound(outs[i].Candidate) {
			curves = append(curves, Curve{Valve: outs[i].Candidate, Data: v.Data, Of: v})
		}
	}
	failed := make([]bool, len(curves))
	var work errgroup.Group
	work.SetLimit(runtime.GOMAXPROCS(0))
	for i := range curves {
		work.Go(func() error {
			points, err := characteristic.Curve(curves[i].Of, at, characteristic.Settings{})
			curves[i].Points, failed[i] = points, err != nil
			return nil
		})
	}
	_ = work.Wait() // what failed is left out
	kept := curves[:0]
	for i, c := range curves {
		if !failed[i] {
			kept = append(kept, c)
		}
	}
	return kept
}

// sound tells whether a candidate has no failed part.
func (b *book) sound(candidate string) bool {
	if b.Case == nil {
		return true
	}
	for _, spec := range b.Case.Candidates {
		if spec.Name == candidate {
			return spec.Failure == valve.Sound
		}
	}
	return true
}
