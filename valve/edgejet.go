package valve

import "math"

// EdgeJet is the conductance g = 1/sqrt(zeta) of a hinged disc, whose flow leaves the gap as a jet along one wall:
//
//	zeta = zeta_open + 1/u^2 - 1/u_stop^2,   u = Cc alpha = Cc Rate y
//
// alpha is the gap area over the bore area, Cc the contraction of the jet: the velocity head of the jet, 1/u^2 velocity heads of the
// bore, is lost, because a jet beside an inclined disc does not expand coaxially and recovers nothing (Curtain is the form with that
// recovery). The loss on the stop is zeta_open, and it grows at once as the disc leaves the stop. Written for g it has no singularity:
// g = u/sqrt(1 + (zeta_open - 1/u_stop^2) u^2), g'(0) = Cc Rate, rising all the way.
type EdgeJet struct {
	Open float64 // zeta_open > 0
	Rate float64 // Cc d(alpha)/dy > 0, 1/rad
	Stop float64 // u_stop > 0
}

// NewEdgeJet returns the conductance of a gap whose area ratio grows by slope per rad over the given travel.
func NewEdgeJet(open, contraction, slope, travel float64) EdgeJet {
	return EdgeJet{Open: open, Rate: contraction * slope, Stop: contraction * slope * travel}
}

// At returns the conductance and its derivative; it is 0 behind the seat and constant beyond the stop.
func (j EdgeJet) At(y float64) (g, dg float64) {
	u := j.Rate * y
	if u < 0 {
		return 0, 0
	}
	slope := j.Rate
	if u > j.Stop {
		u, slope = j.Stop, 0
	}
	r := u / j.Stop
	d := (1-r)*(1+r) + j.Open*u*u // 1 + (zeta_open - 1/u_stop^2) u^2, above zero whatever the rounding
	root := math.Sqrt(d)
	return u / root, slope / (d * root)
}
