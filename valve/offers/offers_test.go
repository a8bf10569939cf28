package offers

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/choice"
)

// water is a level pipe.
var water = catalogue.Setting{Density: 999, Gravity: 9.80665}

// sheetData are all that the sheet asks for of a spring disc.
func sheetData() map[string]float64 {
	return map[string]float64{"moving mass": 2.3, "travel": 0.03, "full-open velocity": 2, "cracking pressure": 3000, "kv": 1500.0 / 3600, "leakage class": 1, "pressure class": 16}
}

// compared is a comparison of spring discs without a run: each has a reverse velocity, held against 0.30 m/s.
func compared(t *testing.T, specs []valve.Spec, reverse []float64) *choice.Comparison {
	t.Helper()
	design := 8e5
	c := &choice.Comparison{Service: choice.LiquidPump, Case: &choice.Case{Candidates: specs, Limits: choice.Limits{DesignPressure: &design}}, Scenarios: []choice.ScenarioOutcomes{{Name: "base"}}}
	for i, s := range specs {
		v, err := catalogue.Complete(s, water)
		require.NoError(t, err)
		o := choice.Outcome{Candidate: s.Name, Valve: v, MaxReverseVelocity: choice.Value{SI: reverse[i]}, OpenMargin: choice.Value{Reason: "-"}, HeadLoss: choice.Value{SI: 0.9}}
		for _, x := range []struct {
			key, words   string
			value, bound float64
		}{{"max_reverse_velocity_m_s", "reverse velocity", reverse[i], 0.3}, {"head_loss_m", "head loss", 0.9, 1}} {
			met := x.value <= x.bound
			o.Verdicts = append(o.Verdicts, choice.Verdict{Measure: x.key, Limit: x.words, Scenario: "base", Value: x.value, Bound: x.bound, Margin: x.bound - x.value, Met: met, Narrow: met && 1.4*x.value > x.bound && x.key != "head_loss_m", Time: -1})
		}
		c.Scenarios[0].Outcomes = append(c.Scenarios[0].Outcomes, o)
	}
	return c
}

func spring(name string, set map[string]float64) valve.Spec {
	return valve.Spec{Name: name, Type: "axial spring", Size: 0.25, Set: set}
}

func without(keys ...string) map[string]float64 {
	set := sheetData()
	for _, k := range keys {
		delete(set, k)
	}
	return set
}

func of(t *testing.T, a *Assessment, limit string) Compliance {
	t.Helper()
	for _, l := range a.Limits {
		if l.Limit == limit && l.Measure.Key != "steady_pressure_pa" {
			return l
		}
	}
	t.Fatalf("no limit %s", limit)
	return Compliance{}
}

// TestAnswers goes through the four answers, with data given and without.
func TestAnswers(t *testing.T) {
	for _, x := range []struct {
		name    string
		set     map[string]float64
		reverse float64
		want    Word
	}{
		{"all given, far below", sheetData(), 0.10, Meets},
		{"all given, 40 % more would break it", sheetData(), 0.25, Narrowly},
		{"all given, broken", sheetData(), 0.35, Fails},
		{"mass generic, far below", without("moving mass"), 0.10, Meets},
		{"mass generic, near below", without("moving mass"), 0.25, Open},
		{"mass generic, near above", without("moving mass"), 0.35, Open},
		{"mass generic, far above", without("moving mass"), 0.60, Fails},
		{"spring generic, near above", without("cracking pressure"), 0.35, Open},
		{"travel generic, known to 30 %, near above", without("travel"), 0.41, Open},
		{"travel generic, known to 30 %, above", without("travel"), 0.44, Fails},
		{"leakage class missing is no matter of the motion", without("leakage class"), 0.25, Narrowly},
	} {
		c := compared(t, []valve.Spec{spring("a", x.set)}, []float64{x.reverse})
		e := Assess(c, []Reply{{Name: "a", Maker: "M"}}, "", quantity.SI)
		got := of(t, &e.Offers[0], "reverse velocity")
		require.Equal(t, x.want, got.Word, "%s: %s", x.name, got.Because)
	}
	c := compared(t, []valve.Spec{spring("a", without("kv"))}, []float64{0.1})
	e := Assess(c, []Reply{{Name: "a", Maker: "M"}}, "", quantity.SI)
	require.Equal(t, Open, of(t, &e.Offers[0], "head loss").Word, "the loss is known to 50 % only")
	require.Equal(t, Meets, of(t, &e.Offers[0], "reverse velocity").Word)
}

