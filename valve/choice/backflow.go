package choice

// backflow is the integral of the reverse flow by the trapezoidal rule, m3. A step with seatings is cut at each of them: the flow just before a seating
// ends its part, and the flow at the end of the step holds from the seating on.
type backflow struct {
	volume float64
	parted bool    // this step is cut
	at     float64 // the last cut, s
	held   float64 // time for which the flow at the end of the step will hold, s
}

// cut takes a seating at time t, s, with the flow q, m3/s, just before it.
func (b *backflow) cut(last moment, t, q float64) {
	switch {
	case !b.parted && t > last.t:
		b.volume += (t - last.t) / 2 * (back(last.Flow) + back(q))
	case b.parted && t > b.at:
		b.volume += (t - b.at) / 2 * back(q)
		b.held += (t - b.at) / 2
	default:
		return
	}
	b.parted, b.at = true, t
}

// add takes the end of the step.
func (b *backflow) add(last, now moment) {
	if b.parted {
		b.volume += (b.held + now.t - b.at) * back(now.Flow)
	} else {
		b.volume += (now.t - last.t) / 2 * (back(last.Flow) + back(now.Flow))
	}
	b.parted, b.held = false, 0
}
