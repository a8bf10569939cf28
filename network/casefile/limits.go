package casefile

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// limits reads what the line may bear. Duty tells the trips a year of one unit, nil: it does not; units are those that have it.
func (r *reader) limits(root *section, duty *choice.Duty, units int) choice.Limits {
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
	trips := 0.0
	if duty != nil {
		trips = duty.Trips
	}
	s.rule(&l, trips, units)
	read(&l.MinimumPressure, "minimum pressure", quantity.Pressure)
	above(&l.VapourMargin, "vapour margin", quantity.Length)
	above(&l.ReverseVelocity, "reverse velocity", quantity.Velocity)
	read(&l.PumpReverseSpeed, "pump reverse speed", quantity.Rotation)
	read(&l.ReverseVolume, "reverse volume", quantity.Volume)
	above(&l.HeadLoss, "head loss", quantity.Length)
	above(&l.AnchorForce, "anchor force", quantity.Force)
	s.slam(&l)
	l.Margin = s.toSpare()
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
	if x := l.MinimumPressure; x != nil && *x == 0 && l.Margin > 0 {
		r.warnings = append(r.warnings, "limits: the margin is a fraction of every limit, and nothing of a minimum pressure of 0: give one with its margin")
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

// slam reads the class of slam allowed, and the reverse velocities that bound the classes.
func (s *section) slam(l *choice.Limits) {
	classes := choice.SlamClasses()
	l.SlamClass, _ = s.choose("slam class", classes[:len(classes)-1])
	p := s.take("slam classes")
	if p == nil {
		return
	}
	b := s.r.section(p, s.key("slam classes"))
	given := choice.UsualSlamBounds
	for _, one := range []struct {
		key  string
		into *float64
	}{{choice.SlamNone, &given.None}, {choice.SlamMild, &given.Mild}} {
		if x, ok := b.positive(one.key, quantity.Velocity); ok {
			*one.into = x
		}
	}
	b.done()
	if given.None >= given.Mild {
		s.r.failed(s.key("slam classes"), p.key.fault("limits: the bound of slam class none is not below that of mild", "write slam classes: {none: 0.15 m/s, mild: 0.30 m/s}"))
		return
	}
	l.SlamBounds = given
}

// toSpare reads the margin that is asked for of every limit.
func (s *section) toSpare() float64 {
	x, ok := s.quantity("margin", quantity.Fraction)
	if ok && !(x >= 0 && x < 1) {
		p := s.node.get("margin")
		s.r.failed(s.key("margin"), p.value.fault(fmt.Sprintf("%s is %s", s.key("margin"), p.value.text), "give 0 % to less than 100 % of every limit"))
		return 0
	}
	return x
}

// bearing complains of a limit on the anchor force where no scenario has a straight run to judge. What else is wrong may be why, so that it is told alone.
func (r *reader) bearing(root *node, c *choice.Case) {
	if c.Limits.AnchorForce == nil || len(r.errs) > 0 || slices.ContainsFunc(c.Scenarios, func(s choice.Scenario) bool { return s.Network.Runs() > 0 }) {
		return
	}
	r.failed("limits.anchor force", root.get("limits").value.get("anchor force").key.fault("limits: anchor force, but no pipe and no branch has bends",
		"give the pipe its bends, e.g. "+someBends))
}
