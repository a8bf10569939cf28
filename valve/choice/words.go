package choice

import (
	"math"
	"strings"
)

// thinMargin is the margin over the limit below which it is told.
const thinMargin = 0.15

// Words is a verdict in words, with the rounding of a scale: "meets", "meets narrowly by 0.2 bar", "exceeds by 2.6 bar, unsure". A value or bound that
// is not finite leaves the distance out.
func (v Verdict) Words(sc Scale) string {
	by := ""
	if distance := v.Value - v.Bound; !math.IsNaN(distance) && !math.IsInf(distance, 0) {
		by = " by " + sc.Difference(v.Value, v.Bound)
		if sc.Name() != "" {
			by += " " + sc.Name()
		}
	}
	text := "meets"
	switch {
	case !v.Met && v.Asked > 0 && v.Margin >= 0:
		text = "too little to spare" + strings.Replace(by, " by ", ", ", 1)
	case !v.Met && v.Value < v.Bound:
		text = "short" + by
	case !v.Met:
		text = "exceeds" + by
	default:
		if v.Narrow {
			text += " narrowly"
		}
		if v.Margin > 0 && v.Margin < thinMargin*math.Abs(v.Bound) {
			text += by
		}
	}
	if v.Unsure {
		text += ", unsure"
	}
	return text
}
