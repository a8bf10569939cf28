package choice

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve"
)

// Joint is several comparisons side by side: candidates are joined by name, and of each its worst is told, in whichever case and scenario. One
// comparison alone makes a joint too, of its scenarios.
type Joint struct {
	Comparisons []*Comparison
	Candidates  []JointCandidate // in the order in which they first appear
	Recommended string           // the cheapest of those that meet the limits of every case; "": none
	Reasons     []string
}

// JointCandidate is one name in all cases.
type JointCandidate struct {
	Name        string
	Missing     []string // cases that have no candidate of that name
	Differences []string // in which its data differ between the cases, in words
	Worst       []Worst  // of every measure that has a better and a worse, in their order
	Verdicts    []WorstVerdict
	Meets       []string // cases whose limits it meets
	Met         bool     // it is a candidate of every case and meets the limits of every one
	Weight      Value    // price ratio, or the sum of the present values
	HeadLoss    Value    // the greatest
}

// Worst is the worst value of a measure, and where it was met.
type Worst struct {
	Measure, Case, Scenario string
	Value                   float64
}

// WorstVerdict is the verdict on a measure that is the furthest on the wrong side of its limit, or the nearest to it, by the ratio of what is to spare to the limit.
type WorstVerdict struct {
	Case string
	Verdict
}

// Join puts comparisons side by side. Of a candidate that an interrupted one has not finished nothing is told of that case.
func Join(all ...*Comparison) *Joint {
	j := &Joint{Comparisons: all}
	for _, c := range all {
		for _, spec := range c.Case.Candidates {
			if !slices.ContainsFunc(j.Candidates, func(k JointCandidate) bool { return k.Name == spec.Name }) {
				j.Candidates = append(j.Candidates, j.candidate(spec.Name))
			}
		}
	}
	j.recommend()
	return j
}

// candidate gathers what all cases say of one name.
func (j *Joint) candidate(name string) JointCandidate {
	k := JointCandidate{Name: name, Met: true, Weight: none("no result"), HeadLoss: none("no result")}
	var first *valve.Spec
	var from string
	sum, priced := 0.0, true
	for _, c := range j.Comparisons {
		i := slices.IndexFunc(c.Case.Candidates, func(v valve.Spec) bool { return v.Name == name })
		if i < 0 {
			k.Missing, k.Met = append(k.Missing, c.Case.Name), false
			continue
		}
		spec := &c.Case.Candidates[i]
		if first == nil {
			first, from = spec, c.Case.Name
		} else if d := differences(first, spec, from, c.Case.Name); d != "" {
			k.Differences = append(k.Differences, d)
		}
		if !c.short(name) { // the worst of a part says nothing of the whole
			k.take(c, i)
		}
		if c.Meets(name) {
			k.Meets = append(k.Meets, c.Case.Name)
		} else {
			k.Met = false
		}
		for _, x := range c.standings() {
			if x.name != name {
				continue
			}
			switch w := j.weight(c, x); {
			case !exists(w):
				priced = false
			case j.costed():
				sum += w.SI
			default:
				sum = max(sum, w.SI)
			}
			if exists(x.loss) && (!exists(k.HeadLoss) || x.loss.SI > k.HeadLoss.SI) {
				k.HeadLoss = x.loss
			}
		}
	}
	if priced && sum > 0 {
		k.Weight = Value{SI: sum}
	}
	return k
}

// costed tells whether all cases count the costs, in one currency.
func (j *Joint) costed() bool {
	return !slices.ContainsFunc(j.Comparisons, func(c *Comparison) bool {
		return c.Case.Economics == nil || c.Case.Economics.Currency != j.Comparisons[0].Case.Economics.Currency
	})
}

func (j *Joint) weight(c *Comparison, x *standing) Value {
	if j.costed() {
		return c.weight(x)
	}
	return x.price
}

// take goes through the outcomes of a case.
func (k *JointCandidate) take(c *Comparison, i int) {
	for _, sc := range c.Scenarios {
		o := &sc.Outcomes[i]
		for _, m := range Measures(c.Service) {
			if v := m.Get(o); m.Better != Neither && exists(v) {
				k.worse(m, Worst{m.Key, c.Case.Name, sc.Name, v.SI})
			}
		}
		for _, v := range o.Verdicts {
			v.Scenario = sc.Name
			k.judge(WorstVerdict{c.Case.Name, v})
		}
	}
}

