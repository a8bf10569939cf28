package choice

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
)

func three() []valve.Spec {
	return []valve.Spec{spec("swing", "swing"), spec("spring", "axial spring"), spec("nozzle", "nozzle")}
}

// again judges the same outcomes by other limits and prices.
func again(r *Comparison, l Limits, prices ...float64) *Comparison {
	c := *r.Case
	c.Limits = l
	out := &Comparison{Case: &c, Service: r.Service}
	for _, sc := range r.Scenarios {
		sc.Outcomes = append([]Outcome(nil), sc.Outcomes...)
		for i := range sc.Outcomes {
			if i < len(prices) {
				sc.Outcomes[i].PriceRatio = Value{SI: prices[i]}
			}
			sc.Outcomes[i].judge(l.list())
		}
		out.Scenarios = append(out.Scenarios, sc)
	}
	out.recommend(Settings{})
	return out
}

// Changing a limit or a price changes the recommendation, and the reasons say so.
func TestRecommendationFollowsItsGrounds(t *testing.T) {
	r := compare(t, quick(t, three()...))
	require.Equal(t, "spring", r.Recommended)
	require.Contains(t, r.text(), "spring is recommended: it has the least price of the 2 candidates that meet every limit (price ratio 1.5, common practice, ±40 %).")
	require.Contains(t, r.text(), "swing (price ratio 1) fails: ")
	require.Contains(t, r.text(), "nozzle meets every limit too, 2 of them narrowly, at price ratio 3.")
	require.NotContains(t, r.text(), "The streamlined valve nozzle loses less head than the swing valve") // 0.38 m against 0.22 m

	loose := again(r, Limits{ReverseVelocity: some(1)})
	require.Equal(t, "swing", loose.Recommended)
	require.Contains(t, loose.text(), "A plain swing disc is good enough here.")
	require.Contains(t, loose.text(), "spring meets every limit too, at price ratio 1.5.")

	v := r.Scenarios[0].Outcomes[0].MaxReverseVelocity.SI
	close := again(r, Limits{ReverseVelocity: some(1.1 * v)})
	require.Equal(t, "swing", close.Recommended)
	require.Contains(t, close.text(), "A plain swing disc is good enough here, though not by much.")
	asked := again(r, Limits{ReverseVelocity: some(1.1 * v), Margin: 0.2})
	require.Equal(t, "spring", asked.Recommended, "the cheapest with the margin asked for")
	require.False(t, asked.Meets("swing"))
	require.Regexp(t, `swing \(price ratio 1\) fails: the reverse velocity of .* is .* below the limit of .*, where .* m/s to spare are asked for`, asked.text())
	require.Contains(t, asked.text(), "A limit counts as met with a margin of 20 % of it or more.")
	dear := again(r, Limits{ReverseVelocity: some(1)}, 5, 2, 3)
	require.Equal(t, "spring", dear.Recommended)
	require.Contains(t, dear.text(), "A plain swing disc (swing) would be good enough too.")

	cheap := again(r, r.Case.Limits, 1, 4, 3)
	require.Equal(t, "nozzle", cheap.Recommended)
	require.Contains(t, cheap.text(), "Against swing, nozzle costs 3 times as much")
	require.Contains(t, cheap.text(), "ask the maker for tested data", "0.25 of 0.3 m/s")

	near := again(r, Limits{DesignPressure: some(r.Scenarios[0].Outcomes[1].PeakPressure.SI + 0.3*r.Scenarios[0].Outcomes[1].SlamPressureRise.SI)})
	require.Equal(t, "spring", near.Recommended)
	require.Contains(t, near.text(), "The highest pressure of spring would be beyond its limit if its slam pressure rise were 40 % greater")
	require.NotContains(t, again(r, Limits{DesignPressure: some(7e5)}).text(), "40 % greater")

	loss := again(r, Limits{ReverseVelocity: some(0.3), HeadLoss: some(0.5)})
	require.Equal(t, "nozzle", loss.Recommended)
	require.Contains(t, loss.text(), "spring (price ratio 1.5) fails: the head loss of 0.93")

	tie := again(r, Limits{ReverseVelocity: some(0.3)}, 1, 2, 2)
	require.Equal(t, "nozzle", tie.Recommended, "at the same price the lesser head loss")
	require.Contains(t, tie.text(), "spring meets every limit at the same price ratio 2, but loses ")

	strict := again(r, Limits{ReverseVelocity: some(0.01)})
	require.Empty(t, strict.Recommended)
	require.Contains(t, strict.text(), "none of the candidates that have a price meets every limit")
	for _, name := range []string{"swing", "spring", "nozzle"} {
		require.Contains(t, strict.text(), name+" (price ratio ")
	}

	free := again(r, Limits{})
	require.Empty(t, free.Recommended)
	require.Contains(t, free.text(), "no limits are given")
	require.Nil(t, free.Scenarios[0].Outcomes[0].LimitsMet)

	require.Empty(t, again(r, Limits{PumpReverseSpeed: some(1), ReverseVelocity: some(1)}, 0).Scenarios[0].Outcomes[0].Failed)
}

