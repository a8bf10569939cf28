package choice

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/sizing"
)

// unheld says at which flows of the duty the disc of a candidate is not on its stop all the time.
func (r *reasons) unheld(name string) {
	i := slices.IndexFunc(r.Staying, func(s StayingOpen) bool { return s.Candidate == name })
	if i < 0 || !r.Case.Duty.asked() {
		return
	}
	k, flows := &r.Staying[i], 0
	var parts []string
	for _, h := range k.Flows {
		if !exists(h.Margin) || h.Name == beforeEvent && r.ripple() == 0 {
			continue
		}
		flows++
		switch rest := sizing.Ripple(h.Margin.SI, r.ripple()); {
		case h.Ripple == cyclic:
			parts = append(parts, fmt.Sprintf("at the %s the fluctuation closes it in every cycle", h.Name))
		case h.Margin.SI < sizing.Held:
			parts = append(parts, fmt.Sprintf("at the %s it %s (full-open margin %s)", h.Name, h.Class, r.write(h.Margin.SI, quantity.Number)))
		case rest == sizing.Tapping:
			parts = append(parts, fmt.Sprintf("at the %s the fluctuation takes it off its stop in every cycle", h.Name))
		case exists(k.NeededMargin) && h.Margin.SI < k.NeededMargin.SI:
			parts = append(parts, fmt.Sprintf("at the %s its margin is less than needed behind the %s", h.Name, k.Upstream))
		}
	}
	switch {
	case flows == 0:
		return
	case len(parts) == 0:
		r.add("The disc of %s stays on its stop at all flows of the duty.", name)
	default:
		cure := r.first(name).easier("hold it better")
		if r.ripple() >= 1 {
			cure = "no valve stays open in a flow that stops in every cycle"
		}
		r.add("The disc of %s leaves its stop: %s. That wears it; %s.", name, strings.Join(parts, "; "), cure)
	}
}

// first is the outcome of a candidate in the first scenario.
func (c *Comparison) first(name string) *Outcome {
	all := c.Scenarios[0].Outcomes
	return &all[slices.IndexFunc(all, func(o Outcome) bool { return o.Candidate == name })]
}

// easier says what would hold a disc on its stop in less flow, with what it would do: "hold it". The weaker spring only where there is one; the law of motion knows.
func (o *Outcome) easier(do string) string {
	text := "a smaller size would " + do
	if _, err := o.Valve.Stronger(1); err == nil {
		text += ", and so would a weaker spring, which closes later"
	}
	return text
}

// ripple is the fluctuation of the duty; 0 where none is given.
func (c *Comparison) ripple() float64 {
	if c.Case.Duty == nil || c.Case.Duty.Fluctuation == nil {
		return 0
	}
	return *c.Case.Duty.Fluctuation
}

// float says which discs do not stay on their stops in the duty of the case.
func (c *Comparison) float(s Settings) {
	if len(c.Staying) > 0 && c.Case.Duty.asked() && c.Places(0) > 1 {
		c.Warnings = append(c.Warnings, "duty: the candidates stand in several places; the flows of the duty are taken to go through the valve watched in the first scenario")
	}
	for _, k := range c.Staying {
		for _, h := range k.Flows {
			if h.Separation == sizing.CloseToResonance {
				f := NewScale(quantity.Frequency, s.Units, h.Frequency.SI)
				c.Warnings = append(c.Warnings, fmt.Sprintf("%s: at the %s the disc floats with a natural frequency of %s, close to that of the fluctuation, and swings %.1f times as far as in a slow one", k.Candidate, h.Name,
					f.With(h.Frequency.SI), h.Response.SI))
			}
			if !exists(h.Margin) {
				continue
			}
			q := NewScale(quantity.Flow, s.Units, h.Flow.SI).Bare().With(h.Flow.SI)
			switch rest := sizing.Ripple(h.Margin.SI, c.ripple()); {
			case h.Ripple == cyclic:
				c.Warnings = append(c.Warnings, fmt.Sprintf("%s: at the %s of %s the fluctuation closes the disc in every cycle: seat and hinge or guide will wear", k.Candidate, h.Name, q))
			case h.Ripple != "" && rest == sizing.Tapping:
				c.Warnings = append(c.Warnings, fmt.Sprintf("%s: at the %s of %s the fluctuation takes the disc off its stop and back in every cycle: stop and hinge or guide will wear", k.Candidate, h.Name, q))
			case h.Name == beforeEvent:
			case h.Margin.SI < sizing.Held:
				c.Warnings = append(c.Warnings, fmt.Sprintf("%s: at the %s of %s the disc %s: it floats at %.0f %% of its travel and will wear", k.Candidate, h.Name, q, h.Class, 100*h.Opening.SI))
			case exists(k.NeededMargin) && h.Margin.SI < k.NeededMargin.SI:
				m := NewScale(quantity.Number, s.Units, h.Margin.SI, k.NeededMargin.SI).Apart(h.Margin.SI, k.NeededMargin.SI)
				c.Warnings = append(c.Warnings, fmt.Sprintf("%s: at the %s of %s the full-open margin of %s is less than the %s needed behind the %s", k.Candidate, h.Name, q,
					m.Text(h.Margin.SI), m.Text(k.NeededMargin.SI), k.Upstream))
			}
		}
	}
}
