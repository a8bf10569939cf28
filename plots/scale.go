package plots

import (
	"math"
	"strconv"
	"strings"
)

// tick is a mark on an axis; without a label it is a minor one.
type tick struct {
	at    float64
	label string
}

// axis maps a stretch of values onto 0..1.
type axis struct {
	label    string
	min, max float64
	ticks    []tick
	log      bool // logarithmic
	bare     bool // ticks without labels: the axis is labelled elsewhere
}

// at is where v lies on the axis, 0 at min and 1 at max.
func (a axis) at(v float64) float64 {
	if a.log {
		return math.Log(v/a.min) / math.Log(a.max/a.min)
	}
	return (v - a.min) / (a.max - a.min)
}

// value is the inverse of at.
func (a axis) value(f float64) float64 {
	if a.log {
		return a.min * math.Pow(a.max/a.min, f)
	}
	return a.min + f*(a.max-a.min)
}

// linear is an axis that covers lo..hi, ends on its own steps (1, 2 or 5 times a power of ten) and has at most about want of them.
func linear(label string, lo, hi float64, want int) axis {
	lo, hi = spread(lo, hi)
	step, parts := niceStep((hi - lo) / float64(want))
	const slack = 1e-9 // of a step, so that a bound that lies on a step stays there
	lo, hi = step*math.Floor(lo/step+slack), step*math.Ceil(hi/step-slack)
	return axis{label: label, min: lo, max: hi, ticks: ticks(lo, hi, step, parts)}
}

// snug is like linear but ends on the minor ticks.
func snug(label string, lo, hi float64, want int) axis {
	lo, hi = spread(lo, hi)
	step, parts := niceStep((hi - lo) / float64(want))
	minor := step / float64(parts)
	const slack = 1e-9
	lo, hi = minor*math.Floor(lo/minor+slack), minor*math.Ceil(hi/minor-slack)
	return axis{label: label, min: lo, max: hi, ticks: ticks(lo, hi, step, parts)}
}

// window is an axis that covers exactly lo..hi, with ticks on steps of 1, 2 or 5.
func window(label string, lo, hi float64, want int) axis {
	lo, hi = spread(lo, hi)
	step, parts := niceStep((hi - lo) / float64(want))
	return axis{label: label, min: lo, max: hi, ticks: ticks(lo, hi, step, parts)}
}

// ticks are the steps between lo and hi, each cut into parts by minor ones.
func ticks(lo, hi, step float64, parts int) []tick {
	var all []tick
	minor := step / float64(parts)
	const slack = 1e-6
	for k := math.Ceil(lo/minor - slack); k <= hi/minor+slack; k++ {
		t := tick{at: k * minor}
		if math.Mod(k, float64(parts)) == 0 {
			t.label = stepLabel(k/float64(parts), step)
		}
		all = append(all, t)
	}
	return all
}

// logarithmic is an axis over whole steps of 1, 2, 5, or of 10 when it is long; lo and hi are positive.
func logarithmic(label string, lo, hi float64) axis {
	a := axis{label: label, log: true}
	long := hi/lo > 3000
	var below, above float64
	for e := math.Floor(math.Log10(lo)); e <= math.Ceil(math.Log10(hi)); e++ {
		for m := 1; m <= 9; m++ {
			v := float64(m) * math.Pow(10, e)
			t := tick{at: v}
			if m == 1 || !long && (m == 2 || m == 5) {
				t.label = strconv.FormatFloat(v, 'g', 6, 64)
				if v <= lo*(1+1e-9) {
					below = v
				}
				if v >= hi*(1-1e-9) && above == 0 {
					above = v
				}
			}
			a.ticks = append(a.ticks, t)
		}
	}
	if above <= below {
		above = 10 * below
	}
	a.min, a.max = below, above
	in := a.ticks[:0]
	for _, t := range a.ticks {
		if t.at >= below*(1-1e-9) && t.at <= above*(1+1e-9) {
			in = append(in, t)
		}
	}
	a.ticks = in
	return a
}

// spread keeps the ends of an axis finite, in order and apart.
func spread(lo, hi float64) (float64, float64) {
	if !finite(lo) || !finite(hi) || !finite(hi-lo) {
		return 0, 1
	}
	lo, hi = min(lo, hi), max(lo, hi)
	if least := 1e-9 * math.Max(1, math.Max(math.Abs(lo), math.Abs(hi))); hi-lo < least {
		pad := math.Max(0.5*math.Abs(lo), 0.5)
		return lo - pad, hi + pad
	}
	return lo, hi
}

// niceStep is the least of 1, 2, 5 times a power of ten that is at least x, and into how many parts its minor ticks cut it.
func niceStep(x float64) (step float64, parts int) {
	p := math.Pow(10, math.Floor(math.Log10(x)))
	for _, m := range []struct {
		factor float64
		parts  int
	}{{1, 5}, {2, 4}, {5, 5}} {
		if m.factor*p >= x*(1-1e-9) {
			return m.factor * p, m.parts
		}
	}
	return 10 * p, 5
}

// stepLabel is k steps in as many decimals as the step has; zero has no sign.
func stepLabel(k, step float64) string {
	if k == 0 {
		return "0"
	}
	if step >= 1e6 || step < 1e-5 {
		return sign(strconv.FormatFloat(k*step, 'g', 4, 64))
	}
	return sign(strconv.FormatFloat(k*step, 'f', max(0, -int(math.Floor(math.Log10(step)+1e-9))), 64))
}

// sign writes the minus sign of the trade's print, U+2212.
func sign(s string) string { return strings.ReplaceAll(s, "-", "\u2212") }

// huge is where a number is written with an exponent.
const huge = 1e7

// decimals is how many decimals give the value three significant figures.
func decimals(v float64) int {
	if v = math.Abs(v); v == 0 || !finite(v) {
		return 2
	}
	return min(6, max(0, 2-int(math.Floor(math.Log10(v)))))
}

// fixed writes v with n decimals, without a negative zero.
func fixed(v float64, n int) string {
	if math.Abs(v) >= huge {
		return sign(strconv.FormatFloat(v, 'g', 4, 64))
	}
	s := strconv.FormatFloat(v, 'f', n, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return sign(s)
}

// short writes v with at most n significant figures and no trailing zeros.
func short(v float64, n int) string {
	if v == 0 {
		return "0"
	}
	if a := math.Abs(v); a >= huge || a < 1e-5 {
		return sign(strconv.FormatFloat(v, 'g', n, 64))
	}
	s := strconv.FormatFloat(v, 'f', max(0, n-1-int(math.Floor(math.Log10(math.Abs(v))))), 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return sign(s)
}
