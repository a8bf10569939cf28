package export

import "seatwise/valve/choice"

// stayingOpen puts how the candidates stay open in the duty of the case and what they wear; nothing where that was not asked.
func stayingOpen(s *object, c *choice.Comparison) {
	if len(c.Staying) == 0 {
		return
	}
	o := &object{}
	if d := caseOf(c).Duty; d != nil {
		given := func(key string, x *float64) {
			if x == nil {
				o.null(key, "not given")
				return
			}
			o.number(key, *x, "")
		}
		given("flow_fluctuation_fraction", d.Fluctuation)
		given("fluctuation_frequency_hz", d.Frequency)
	}
	all := []*object{}
	for i := range c.Staying {
		all = append(all, held(&c.Staying[i]))
	}
	o.put("candidates", all)
	s.put("staying_open", o.closed())
}

// held is how one candidate stays open.
func held(k *choice.StayingOpen) *object {
	o := &object{}
	value := func(to *object, key string, v choice.Value) { to.number(key, v.SI, v.Reason) }
	o.put("name", k.Candidate)
	o.text("watched", k.Watched, "no result")
	value(o, "full_open_velocity_m_s", k.FullOpenVelocity)
	value(o, "least_velocity_m_s", k.LeastVelocity)
	value(o, "highest_velocity_from_m_s", k.HighestFrom)
	value(o, "highest_velocity_to_m_s", k.HighestTo)
	o.text("upstream_fitting", k.Upstream, "not given")
	value(o, "upstream_distance_m", k.Distance)
	value(o, "upstream_distance_bores", k.Bores)
	value(o, "needed_margin", k.NeededMargin)
	flows := []*object{}
	for i := range k.Flows {
		h, f := &k.Flows[i], &object{}
		f.put("at", h.Name)
		value(f, "flow_m3_s", h.Flow)
		value(f, "velocity_m_s", h.Velocity)
		value(f, "full_open_margin", h.Margin)
		f.text("hold", h.Class, h.Margin.Reason)
		value(f, "opening_fraction", h.Opening)
		value(f, "head_loss_m", h.HeadLoss)
		f.text("in_fluctuation", h.Ripple, h.Amplitude.Reason)
		value(f, "opening_amplitude_fraction", h.Amplitude)
		value(f, "natural_frequency_hz", h.Frequency)
		value(f, "damping_fraction", h.Damping)
		value(f, "frequency_ratio", h.Ratio)
		value(f, "amplitude_response", h.Response)
		flows = append(flows, f.closed())
	}
	o.put("flows", flows)
	value(o, "full_strokes_per_year", k.Strokes)
	turn, lift := k.Travel, choice.Value{Reason: "the disc swings on a hinge"}
	if !k.Hinged {
		turn, lift = choice.Value{Reason: "the disc has no hinge"}, k.Travel
	}
	value(o, "hinge_travel_rad_per_year", turn)
	value(o, "guide_travel_m_per_year", lift)
	value(o, "stop_taps_per_year", k.StopTaps)
	value(o, "stop_tap_energy_j_per_year", k.StopTapEnergy)
	value(o, "closures_per_year", k.Closures)
	value(o, "seat_impact_energy_j_per_year", k.ClosuresEnergy)
	return o.closed()
}
