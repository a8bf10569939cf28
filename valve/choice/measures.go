package choice

import "seatwise/network/quantity"

// LiquidPump is the service of a check valve behind a pump that moves a liquid.
const LiquidPump = "liquid pump discharge"

// Keys of measures that the package itself refers to.
const (
	keyOpenMargin     = "full_open_margin"
	keyHeadLoss       = "head_loss_m"
	keyReverse        = "max_reverse_velocity_m_s"
	keyLater          = "later_reverse_velocity_m_s"
	keyReverseVolume  = "reverse_volume_m3"
	keySeated         = "seated_s"
	keySlam           = "slam_pressure_rise_pa"
	keyPeak           = "peak_pressure_pa"
	keySteadyPressure = "steady_pressure_pa"
	keyMin            = "min_pressure_pa"
	keyVapour         = "vapour_margin_m"
	keyAbove          = "above_design_pressure_s"
	keyAboveYear      = "above_design_pressure_s_per_year"
	keyReverseSpeed   = "pump_max_reverse_rpm"
	keyCavity         = "cavity_max_m3"
	keyAnchor         = "max_anchor_force_n"
)

// Measures is the table of measures of a service, in order of appearance; nil for a service that is not known.
func Measures(service string) []Measure {
	if service != LiquidPump {
		return nil
	}
	return liquidPump
}

// InKey turns an SI value into the unit that the key names: rpm for a rotational speed, SI for all else.
func (m Measure) InKey(si float64) float64 {
	if m.Dimension == quantity.Rotation {
		return quantity.SI.Unit(quantity.Rotation).From(si)
	}
	return si
}