// A smaller valve of the same type fails on head loss, and the next one is recommended.
func TestSizeChangesTheRecommendation(t *testing.T) {
	c := quick(t, three()...)
	c.Limits.HeadLoss = some(1.5)
	require.Equal(t, "spring", compare(t, c).Recommended)
	c.Candidates[1].Size = 0.2
	r := compare(t, c)
	require.Equal(t, "nozzle", r.Recommended)
	require.Contains(t, r.text(), "spring (price ratio 1.5) fails: the head loss of ")
}

// A streamlined valve of low loss is praised for it.
func TestNozzleThatLosesLess(t *testing.T) {
	c := quick(t, spec("swing", "swing"), set(spec("nozzle", "nozzle"), map[string]float64{"loss when open": 0.4}))
	require.Contains(t, compare(t, c).text(), "The streamlined valve nozzle loses less head than the swing valve swing: ")
}

func TestSingleCandidateGetsAVerdict(t *testing.T) {
	r := compare(t, quick(t, spec("spring", "axial spring")))
	require.Empty(t, r.Recommended)
	require.Contains(t, r.text(), "spring is the only candidate: this is a verdict on it, no comparison.")
	require.Contains(t, r.text(), "spring meets every limit: ")
	r = compare(t, quick(t, spec("swing", "swing")))
	require.Contains(t, r.text(), "swing fails: ")
}

// A valve without a price bounds the choice but is not part of it.
func TestIdealValveIsNotForSale(t *testing.T) {
	r := compare(t, quick(t, spec("ideal", "ideal"), spec("spring", "axial spring")))
	require.Equal(t, "spring", r.Recommended)
	require.Contains(t, r.text(), "ideal meets every limit, but no price is known")
	require.Equal(t, "a valve without a disc", r.Scenarios[0].Outcomes[0].SeatImpactSpeed.Reason)
}

// A limit nearer than the numerical error makes the verdict unsure, and the reasons say so.
func TestUnsureVerdictIsSaid(t *testing.T) {
	r := compare(t, quick(t, three()...))
	o := r.Scenarios[0].Outcomes[1]
	limit := o.MaxReverseVelocity.SI + o.Errors[keyReverse]/2
	text := again(r, Limits{ReverseVelocity: &limit}).text()
	require.Contains(t, text, "The verdict on spring is within the numerical error: ")
	require.Contains(t, text, "spring is recommended: ")
	require.Contains(t, text, ", one of them within the numerical error and 2 of them narrowly (price ratio 1.5")
	limit = o.MaxReverseVelocity.SI - o.Errors[keyReverse]/2
	require.Regexp(t, `spring \(price ratio 1\.5\) fails: the reverse velocity .*, unsure\)`, again(r, Limits{ReverseVelocity: &limit}).text())
}

func TestWarningsAreUniqueAndNamed(t *testing.T) {
	c := &Comparison{Case: &Case{Candidates: []valve.Spec{{Name: "a"}, {Name: "b"}}, Warnings: []string{"data", "data"}},
		Scenarios: []ScenarioOutcomes{
			{Name: "base", Outcomes: []Outcome{{Candidate: "a", Warnings: []string{"both", "mine"}}, {Candidate: "b", Warnings: []string{"both"}}}},
			{Name: "other", Outcomes: []Outcome{{Candidate: "a", Warnings: []string{"mine"}}, {Candidate: "b"}}},
		}}
	c.warn()
	require.Equal(t, []string{"data", "scenario base: both", "a: mine"}, c.Warnings)

	c.Scenarios[1].Outcomes[1].Warnings = []string{"both", "b: named"}
	c.warn()
	require.Equal(t, []string{"data", "both", "a: mine", "scenario other: b: named"}, c.Warnings)
}

// Without a surge allowance one pressure bounds the steady and the highest pressure: they stay two verdicts, each with its reason.
func TestOnePressureForTwoLimits(t *testing.T) {
	r := compare(t, quick(t, three()...))
	pressure := 12e5
	text := again(r, Limits{DesignPressure: &pressure}).text()
	require.Contains(t, text, "the highest steady pressure of ")
	require.Contains(t, text, "the highest pressure of ")
	require.NotContains(t, text, "was not judged")
}

// A limit that every candidate breaks at the same place by the same amount is the line's own.
func TestLinesOwn(t *testing.T) {
	r := compare(t, quick(t, three()...))
	line := *r
	line.Scenarios = append([]ScenarioOutcomes(nil), r.Scenarios...)
	line.Scenarios[0].Outcomes = append([]Outcome(nil), r.Scenarios[0].Outcomes...)
	for i := range line.Scenarios[0].Outcomes {
		o := &line.Scenarios[0].Outcomes[i]
		o.MinPressure = Value{SI: -0.8e5 + 100*float64(i)}
		o.Spots = map[string]Spot{keyMin: {Place: "summit", Time: 5}}
	}
	own := again(&line, Limits{MinimumPressure: some(-0.2e5), ReverseVelocity: some(0.3)})
	require.Empty(t, own.Recommended)
	require.Contains(t, own.text(), "No check valve among these cures the lowest pressure at summit")
	require.Contains(t, own.text(), "needs an air valve at that place")
	require.Contains(t, own.text(), "Judged by the other limits alone, spring (price ratio 1.5) would be taken.")

	line.Scenarios[0].Outcomes[1].MinPressure.SI = -0.5e5
	require.NotContains(t, again(&line, Limits{MinimumPressure: some(-0.2e5)}).text(), "No check valve among these cures", "one valve does change it")
}