// TestEvidence: the maker's test is read at the installation's own deceleration, and told where that was not tested.
func TestEvidence(t *testing.T) {
	limit := 0.3
	for _, x := range []struct {
		own   float64
		tests []valve.TestPoint
		value float64
		want  Word
		says  string
	}{
		{6, []valve.TestPoint{{Deceleration: 8, ReverseVelocity: 0.2}, {Deceleration: 4, ReverseVelocity: 0.1}}, 0.15, Meets, "at 6.00 m/s2, the installation's own deceleration"},
		{12, []valve.TestPoint{{Deceleration: 4, ReverseVelocity: 0.1}, {Deceleration: 8, ReverseVelocity: 0.25}}, 0.40, Fails, "beyond the greatest tested, 8.0 m/s2: extrapolated"},
		{2, []valve.TestPoint{{Deceleration: 4, ReverseVelocity: 0.1}, {Deceleration: 8, ReverseVelocity: 0.25}}, 0.05, Meets, "below the least tested"},
		{6, []valve.TestPoint{{Deceleration: 4, ReverseVelocity: 0.1}}, 0, Open, "make no curve"},
		{6, []valve.TestPoint{{Deceleration: 4, ReverseVelocity: 0.3}, {Deceleration: 8, ReverseVelocity: 0.2}}, 0, Open, "make no curve"},
	} {
		s := spring("a", sheetData())
		s.Tests = x.tests
		c := compared(t, []valve.Spec{s}, []float64{0.1})
		c.Case.Limits.ReverseVelocity, c.Scenarios[0].Own = &limit, choice.Value{SI: x.own}
		a := Assess(c, []Reply{{Name: "a", Maker: "M"}}, "", quantity.SI).Offers[0]
		i := slices.IndexFunc(a.Limits, func(l Compliance) bool { return l.Measure.Key == testedKey })
		require.GreaterOrEqual(t, i, 0)
		require.Equal(t, x.want, a.Limits[i].Word)
		require.Contains(t, a.Limits[i].Because, x.says)
		if x.want != Open {
			require.InDelta(t, x.value, a.Limits[i].Verdict.Value, 1e-9)
		}
	}
}

func TestPressureClass(t *testing.T) {
	for _, x := range []struct {
		set  map[string]float64
		want Word
	}{{sheetData(), Meets}, {without("pressure class"), Open}, {map[string]float64{"pressure class": 6}, Fails}} {
		e := Assess(compared(t, []valve.Spec{spring("a", x.set)}, []float64{0.1}), []Reply{{Name: "a", Maker: "M"}}, "", quantity.SI)
		require.Equal(t, x.want, of(t, &e.Offers[0], "design pressure").Word)
	}
}

// TestGapsAndQuestions: a gap for every datum that is left out, a question for every gap, none for what is given.
func TestGapsAndQuestions(t *testing.T) {
	price := 4000.0
	full := Assess(compared(t, []valve.Spec{{Name: "a", Type: "axial spring", Size: 0.25, Set: sheetData(), Tests: []valve.TestPoint{{Deceleration: 5, ReverseVelocity: 0.1}}}}, []float64{0.1}),
		[]Reply{{Name: "a", Maker: "M", Price: &price, Delivery: "9 weeks"}}, "EUR", quantity.SI)
	require.Empty(t, full.Offers[0].Gaps)
	require.Empty(t, full.Offers[0].Questions)
	for key := range sheetData() {
		e := Assess(compared(t, []valve.Spec{spring("a", without(key))}, []float64{0.1}), []Reply{{Name: "a", Maker: "M"}}, "EUR", quantity.US)
		a := e.Offers[0]
		var gaps []string
		for _, g := range a.Gaps {
			gaps = append(gaps, g.Key)
			require.Contains(t, a.Questions, g.Question(quantity.US))
		}
		require.ElementsMatch(t, []string{key, catalogue.TestPoints, "price amount", "delivery"}, gaps)
		for _, q := range a.Questions {
			require.NotContains(t, q, "@")
			require.NotContains(t, q, "%!")
			require.False(t, strings.Contains(q, " kg") || strings.Contains(q, "bar") || strings.Contains(q, "m/s"), "%s", q)
		}
	}
	swing := Assess(compared(t, []valve.Spec{{Name: "s", Type: "swing", Size: 0.25, Set: map[string]float64{}}}, []float64{0.1}), []Reply{{Name: "s", Maker: "M"}}, "", quantity.SI)
	for _, g := range swing.Offers[0].Gaps {
		require.NotEqual(t, "cracking pressure", g.Key, "a swing disc has no spring to ask for")
	}
}

func TestAdvice(t *testing.T) {
	cheap, middle, dear := 3000.0, 5000.0, 9000.0
	specs := []valve.Spec{spring("open", without("moving mass")), spring("good", sheetData()), spring("best", sheetData()), spring("bad", sheetData())}
	replies := []Reply{{Name: "open", Maker: "O", Price: &cheap}, {Name: "good", Maker: "G", Price: &middle}, {Name: "best", Maker: "B", Price: &dear}, {Name: "bad", Maker: "X", Price: &cheap}}
	e := Assess(compared(t, specs, []float64{0.25, 0.1, 0.05, 0.9}), replies, "EUR", quantity.SI)
	text := strings.Join(e.Advice, " ")
	require.Contains(t, text, "Take good (G): of the offers that meet every limit it has the least price, 5000 EUR.")
	require.Contains(t, text, "Cannot be judged before the questions are answered: open. open would cost less, 3000 EUR.")
	require.Contains(t, text, "Breaks a limit: bad.")
	require.Contains(t, text, "best meets every limit too, at 9000 EUR.")
	require.NotContains(t, text, "rests on generic data")
	e = Assess(compared(t, specs[:1], []float64{0.05}), replies[:1], "EUR", quantity.SI)
	require.Contains(t, e.Advice[0], "have the maker confirm, before the order, moving mass.")
	e = Assess(compared(t, specs[:1], []float64{0.25}), replies[:1], "EUR", quantity.SI)
	require.Contains(t, e.Advice[0], "No offer can be taken as it stands.")
}