var liquidPump = []Measure{
	{"initial_flow_m3_s", "flow before the event", quantity.Flow, Neither, Main,
		func(o *Outcome) Value { return o.InitialFlow }, "at the valve with the greatest reverse velocity; of equals the first to trip"},
	{"initial_velocity_m_s", "velocity before the event", quantity.Velocity, Neither, Main,
		func(o *Outcome) Value { return o.InitialVelocity }, "on the valve's bore, as all velocities"},
	{"opening_fraction", "opening before the event", quantity.Fraction, Higher, Main,
		func(o *Outcome) Value { return o.OpeningFraction }, "of the disc over its travel, 0 on the seat, 100 % on the stop"},
	{keyOpenMargin, "full-open margin", quantity.Number, Higher, Main,
		func(o *Outcome) Value { return o.OpenMargin }, "velocity before the event over that at which the disc reaches its stop: from 1.2 good, from 1 close, below 1 the disc flutters, below 0.6 severely (common practice)"},
	{keyHeadLoss, "head loss", quantity.Length, Lower, Main,
		func(o *Outcome) Value { return o.HeadLoss }, "over the valve in steady flow, reducers included; the greatest where the candidate stands in several places"},
	{"deceleration_m_s2", "deceleration", quantity.Acceleration, Neither, Main,
		func(o *Outcome) Value { return o.Deceleration }, "fall of the velocity by least squares over the last max(50 ms, 4 L/a of the branch) before it is zero"},
	{"closing_deceleration_m_s2", "closing deceleration", quantity.Acceleration, Neither, Detail,
		func(o *Outcome) Value { return o.ClosingDeceleration }, "mean slope of the velocity from where the disc begins to close to its first seating"},
	{keyReverse, "reverse velocity", quantity.Velocity, Lower, Main,
		func(o *Outcome) Value { return o.MaxReverseVelocity }, "greatest up to the first seating"},
	{"reverse_velocity_error_m_s", "reverse velocity, numerical error", quantity.Velocity, Lower, Detail,
		func(o *Outcome) Value { return o.ReverseVelocityError }, "estimate from runs at different time steps and, where gas cavities formed, with more free gas"},
	{keyLater, "later reverse velocity", quantity.Velocity, Lower, Detail,
		func(o *Outcome) Value { return o.LaterReverseVelocity }, "greatest after the first seating"},
	{"reopenings", "reopenings", quantity.Number, Lower, Detail,
		func(o *Outcome) Value { return o.Reopenings }, "times the disc left its seat after the first seating by more than 1 % of its travel"},
	{"greatest_reopening_fraction", "greatest reopening", quantity.Fraction, Lower, Detail,
		func(o *Outcome) Value { return o.Rebound }, "greatest opening after the first seating, of the rebound or of waves that come later; below 1 % the disc only bounces"},
	{keyReverseVolume, "reverse volume", quantity.Volume, Lower, Detail,
		func(o *Outcome) Value { return o.ReverseVolume }, "liquid that passed the valve in reverse over the run"},
	{"closing_start_s", "disc starts to close", quantity.Time, Neither, Detail,
		func(o *Outcome) Value { return o.ClosingStart }, "the disc is 1 % of its travel below its steady opening"},
	{keySeated, "disc seated", quantity.Time, Neither, Main,
		func(o *Outcome) Value { return o.Seated }, "first seating"},
	{"seat_impact_speed_m_s", "seat impact speed", quantity.Velocity, Lower, Detail,
		func(o *Outcome) Value { return o.SeatImpactSpeed }, "of the fastest point of the disc at the first seating"},
	{"seat_impact_energy_j", "seat impact energy", quantity.Energy, Lower, Detail,
		func(o *Outcome) Value { return o.SeatImpactEnergy }, "kinetic energy of the disc and the liquid that moves with it at the first seating, an upper bound of what the seat takes; compare candidates, not lives"},
	{"leak_flow_m3_s", "leak flow", quantity.Flow, Lower, Detail,
		func(o *Outcome) Value { return o.LeakFlow }, "back through the shut seat at the mean pressure that holds the disc since it last came down, by its leakage class; where none is given, class A of ISO 5208 for a soft seat, G for a hard one (common practice); a disc that the pressure seats may leak more at low back pressure than in its test, which is not covered"},
	{keySlam, "slam pressure rise", quantity.PressureDifference, Lower, Main,
		func(o *Outcome) Value { return o.SlamPressureRise }, "jump at the downstream face over the first seating"},
	{keyPeak, "highest pressure", quantity.Pressure, Lower, Main,
		func(o *Outcome) Value { return o.PeakPressure }, "gauge, in the pipes downstream of the check valves' inlets over the run; the pump side is left out"},
	{"peak_error_pa", "highest pressure, numerical error", quantity.PressureDifference, Lower, Detail,
		func(o *Outcome) Value { return o.PeakError }, "estimate from runs at different time steps and, where gas cavities formed, with more free gas"},
	{"peak_time_s", "time of the highest pressure", quantity.Time, Neither, Detail,
		func(o *Outcome) Value { return o.PeakTime }, "from the start of the run"},
	{keyAbove, "time above the design pressure", quantity.Time, Lower, Seldom,
		func(o *Outcome) Value { return o.TimeAbove }, "in one event, at the worst place of the same pipes, from the event to the end of the run; where a rule goes by it"},
	{keyAboveYear, "time above the design pressure a year", quantity.Time, Lower, Detail,
		func(o *Outcome) Value { return o.TimeAboveYear }, "that time, times the events a year"},
	{keySteadyPressure, "highest steady pressure", quantity.Pressure, Lower, Detail,
		func(o *Outcome) Value { return o.SteadyPressure }, "gauge, in steady flow, in the same pipes and at the valves' upstream faces"},
	{keyMin, "lowest pressure", quantity.Pressure, Higher, Main,
		func(o *Outcome) Value { return o.MinPressure }, "gauge, in the same pipes, steady flow included; the pump side is left out"},
	{keyVapour, "vapour margin", quantity.Length, Higher, Detail,
		func(o *Outcome) Value { return o.VapourMargin }, "least head above that of vapour, in the same pipes, over the run; 0 where the liquid parts"},
	{keyCavity, "largest cavity", quantity.Volume, Lower, Seldom,
		func(o *Outcome) Value { return o.CavityMax }, "of gas and vapour, at one node of these pipes"},
	{keyAnchor, "anchor force", quantity.Force, Lower, Seldom,
		func(o *Outcome) Value { return o.AnchorForce }, "greatest push of the liquid along a straight run of pipe, between bends and ends of the pipe, less that in steady flow; the pipe is taken as rigid"},
	{"anchor_force_error_n", "anchor force, numerical error", quantity.Force, Lower, Detail,
		func(o *Outcome) Value { return o.AnchorForceError }, "estimate from runs at different time steps and, where gas cavities formed, with more free gas"},
	{"anchor_force_time_s", "time of the anchor force", quantity.Time, Neither, Detail,
		func(o *Outcome) Value { return o.AnchorForceTime }, "from the start of the run"},
	{"anchor_impulse_n_s", "anchor impulse", quantity.Impulse, Lower, Seldom,
		func(o *Outcome) Value { return o.AnchorImpulse }, "of the pulse that holds the anchor force, until that has changed its sign or fallen below a tenth"},
	{"pump_speed_ratio_at_reversal", "pump speed at flow reversal", quantity.Fraction, Neither, Main,
		func(o *Outcome) Value { return o.SpeedRatioAtReversal }, "over the initial speed, when the velocity at the tripped unit's valve is zero"},
	{keyReverseSpeed, "pump reverse speed", quantity.Rotation, Lower, Main,
		func(o *Outcome) Value { return o.MaxReverseSpeed }, "greatest of any pump"},
	{"run_out_flow_m3_s", "run-out flow", quantity.Flow, Neither, Main,
		func(o *Outcome) Value { return o.RunOutFlow }, "at the end of the run, of the most loaded unit left running"},
	{"run_out_power_w", "run-out power", quantity.Power, Lower, Main,
		func(o *Outcome) Value { return o.RunOutPower }, "at the shaft, of that unit"},
	{"price_ratio", "price ratio", quantity.Number, Lower, Main,
		func(o *Outcome) Value { return o.PriceRatio }, "price over that of a plain swing valve of the same size, common practice"},
}

// measure looks a measure up by its key.
func measure(service, key string) Measure {
	for _, m := range Measures(service) {
		if m.Key == key {
			return m
		}
	}
	panic("choice: no measure of that key")
}

// values are all figures of an outcome that a run gives.
func (o *Outcome) values() []*Value {
	return append(o.transient(), &o.InitialFlow, &o.InitialVelocity, &o.OpeningFraction, &o.OpenMargin, &o.HeadLoss, &o.SteadyPressure, &o.MinPressure, &o.VapourMargin)
}

// transient are those that need an event.
func (o *Outcome) transient() []*Value {
	return []*Value{&o.Deceleration, &o.ClosingDeceleration, &o.MaxReverseVelocity, &o.ReverseVelocityError, &o.LaterReverseVelocity, &o.Reopenings, &o.Rebound, &o.ReverseVolume, &o.LeakFlow,
		&o.ClosingStart, &o.Seated, &o.SeatImpactSpeed, &o.SeatImpactEnergy, &o.SlamPressureRise, &o.PeakPressure, &o.PeakError, &o.PeakTime, &o.CavityMax,
		&o.TimeAbove, &o.TimeAboveYear,
		&o.AnchorForce, &o.AnchorForceError, &o.AnchorForceTime, &o.AnchorImpulse, &o.SpeedRatioAtReversal, &o.MaxReverseSpeed, &o.RunOutFlow, &o.RunOutPower}
}

func exists(v Value) bool { return v.Reason == "" }

func none(reason string) Value { return Value{Reason: reason} }
