package characteristic

import "seatwise/valve"

// Numbers are the point without dimensions,
//
//	a D/V_o^2    deceleration number
//	V_r/V_o      reverse velocity over full-open velocity
//
// of which sizes of one geometry have one curve (similarity: weights as D^3, forces as rho D^2 V_o^2; TestSimilarity, TestSimilarFamilies). It is false for a valve
// without a full-open velocity.
func (p Point) Numbers(v valve.Valve) (number, ratio float64, ok bool) {
	o := v.FullOpenVelocity
	if !(o > 0) {
		return 0, 0, false
	}
	return p.Deceleration * v.Bore / (o * o), p.ReverseVelocity / o, true
}