// TestWorstScenarioCounts: the answer is that of the scenario in which it is worst.
func TestWorstScenarioCounts(t *testing.T) {
	c := compared(t, []valve.Spec{spring("a", sheetData())}, []float64{0.1})
	worse := compared(t, []valve.Spec{spring("a", sheetData())}, []float64{0.5}).Scenarios[0]
	worse.Name, worse.Outcomes[0].Verdicts[0].Scenario = "two-trip", "two-trip"
	c.Scenarios = append(c.Scenarios, worse)
	e := Assess(c, []Reply{{Name: "a", Maker: "M"}}, "", quantity.SI)
	got := of(t, &e.Offers[0], "reverse velocity")
	require.Equal(t, Fails, got.Word)
	require.Equal(t, "two-trip", got.Verdict.Scenario)
}

// TestMarginAskedFor: where a limit is met without the margin that is asked for, letter and answer say so, and the maker's test is held against that
// margin too, also where the slam class alone limits the reverse velocity.
func TestMarginAskedFor(t *testing.T) {
	c := compared(t, []valve.Spec{spring("a", sheetData())}, []float64{0.2})
	v := &c.Scenarios[0].Outcomes[0].Verdicts[0]
	v.Asked, v.Met, v.Narrow = 0.15, false, false
	a := Assess(c, []Reply{{Name: "a", Maker: "M"}}, "", quantity.SI).Offers[0]
	require.Contains(t, strings.Join(a.Questions, "\n"), "with a limit of 0.300 m/s and 0.150 m/s to spare asked for")
	require.Equal(t, "the limit itself is met, but not with the margin asked for", of(t, &a, "reverse velocity").Because)

	s := spring("a", sheetData())
	s.Tests = []valve.TestPoint{{Deceleration: 4, ReverseVelocity: 0.1}, {Deceleration: 8, ReverseVelocity: 0.2}}
	c = compared(t, []valve.Spec{s}, []float64{0.1})
	limit := 0.3
	c.Case.Limits.ReverseVelocity, c.Case.Limits.Margin, c.Scenarios[0].Own = &limit, 0.6, choice.Value{SI: 6}
	a = Assess(c, []Reply{{Name: "a", Maker: "M"}}, "", quantity.SI).Offers[0]
	i := slices.IndexFunc(a.Limits, func(l Compliance) bool { return l.Measure.Key == testedKey })
	require.Equal(t, Fails, a.Limits[i].Word, "0.15 m/s of 0.30 m/s leaves less than 60 %")
	require.InDelta(t, 0.3, a.Limits[i].Verdict.Bound, 1e-12)
	require.InDelta(t, 0.18, a.Limits[i].Verdict.Asked, 1e-12)
	c.Case.Limits.ReverseVelocity, c.Case.Limits.SlamClass = nil, "mild"
	a = Assess(c, []Reply{{Name: "a", Maker: "M"}}, "", quantity.SI).Offers[0]
	require.True(t, slices.ContainsFunc(a.Limits, func(l Compliance) bool { return l.Measure.Key == testedKey }), "the slam class limits the reverse velocity too")
}

// TestOneRowForALimitWithAllowances: under a rule by durations the allowance differs between the scenarios and offers; the limit is one all the same, and its worst
// answer counts.
func TestOneRowForALimitWithAllowances(t *testing.T) {
	c := compared(t, []valve.Spec{spring("a", sheetData()), spring("b", sheetData())}, []float64{0.1, 0.1})
	for i, words := range []string{"design pressure with 10 % surge allowance", "design pressure with no surge allowance, as it is exceeded for too long,"} {
		o := &c.Scenarios[0].Outcomes[i]
		bound := []float64{8.8e5, 8e5}[i]
		o.Verdicts = append(o.Verdicts, choice.Verdict{Measure: "peak_pressure_pa", Limit: words, Scenario: "base", Value: 8.5e5, Bound: bound, Margin: bound - 8.5e5, Met: 8.5e5 <= bound, Time: -1})
	}
	e := Assess(c, []Reply{{Name: "a", Maker: "M"}, {Name: "b", Maker: "M"}}, "", quantity.SI)
	for i, want := range []Word{Meets, Fails} {
		var words []Word
		for _, l := range e.Offers[i].Limits {
			if l.Measure.Key == "peak_pressure_pa" {
				require.Equal(t, "design pressure", l.Limit)
				words = append(words, l.Word)
			}
		}
		require.Equal(t, []Word{want}, words)
	}
}
