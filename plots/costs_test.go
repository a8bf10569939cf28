package plots

import (
	"bytes"
	"encoding/xml"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
	"seatwise/valve/cost"
)

// priced is a synthetic comparison with economics: prices from ratios but for one offer.
func priced(candidates int) *choice.Comparison {
	c := synthetic(candidates, 1)
	e := &choice.Economics{Terms: cost.Terms{Currency: "EUR", Years: 20, Rate: 0.06, EnergyPrice: 0.12, Efficiency: 0.75, Trips: 6,
		Damage: []cost.Slam{{Velocity: 0.15, Amount: 40}, {Velocity: 0.3, Amount: 400}}}}
	c.Case.Economics = e
	parts := []struct{ ratio, energy, upkeep float64 }{{1, 232, 0.025}, {1.5, 1017, 0.025}, {3, 400, 0.015}, {0.65, 480, 0.03}, {2, 160, 0.03}, {1.3, 250, 0.025}, {1.3, 460, 0.025}, {1.2, 1300, 0.025}, {1, 230, 0.025}}
	for i, o := range c.Scenarios[0].Outcomes {
		p := parts[i]
		k := choice.Costing{Candidate: o.Candidate, Ratio: choice.Value{SI: p.ratio}, Reverse: o.MaxReverseVelocity.SI,
			Cost: cost.Cost{Purchase: 4000 * p.ratio, Energy: p.energy, Upkeep: 4000 * p.ratio * p.upkeep, Slam: e.Trips * e.OneSlam(o.MaxReverseVelocity.SI)}}
		if i > 0 && i != 2 {
			k.Spread = 0.4
		}
		k.Present = k.Purchase + e.Annuity()*(k.Energy+k.Upkeep+k.Slam)
		k.Low, k.High = e.Range(k.Cost, k.Spread)
		c.Costs = append(c.Costs, k)
	}
	return c
}

// makeUp is the cost figure of a comparison.
func makeUp(t require.TestingT, c *choice.Comparison) Figure {
	f, ok := newBook(c, quantity.SI).costMakeUp()
	require.True(t, ok)
	return f
}

// The figure has the parts that cost anything, each candidate's sum, and whom it leaves out.
func TestCostMakeUp(t *testing.T) {
	c := priced(9)
	c.Costs[4] = choice.Costing{Candidate: "tilting-disc", Reason: "its price in money is not known"}
	f := makeUp(t, c)
	text := svgText(t, f)
	for _, want := range []string{"purchase", "energy", "upkeep", "slam", "band", "Present value (EUR)", "Not shown: tilting-disc, its price in money is not known.", "over 20 years at 6 %", choice.Amount(c.Costs[0].Present)} {
		require.Contains(t, strings.Join(strings.Fields(text), " "), strings.Join(strings.Fields(want), " "))
	}
	body := f.page.body.(stacks)
	require.Len(t, body.all, 8)
	for _, s := range body.all {
		sum := 0.0
		for _, p := range s.parts {
			sum += p
		}
		require.Equal(t, strings.ReplaceAll(s.figure, "\u00a0", ""), fixed(sum, 0))
		require.LessOrEqual(t, body.x.at(s.high), 1.0, "the band is within the axis")
	}
	_, h := f.Size()
	require.Less(t, h, 0.15)

	c.Case.Economics.Damage = nil
	for i := range c.Costs {
		c.Costs[i].Slam = 0
	}
	require.NotContains(t, svgText(t, makeUp(t, c)), "slam")
	c.Case.Economics = nil
	_, ok := newBook(c, quantity.SI).costMakeUp()
	require.False(t, ok)
}

// Printed in grey, neighbours in the stack differ: by their mean grey, or by lines that others do not have.
func TestCostPartsInGrey(t *testing.T) {
	grey := func(p pattern) float64 {
		return 0.299*float64(p.ground.R) + 0.587*float64(p.ground.G) + 0.114*float64(p.ground.B)
	}
	parts := costParts(1)
	for i := 1; i < len(parts); i++ {
		a, b := parts[i-1].fill, parts[i].fill
		require.True(t, math.Abs(grey(a)-grey(b)) > 60 || len(a.slopes) != len(b.slopes), "%s and %s", parts[i-1].name, parts[i].name)
	}
}

func TestAnyCosts(t *testing.T) {
	amount := rapid.OneOf(rapid.Float64Range(0, 1e15), rapid.SampledFrom([]float64{0, 1, 999.5, 1e29, math.Inf(1), math.NaN()}))
	rapid.Check(t, func(t *rapid.T) {
		c := synthetic(1, 1)
		e := &choice.Economics{Terms: cost.Terms{Currency: rapid.StringN(0, 5, -1).Draw(t, "currency"), Years: 20}}
		c.Case.Economics = e
		for range rapid.IntRange(1, 12).Draw(t, "candidates") {
			k := choice.Costing{Candidate: rapid.StringN(0, 30, -1).Draw(t, "name"), Cost: cost.Cost{Purchase: amount.Draw(t, "purchase"), Energy: amount.Draw(t, "energy"), Slam: amount.Draw(t, "slam")}}
			k.Present = k.Purchase + 20*(k.Energy+k.Slam)
			k.Low, k.High = e.Range(k.Cost, rapid.Float64Range(0, 1).Draw(t, "spread"))
			c.Costs = append(c.Costs, k)
		}
		f, ok := newBook(c, quantity.SI).costMakeUp()
		if !ok {
			return
		}
		var b bytes.Buffer
		require.NoError(t, f.SVG(&b))
		require.NoError(t, xml.Unmarshal(b.Bytes(), new(struct{})))
		require.NotContains(t, b.String(), "NaN")
		require.NotContains(t, b.String(), "Inf")
	})
}
