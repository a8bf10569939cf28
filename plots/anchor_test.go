package plots

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// anchored is [synthetic] with two straight runs in closed form: the force is the difference of the pressure at the valve between now and the time that a wave
// takes for the run earlier.
func anchored(candidates, scenarios int) *choice.Comparison {
	c := synthetic(candidates, scenarios)
	most := 20e3
	c.Case.Limits.AnchorForce = &most
	const area, step = 0.38, 0.0005
	for k := range c.Scenarios {
		for i := range c.Scenarios[k].Outcomes {
			o := &c.Scenarios[k].Outcomes[i]
			p := series(o, pressureKey)
			run := func(from, to float64, share float64) choice.StraightRun {
				r := choice.StraightRun{Pipe: "rising-main", From: from, To: to, Behind: "header", Ahead: "tower", Area: area, Force: make([]float64, len(p))}
				late := int((to - from) / 1100 / step)
				for j := late; j < len(p); j++ {
					f := share * area * (p[j-late] - p[j])
					r.Force[j] = f
					if f > r.Forward.Force {
						r.Forward = choice.Push{Force: f, Time: o.Time[j], Impulse: f * 0.03}
					}
					if -f > r.Reverse.Force {
						r.Reverse = choice.Push{Force: -f, Time: o.Time[j], Impulse: -f * 0.03}
					}
				}
				return r
			}
			o.Runs = []choice.StraightRun{run(0, 30, 1), run(30, 45, 0.9)}
			if i%4 == 3 {
				o.Runs[0].Pipe = "branch of lift, unit 2"
			}
			_, push := o.Hardest()
			o.AnchorForce = choice.Value{SI: push.Force}
		}
	}
	return c
}

func TestAnchorForce(t *testing.T) {
	c := anchored(2, 2)
	figs, err := Figures(c, quantity.SI)
	require.NoError(t, err)
	require.Len(t, figs, 9)
	require.Equal(t, "anchor-force", figs[4].Name)
	require.Equal(t, "anchor-force-two-trip", figs[8].Name)
	text := svgText(t, figs[4])
	require.Contains(t, text, "rising-main, 0 m to 30 m")
	require.Contains(t, text, ">anchor force limit ±20 kN<")
	require.Contains(t, text, ">Axial force (kN)<")
	for _, o := range c.Scenarios[0].Outcomes {
		sc := c.Scenarios[0].Scale(anchor, quantity.SI)
		require.Contains(t, text, ">"+sc.With(o.AnchorForce.SI)+"<", o.Candidate)
	}

	figs, err = Figures(c, quantity.US)
	require.NoError(t, err)
	text = svgText(t, figs[4])
	require.Contains(t, text, ">Axial force (lbf)<")
	require.Contains(t, text, "rising-main, 0 ft to 98.4 ft")
}

// The mark of the greatest force stands on the curve, at the end of the sign that it has.
func TestAnchorForceMark(t *testing.T) {
	c := anchored(1, 1)
	o := &c.Scenarios[0].Outcomes[0]
	run := hardest(o)
	i, ok := peakForce(o, run)
	require.True(t, ok)
	require.InEpsilon(t, o.AnchorForce.SI, math.Abs(run.Force[i]), 1e-12)
	for j := range run.Force {
		run.Force[j] = -run.Force[j]
	}
	k, _ := peakForce(o, run)
	require.Equal(t, i, k)
}

// Candidates with different runs have them in the key; one that failed is named; where no bends are given there is no figure and no word of it.
func TestAnchorForceKey(t *testing.T) {
	c := anchored(6, 1)
	outs := c.Scenarios[0].Outcomes
	outs[5] = choice.Outcome{Candidate: outs[5].Candidate, Failed: "the run failed", PeakPressure: choice.Value{Reason: "no result"}, AnchorForce: choice.Value{Reason: "no result"}}
	outs[4].AnchorForce = choice.Value{Reason: "the run ends at 2 s before the disc seats"}
	figs, err := Figures(c, quantity.SI)
	require.NoError(t, err)
	f := figs[4]
	require.Len(t, f.page.key, 5)
	require.Equal(t, "plain-swing: rising-main, 0 m to 30 m", f.page.key[0].text)
	require.Equal(t, "dual-plate: branch of lift, unit 2, 0 m to 30 m", f.page.key[3].text)
	notes := strings.Join(f.page.notes, " ")
	require.Contains(t, notes, "Not shown: tilting-disc, greatest anchor force (the run ends at 2 s before the disc seats).")
	require.Contains(t, notes, "Not shown: swing-counterweighted (the run failed).")

	for i := range outs {
		outs[i].Runs = nil
	}
	figs, err = Figures(c, quantity.SI)
	require.NoError(t, err)
	require.Len(t, figs, 4)
}

func TestBadForces(t *testing.T) {
	c := anchored(1, 1)
	c.Scenarios[0].Outcomes[0].Runs[1].Force[7] = math.NaN()
	_, err := Figures(c, quantity.SI)
	require.ErrorIs(t, err, ErrSeries)
	require.ErrorContains(t, err, "force on rising-main, 30 m to 45 m is not finite at 7")
	c = anchored(1, 1)
	c.Scenarios[0].Outcomes[0].Runs[1].To = math.Inf(1)
	_, err = Figures(c, quantity.SI)
	require.ErrorIs(t, err, ErrSeries)
}

// Every number of candidates fits on a page.
func TestAnchorForceHeights(t *testing.T) {
	for _, n := range []int{1, 2, 6, 9} {
		figs, err := Figures(anchored(n, 1), quantity.SI)
		require.NoError(t, err)
		_, h := figs[4].Size()
		require.Less(t, h, 0.27, n)
	}
}
