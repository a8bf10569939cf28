package casefile

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// limits reads what the line may bear.
func (r *reader) limits(root *section) choice.Limits {
	var l choice.Limits
	s := r.section(root.take("limits"), "limits")
	optional := func(into **float64, x float64, ok bool) {
		if ok {
			*into = &x
		}
	}
	read := func(into **float64, key string, d quantity.Dimension) {
		x, ok := s.quantity(key, d)
		optional(into, x, ok)
	}
	above := func(into **float64, key string, d quantity.Dimension) {
		x, ok := s.positive(key, d)
		optional(into, x, ok)
	}
	above(&l.DesignPressure, "design pressure", quantity.Pressure)
	read(&l.SurgeAllowance, "surge allowance", quantity.Fraction)
	s.rule(&l)
	read(&l.MinimumPressure, "minimum pressure", quantity.Pressure)
	above(&l.ReverseVelocity, "reverse velocity", quantity.Velocity)
	read(&l.PumpReverseSpeed, "pump reverse speed", quantity.Rotation)
	read(&l.ReverseVolume, "reverse volume", quantity.Volume)
	above(&l.HeadLoss, "head loss", quantity.Length)
	above(&l.AnchorForce, "anchor force", quantity.Force)
	s.done()

	complain := func(key, hint string) {
		p := s.node.get(key)
		r.failed(s.key(key), p.value.fault(fmt.Sprintf("%s is %s", s.key(key), p.value.text), hint))
	}
	if x := l.SurgeAllowance; x != nil && l.Rule == nil && (*x < 0 || *x > 1) {
		hint := "give 0 % to 100 % of the design pressure"
		if text := s.node.get("surge allowance").value.text; *x > 1 && *x <= 100 && !strings.ContainsAny(text, "%p") {
			hint = "write " + text + " %"
		}
		complain("surge allowance", hint)
	}
	if x := l.MinimumPressure; x != nil && *x < -r.atmosphere {
		complain("minimum pressure", "no pressure is below -1 atmosphere; pressures are gauge, write bar abs for absolute ones")
	}
	if x := l.PumpReverseSpeed; x != nil && *x < 0 {
		complain("pump reverse speed", "give the reverse speed as a positive number")
	}
	if x := l.ReverseVolume; x != nil && *x < 0 {
		complain("reverse volume", "give the reverse volume as a positive number")
	}
	if l.SurgeAllowance != nil && l.Rule == nil && !s.has("design pressure") {
		p := s.node.get("surge allowance")
		r.failed(s.key("surge allowance"), p.key.fault("limits: surge allowance without design pressure", "it is a fraction of the design pressure: give that too"))
	}
	return l
}

// bearing complains of a limit on the anchor force where no scenario has a straight run to judge. What else is wrong may be why, so that it is told alone.
func (r *reader) bearing(root *node, c *choice.Case) {
	if c.Limits.AnchorForce == nil || len(r.errs) > 0 || slices.ContainsFunc(c.Scenarios, func(s choice.Scenario) bool { return s.Network.Runs() > 0 }) {
		return
	}
	r.failed("limits.anchor force", root.get("limits").value.get("anchor force").key.fault("limits: anchor force, but no pipe and no branch has bends",
		"give the pipe its bends, e.g. "+someBends))
}
