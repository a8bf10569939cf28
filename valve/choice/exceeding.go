package choice

import (
	"math"

	"seatwise/network"
)

// exceeding is when a valve itself first breaks the limits that it has a share in, s from the start of the run; negative: it does not.
type exceeding struct {
	high, low, thin float64 // heads at the downstream face, m: of the highest and of the lowest pressure, and of the vapour margin
	reverse         float64 // velocity, m/s
	first           struct{ high, low, thin, reverse float64 }
}

// under sets the limits that the valve of a station, or one that stands alone, may itself break.
func (e *exceeding) under(limits []limit, n *network.Network, where string) {
	gamma, z := n.Fluid.Density*n.G(), elevation(n, where)
	for _, l := range limits {
		switch bound := l.asks(*l.bound); l.measure {
		case keyPeak:
			e.high = z + bound/gamma
		case keyMin:
			e.low = z + bound/gamma
		case keyVapour:
			e.thin = z + (n.Fluid.VapourPressure-n.Atmosphere)/gamma + bound
		case keyReverse:
			e.reverse = math.Min(e.reverse, bound)
		}
	}
}

func nothingExceeded() exceeding {
	e := exceeding{high: math.Inf(1), low: math.Inf(-1), thin: math.Inf(-1), reverse: math.Inf(1)}
	e.first.high, e.first.low, e.first.thin, e.first.reverse = -1, -1, -1, -1
	return e
}

// take goes on with the state after the event.
func (e *exceeding) take(m moment) {
	note := func(broken bool, first *float64) {
		if broken && *first < 0 {
			*first = m.t
		}
	}
	note(m.HeadDown > e.high, &e.first.high)
	note(m.HeadDown < e.low, &e.first.low)
	note(m.HeadDown < e.thin, &e.first.thin)
	note(-m.v > e.reverse, &e.first.reverse)
}

// times are those of the measures under limits.
func (e *exceeding) times() map[string]float64 {
	return map[string]float64{keyPeak: e.first.high, keyMin: e.first.low, keyVapour: e.first.thin, keyReverse: e.first.reverse, keyLater: e.first.reverse}
}