func (k *JointCandidate) worse(m Measure, w Worst) {
	i := slices.IndexFunc(k.Worst, func(x Worst) bool { return x.Measure == w.Measure })
	switch {
	case i < 0:
		k.Worst = append(k.Worst, w)
	case m.Better == Lower && w.Value > k.Worst[i].Value, m.Better == Higher && w.Value < k.Worst[i].Value:
		k.Worst[i] = w
	}
}

// judge keeps the worst verdict on a measure.
func (k *JointCandidate) judge(v WorstVerdict) {
	i := slices.IndexFunc(k.Verdicts, func(x WorstVerdict) bool { return x.Measure == v.Measure })
	switch {
	case i < 0:
		k.Verdicts = append(k.Verdicts, v)
	case v.worse(k.Verdicts[i]):
		k.Verdicts[i] = v
	}
}

// worse tells whether a verdict comes before another as the worst: one that is not met before one that is, then the lesser share.
func (v WorstVerdict) worse(than WorstVerdict) bool {
	if v.Met != than.Met {
		return than.Met
	}
	return v.share() < than.share()
}

// share is what is to spare over the limit, by which verdicts under different limits are weighed.
func (v WorstVerdict) share() float64 {
	switch {
	case v.Bound != 0:
		return v.Spare() / math.Abs(v.Bound)
	case v.Met:
		return math.Inf(1)
	}
	return math.Inf(-1)
}

