package pump

import (
	"fmt"
	"math"
)

// join fits the curve and joins the data to both its ends. The curve is not
// empty and has passed validate.
func (p *Pump) join() {
	curve := p.Spec.Curve
	var v, h []float64
	if first := curve[0]; first.Flow >= leastStep*p.Spec.Flow {
		// zero flow was left out: the data, moved to the first point, supply it
		moved := first.Head/p.Spec.Head - p.table.onSpeed(first.Flow*p.perFlow).head
		v, h = append(v, 0), append(h, p.table.onSpeed(0).head+moved)
		p.warn("the curve starts at %.4g m3/s; its head at zero flow, %.4g m, comes from the four-quadrant data",
			first.Flow, h[0]*p.Spec.Head)
	}
	for _, c := range curve {
		v, h = append(v, c.Flow*p.perFlow), append(h, c.Head/p.Spec.Head)
	}
	p.head = fit(v, h)
	p.end = v[len(v)-1]
	p.ratio = p.torqueRatio()

	r0, _ := p.ratio.at(0)
	rE, _ := p.ratio.at(p.end)
	zero, last := p.table.onSpeed(0), p.table.onSpeed(p.end)
	xE := math.Pi + math.Atan2(p.end, 1)
	p.back = joint{
		head:   p.ramp("head at zero flow", math.Pi, math.Pi/2, h[0], zero.head),
		torque: p.ramp("torque at zero flow", math.Pi, math.Pi/2, r0*zero.torque, zero.torque),
	}
	p.beyond = joint{
		head:   p.ramp("head at the end of the curve", xE, 3*math.Pi/2, h[len(h)-1], last.head),
		torque: p.ramp("torque at the end of the curve", xE, 3*math.Pi/2, rE*last.torque, last.torque),
	}
}

// torqueRatio returns r, the torque asked for by the efficiency points over the
// torque of the data; 1 when there is none.
func (p *Pump) torqueRatio() cubic {
	var v, r []float64
	for _, c := range p.Spec.Curve {
		if c.Efficiency == 0 || c.Flow == 0 || c.Head == 0 {
			continue
		}
		s := c.Flow * p.perFlow
		data := p.RatedTorque * p.table.onSpeed(s).torque
		if data <= 0 {
			p.warn("efficiency at %.4g m3/s is not used: the four-quadrant data show no shaft torque there", c.Flow)
			continue
		}
		v = append(v, s)
		r = append(r, p.weight*c.Flow*c.Head/(c.Efficiency*p.Spec.Speed)/data)
	}
	if len(r) == 0 {
		v, r = []float64{1}, []float64{1}
	}
	return fit(v, r)
}

// ramp returns the correction that takes the data from the curve's value at x0 to
// their own at x1. Both values are reduced and at alpha = 1.
func (p *Pump) ramp(what string, x0, x1, curve, data float64) ramp {
	f := curve / data
	if f >= 0.5 && f <= 2 {
		return ramp{x0: x0, f0: f, df: (1 - f) / (x1 - x0)}
	}
	p.warn("%s is %.3g of rated and %.3g in four-quadrant set %s: the pump is unlike its set there, and the difference is carried over instead of the quotient",
		what, curve, data, p.Set.Name)
	c := math.Cos(x0)
	o := (curve - data) * c * c // 1/(1 + v^2) = cos^2 x
	return ramp{x0: x0, f0: 1, o0: o, do: -o / (x1 - x0)}
}

func (p *Pump) warn(format string, args ...any) {
	p.Warnings = append(p.Warnings, "pump: "+fmt.Sprintf(format, args...))
}
