package choice

import "seatwise/network/quantity"

// LiquidPump is the service of a check valve behind a pump that moves a liquid.
const LiquidPump = "liquid pump discharge"

// Keys of measures that the package itself refers to.
const (
	keyHeadLoss       = "head_loss_m"
	keyReverse        = "max_reverse_velocity_m_s"
	keyLater          = "later_reverse_velocity_m_s"
	keyReverseVolume  = "reverse_volume_m3"
	keySeated         = "seated_s"
	keyPeak           = "peak_pressure_pa"
	keySteadyPressure = "steady_pressure_pa"
	keyMin            = "min_pressure_pa"
	keyReverseSpeed   = "pump_max_reverse_rpm"
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
		func(o *Outcome) Value { return o.InitialFlow }, "Steady flow through the watched valve."},
	{"initial_velocity_m_s", "velocity before the event", quantity.Velocity, Neither, Main,
		func(o *Outcome) Value { return o.InitialVelocity }, "Steady velocity on the bore of the watched valve."},
	{"opening_fraction", "opening before the event", quantity.Fraction, Higher, Main,
		func(o *Outcome) Value { return o.OpeningFraction }, "Steady position of the disc as a fraction of its travel: 0 on the seat, 1 on the stop."},
	{keyHeadLoss, "head loss", quantity.Length, Lower, Main,
		func(o *Outcome) Value { return o.HeadLoss }, "Steady head loss over the watched valve, reducers included."},
	{"deceleration_m_s2", "deceleration", quantity.Acceleration, Neither, Main,
		func(o *Outcome) Value { return o.Deceleration }, "Least-squares slope of the velocity over the last max(50 ms, 4 L/a of the branch) before zero velocity."},
	{keyReverse, "reverse velocity", quantity.Velocity, Lower, Main,
		func(o *Outcome) Value { return o.MaxReverseVelocity }, "Greatest reverse velocity on the valve's bore up to the first seating."},
	{"reverse_velocity_error_m_s", "reverse velocity, numerical error", quantity.Velocity, Lower, Detail,
		func(o *Outcome) Value { return o.ReverseVelocityError }, "Estimate from runs at different time steps."},
	{keyLater, "later reverse velocity", quantity.Velocity, Lower, Detail,
		func(o *Outcome) Value { return o.LaterReverseVelocity }, "Greatest reverse velocity after the first seating."},
	{"reopenings", "reopenings", quantity.Number, Lower, Detail,
		func(o *Outcome) Value { return o.Reopenings }, "Times the disc left its seat after the first seating by more than 1 % of its travel."},
	{keyReverseVolume, "reverse volume", quantity.Volume, Lower, Detail,
		func(o *Outcome) Value { return o.ReverseVolume }, "Liquid that passed the watched valve in reverse over the run."},
	{"closing_start_s", "disc starts to close", quantity.Time, Neither, Detail,
		func(o *Outcome) Value { return o.ClosingStart }, "Time at which the disc is 1 % of its travel below its steady opening."},
	{keySeated, "disc seated", quantity.Time, Neither, Main,
		func(o *Outcome) Value { return o.Seated }, "Time of the first seating, from the start of the run."},
	{"seat_impact_speed_m_s", "seat impact speed", quantity.Velocity, Lower, Detail,
		func(o *Outcome) Value { return o.SeatImpactSpeed }, "Speed of the fastest point of the disc at the first seating."},
	{"slam_pressure_rise_pa", "slam pressure rise", quantity.PressureDifference, Lower, Main,
		func(o *Outcome) Value { return o.SlamPressureRise }, "Pressure jump at the downstream face at the first seating."},
	{keyPeak, "highest pressure", quantity.Pressure, Lower, Main,
		func(o *Outcome) Value { return o.PeakPressure }, "Highest gauge pressure at any node of any pipe over the run."},
	{"peak_error_pa", "highest pressure, numerical error", quantity.PressureDifference, Lower, Detail,
		func(o *Outcome) Value { return o.PeakError }, "Estimate from runs at different time steps."},
	{"peak_time_s", "time of the highest pressure", quantity.Time, Neither, Detail,
		func(o *Outcome) Value { return o.PeakTime }, "From the start of the run."},
	{keySteadyPressure, "highest steady pressure", quantity.Pressure, Lower, Detail,
		func(o *Outcome) Value { return o.SteadyPressure }, "Highest gauge pressure at any node of any pipe in steady flow."},
	{keyMin, "lowest pressure", quantity.Pressure, Higher, Main,
		func(o *Outcome) Value { return o.MinPressure }, "Lowest gauge pressure at any node of any pipe over the run, steady flow included."},
	{"cavity_max_m3", "largest cavity", quantity.Volume, Lower, Detail,
		func(o *Outcome) Value { return o.CavityMax }, "Largest volume of gas and vapour at a node of a pipe."},
	{"pump_speed_ratio_at_reversal", "pump speed at flow reversal", quantity.Fraction, Neither, Main,
		func(o *Outcome) Value { return o.SpeedRatioAtReversal }, "Speed of the tripped pump over its initial speed when the velocity at its valve is zero."},
	{keyReverseSpeed, "pump reverse speed", quantity.Rotation, Lower, Main,
		func(o *Outcome) Value { return o.MaxReverseSpeed }, "Greatest reverse speed of any pump."},
	{"run_out_flow_m3_s", "run-out flow", quantity.Flow, Neither, Main,
		func(o *Outcome) Value { return o.RunOutFlow }, "Flow at the end of the run of the most loaded unit left running."},
	{"run_out_power_w", "run-out power", quantity.Power, Lower, Main,
		func(o *Outcome) Value { return o.RunOutPower }, "Shaft power at the end of the run of the most loaded unit left running."},
	{"price_ratio", "price ratio", quantity.Number, Lower, Main,
		func(o *Outcome) Value { return o.PriceRatio }, "Price over that of a plain swing valve of the same size, common practice, ±40 %."},
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
	return append(o.transient(), &o.InitialFlow, &o.InitialVelocity, &o.OpeningFraction, &o.HeadLoss, &o.SteadyPressure, &o.MinPressure)
}

// transient are those that need an event.
func (o *Outcome) transient() []*Value {
	return []*Value{&o.Deceleration, &o.MaxReverseVelocity, &o.ReverseVelocityError, &o.LaterReverseVelocity, &o.Reopenings, &o.ReverseVolume,
		&o.ClosingStart, &o.Seated, &o.SeatImpactSpeed, &o.SlamPressureRise, &o.PeakPressure, &o.PeakError, &o.PeakTime, &o.CavityMax,
		&o.SpeedRatioAtReversal, &o.MaxReverseSpeed, &o.RunOutFlow, &o.RunOutPower}
}

func exists(v Value) bool { return v.Reason == "" }

func none(reason string) Value { return Value{Reason: reason} }