// differences says in which data two candidates of one name differ.
func differences(a, b *valve.Spec, inA, inB string) string {
	var parts []string
	if a.Type != b.Type {
		parts = append(parts, fmt.Sprintf("type %s in %s, %s in %s", a.Type, inA, b.Type, inB))
	}
	if a.Size != b.Size {
		parts = append(parts, fmt.Sprintf("size DN%.4g in %s, DN%.4g in %s", 1e3*a.Size, inA, 1e3*b.Size, inB))
	}
	var others []string
	for _, key := range slices.Sorted(maps.Keys(a.Set)) {
		if y, ok := b.Set[key]; !ok || y != a.Set[key] {
			others = append(others, key)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(b.Set)) {
		if _, ok := a.Set[key]; !ok {
			others = append(others, key)
		}
	}
	if !reflect.DeepEqual(a.Tables, b.Tables) {
		others = append(others, "tables over the opening")
	}
	if !reflect.DeepEqual(a.Tests, b.Tests) {
		others = append(others, "test points")
	}
	if len(others) > 0 {
		parts = append(parts, fmt.Sprintf("not the same %s in %s as in %s", inWords(others), inB, inA))
	}
	return strings.Join(parts, "; ")
}

// recommend takes the least weight among the candidates that meet the limits of every case, the least head loss at the same weight.
func (j *Joint) recommend() {
	order := slices.Clone(j.Candidates)
	slices.SortStableFunc(order, func(a, b JointCandidate) int {
		return cmp.Or(cmp.Compare(rank(a.Weight), rank(b.Weight)), cmp.Compare(rank(a.HeadLoss), rank(b.HeadLoss)))
	})
	by := "the least price ratio"
	if j.costed() {
		by = "the least sum of present values"
	}
	win := slices.IndexFunc(order, func(k JointCandidate) bool { return k.Met && exists(k.Weight) })
	if win >= 0 {
		j.Recommended = order[win].Name
		j.Reasons = append(j.Reasons, fmt.Sprintf("%s meets every limit of %s, and has %s of those that do.", order[win].Name, j.cases(), by))
	} else {
		j.Reasons = append(j.Reasons, fmt.Sprintf("No valve is recommended for all: none of the candidates that have a price meets every limit of %s.", j.cases()))
	}
	for _, k := range order {
		switch {
		case k.Name == j.Recommended:
		case len(k.Missing) > 0:
			j.Reasons = append(j.Reasons, fmt.Sprintf("%s is no candidate of %s.", k.Name, inWords(k.Missing)))
		case k.Met && !exists(k.Weight):
			j.Reasons = append(j.Reasons, fmt.Sprintf("%s meets every limit, but its price is not known.", k.Name))
		case k.Met:
			j.Reasons = append(j.Reasons, fmt.Sprintf("%s meets every limit too.", k.Name))
		default:
			j.Reasons = append(j.Reasons, k.against(j))
		}
	}
	for _, k := range j.Candidates {
		for _, d := range k.Differences {
			j.Reasons = append(j.Reasons, fmt.Sprintf("%s is not the same valve in all cases: %s.", k.Name, d))
		}
	}
}

// against says in which cases a candidate does not meet the limits, and by what it fails the worst.
func (k *JointCandidate) against(j *Joint) string {
	var fails []string
	for _, c := range j.Comparisons {
		if !slices.Contains(k.Meets, c.Case.Name) {
			fails = append(fails, c.Case.Name)
		}
	}
	text := fmt.Sprintf("%s does not meet the limits of %s", k.Name, inWords(fails))
	worst := WorstVerdict{Verdict: Verdict{Met: true}}
	for _, v := range k.Verdicts {
		if !v.Met && v.worse(worst) {
			worst = v
		}
	}
	if !worst.Met {
		text += fmt.Sprintf(": it fails the limit on %s, furthest in %s", measure(LiquidPump, worst.Measure).Label, j.where(worst.Case, worst.Scenario))
	}
	return text + "."
}

// cases are their names in words.
func (j *Joint) cases() string {
	var names []string
	for _, c := range j.Comparisons {
		names = append(names, c.Case.Name)
	}
	return inWords(names)
}

// where names a scenario, and the case where there are several.
func (j *Joint) where(name, scenario string) string {
	if len(j.Comparisons) == 1 {
		return scenario
	}
	for _, c := range j.Comparisons {
		if c.Case.Name == name && len(c.Scenarios) == 1 {
			return name
		}
	}
	return name + ", " + scenario
}

func inWords(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

// always are the measures that are told without a limit too.
var always = []string{keyPeak, keyMin, keyHeadLoss}

// Rows are the worst of every candidate, for a screen or a report: the value and where it was met, then the worst verdict and where, with its limit where the
// cases have several. Measures without a limit are left out but for the greatest loads.
func (j *Joint) Rows(system quantity.System) []Row {
	var rows []Row
	for _, m := range Measures(j.Comparisons[0].Service) {
		var values, bounds []float64
		judged := false
		for i := range j.Candidates {
			if w := j.Candidates[i].worst(m.Key); w != nil {
				values = append(values, w.Value)
			}
			if v := j.Candidates[i].verdict(m.Key); v != nil {
				judged = true
				bounds = append(bounds, v.Bound)
			}
		}
		if len(values) == 0 || !judged && !slices.Contains(always, m.Key) {
			continue
		}
		sc := NewScale(m.Dimension, system, append(slices.Clone(values), bounds...)...)
		rows = append(rows, j.row(sc.Label(m.Label), false, func(k *JointCandidate) Cell {
			if w := k.worst(m.Key); w != nil {
				return Cell{Text: sc.Text(w.Value)}
			}
			return Cell{Reason: "no result"}
		}), j.row("in", true, func(k *JointCandidate) Cell {
			if w := k.worst(m.Key); w != nil {
				return Cell{Text: j.where(w.Case, w.Scenario)}
			}
			return Cell{}
		}))
		if !judged {
			continue
		}
		several := slices.ContainsFunc(bounds, func(b float64) bool { return b != bounds[0] })
		limit := j.row("limit", true, func(k *JointCandidate) Cell {
			if v := k.verdict(m.Key); v != nil {
				return Cell{Text: v.Words(sc.Apart(v.Value, v.Bound)), Alarm: !v.Met}
			}
			return Cell{}
		})
		if !several {
			limit.Bound = sc.Text(bounds[0])
		}
		rows = append(rows, limit)
		elsewhere := several || slices.ContainsFunc(j.Candidates, func(k JointCandidate) bool {
			w, v := k.worst(m.Key), k.verdict(m.Key)
			return v != nil && (w.Case != v.Case || w.Scenario != v.Verdict.Scenario)
		})
		if !elsewhere { // the worst value is the worst verdict
			continue
		}
		rows = append(rows, j.row("limit, worst in", true, func(k *JointCandidate) Cell {
			v := k.verdict(m.Key)
			if v == nil {
				return Cell{}
			}
			text := j.where(v.Case, v.Verdict.Scenario)
			if several {
				text += ", limit " + sc.Text(v.Bound)
			}
			return Cell{Text: text}
		}))
	}
	return rows
}

func (j *Joint) row(label string, detail bool, cell func(*JointCandidate) Cell) Row {
	r := Row{Label: label, Detail: detail}
	for i := range j.Candidates {
		r.Cells = append(r.Cells, cell(&j.Candidates[i]))
	}
	return r
}

func (k *JointCandidate) worst(key string) *Worst {
	if i := slices.IndexFunc(k.Worst, func(w Worst) bool { return w.Measure == key }); i >= 0 {
		return &k.Worst[i]
	}
	return nil
}

func (k *JointCandidate) verdict(key string) *WorstVerdict {
	if i := slices.IndexFunc(k.Verdicts, func(v WorstVerdict) bool { return v.Measure == key }); i >= 0 {
		return &k.Verdicts[i]
	}
	return nil
}
