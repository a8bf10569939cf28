package choice

import (
	"math"
	"strings"

	"seatwise/valve"
	"seatwise/valve/service"
)

// Against are the reasons that the service of a case has against a candidate, whatever its dynamics; none: it may serve.
func (c *Case) Against(spec valve.Spec) []string { return c.Service.Against(served(spec)) }

// Asks is what the service makes one ask of a candidate that may serve; "" for nothing.
func (c *Case) Asks(spec valve.Spec) string { return c.Service.Asks(served(spec), spec.Set["travel"]) }

func served(spec valve.Spec) service.Valve {
	return service.Valve{Type: spec.Type, Damped: spec.Set["damper"] > 0}
}

// Reverse is the greatest reverse velocity, m/s, that the limits allow with the margin kept: by the limit on it and by the slam class; nil: neither is given.
func (l *Limits) Reverse() *float64 {
	var least *float64
	for _, x := range l.list() {
		if x.measure == keyReverse {
			if v := x.asks(*x.bound); least == nil || v < *least {
				least = &v
			}
		}
	}
	return least
}

// Peak is the greatest pressure, Pa gauge, that a surge may reach with the margin kept; nil: it has no limit. Where a rule goes by durations, it is what
// every surge may reach.
func (l *Limits) Peak() *float64 {
	if l.DesignPressure == nil {
		return nil
	}
	p := *l.DesignPressure
	if l.SurgeAllowance != nil && !l.Rule.Timed() {
		p *= 1 + *l.SurgeAllowance
	}
	p -= l.Margin * math.Abs(p)
	return &p
}

// Slam is the class of slam of a reverse velocity, m/s, by the bounds of the limits.
func (l *Limits) Slam(v float64) string { return l.SlamBounds.Class(v) }

// SlamSteps are the bounds of the classes in use.
func (l *Limits) SlamSteps() SlamBounds { return l.SlamBounds.orUsual() }

// unsuited names the candidates that the service rules out, or of which it makes one ask something.
func (c *Case) unsuited() []string {
	var out []string
	for _, spec := range c.Candidates {
		if reasons := c.Against(spec); len(reasons) > 0 && spec.Failure == valve.Sound {
			out = append(out, spec.Name+": the service rules out the type "+spec.Type+": "+strings.Join(reasons, "; ")+" (common practice)")
		}
		if asks := c.Asks(spec); asks != "" && spec.Failure == valve.Sound {
			out = append(out, spec.Name+": "+asks+" (common practice)")
		}
	}
	return out
}
