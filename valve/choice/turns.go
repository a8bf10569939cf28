package choice

import "math"

// GenericSpread is how well generic valve data are known, relative (common practice).
const GenericSpread = spread

// Turns tells whether a verdict would be the other if the share of the measure that the valve's data decide were greater or less by a fraction of it. Of a
// reverse volume and of a reverse speed the whole is taken for that share.
func (o *Outcome) Turns(v Verdict, fraction float64) bool {
	share := o.share(v.Measure)
	if v.Measure == keyReverseVolume || v.Measure == keyReverseSpeed {
		share = v.Value
	}
	return math.Abs(v.Spare()) < fraction*share
}
