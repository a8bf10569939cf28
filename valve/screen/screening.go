package screen

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/valve"
	"seatwise/valve/choice"
)

// Screening is how demanding a case is and what that asks of a check valve.
type Screening struct {
	Case      *choice.Case
	Size      float64  // of the valves, m
	Scenarios []Demand // in the order of the case
	Worst     *Reversal
	At        string // scenario of the worst
	Need      Need
	Reaches   float64  // where the need is set by the pressure: the highest at the valve after the trip without any slam, Pa gauge
	Families  []Family // best first
}

// Demand is one scenario.
type Demand struct {
	Scenario  string
	Reversals []Reversal
	None      string // not empty: why there is no estimate
	Warnings  []string

	least float64 // velocity in the valves of the running units, m/s
	stops []stop  // what a valve that closes there stops, as Reversals
}

// stop is the pipe that a closing valve stops.
type stop struct {
	rise float64 // pressure rise per reverse velocity, rho a A/A_pipe, Pa s/m
	high float64 // pressure at the elevation of the valve by the highest head of the header, Pa gauge
	room float64 // from there to the greatest allowed, Pa; +Inf: no limit
}

// Need is the greatest reverse velocity that the case allows.
type Need struct {
	Velocity float64 // m/s
	Because  Because
}

// beyond tells whether no valve alone meets the limit on the pressure.
func (n Need) beyond() bool { return n.Because == ByPressure && n.Velocity == 0 }

// Because is what sets the need.
type Because uint8

// What sets the need.
const (
	ByLimit    Because = iota // the limits on reverse velocity and slam
	ByPressure                // the limit on the pressure
	ByRotation                // the pump must not turn backwards
	ByBackflow                // backflow is harmful, and no limit is given
	BySlam                    // backflow is harmless, and no limit is given
)

// ErrNothing is a case in which nothing trips that could be screened.
var ErrNothing = errors.New("nothing to screen: no running unit with a candidate trips in any scenario")

// Screen estimates every scenario and holds every family of the catalogue against the worst. The error is that of a case that cannot be solved, or in
// which no unit with a candidate trips.
func Screen(ctx context.Context, c *choice.Case, s choice.Settings) (*Screening, error) {
	out, err := survey(ctx, c, s)
	if err != nil {
		return nil, err
	}
	if err := out.families(ctx); err != nil {
		return nil, err
	}
	return out, nil
}

// survey finds the worst deceleration and the need.
func survey(ctx context.Context, c *choice.Case, s choice.Settings) (*Screening, error) {
	out := &Screening{Case: c}
	for i := range c.Scenarios {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		d, size, err := demand(c, &c.Scenarios[i], s)
		if err != nil {
			return nil, fmt.Errorf("scenario %s: %w", c.Scenarios[i].Name, err)
		}
		out.Size = size
		out.Scenarios = append(out.Scenarios, *d)
	}
	for i := range out.Scenarios {
		d := &out.Scenarios[i]
		for k := range d.Reversals {
			if r := &d.Reversals[k]; out.Worst == nil || r.Bound > out.Worst.Bound {
				out.Worst, out.At = r, d.Scenario
			}
		}
	}
	if out.Worst == nil {
		for _, d := range out.Scenarios {
			if d.None != nothingTrips {
				return nil, fmt.Errorf("there is no estimate: %s: %s; run seatwise compare", d.Scenario, d.None)
			}
		}
		return nil, ErrNothing
	}
	out.need()
	return out, nil
}

const nothingTrips = "no running unit with a candidate trips"

// demand estimates a scenario.
func demand(c *choice.Case, sc *choice.Scenario, s choice.Settings) (*Demand, float64, error) {
	spec := choice.HeldOpen(c, sc)
	d := &Demand{Scenario: sc.Name, least: math.Inf(1)}
	in, err := choice.Install(c, sc, spec)
	if err != nil {
		return nil, 0, err
	}
	if in.Unfit != nil {
		return nil, 0, in.Unfit
	}
	st, err := moc.SteadyState(in.Problem)
	if err != nil {
		return nil, 0, s.Said(err)
	}
	d.Warnings = choice.SteadyWarnings(in.Problem, st, s)
	all, err := Estimate(in.Problem, st)
	if err != nil {
		d.None = err.Error()
	}
	n := sc.Network
	for i := range n.Stations {
		station := &n.Stations[i]
		if !in.Mine[i] {
			continue
		}
		for k := range st.Units {
			if u := &st.Units[k]; u.Station == station.Name && !u.Shut {
				d.least = math.Min(d.least, u.Velocity)
			}
		}
		for k := range all {
			if all[k].Station == station.Name {
				d.Reversals = append(d.Reversals, all[k])
				d.stops = append(d.stops, stopped(c, n, station, &all[k]))
			}
		}
	}
	if d.None == "" && len(d.Reversals) == 0 {
		d.None = nothingTrips
	}
	return d, spec.Size, nil
}

// stopped is what the valves of a station stop: the branch, or without one the pipes of the header together.
func stopped(c *choice.Case, n *network.Network, s *network.Station, r *Reversal) stop {
	weight := n.Fluid.Density * n.G()
	out := stop{high: weight * (r.Highest - s.Elevation), room: math.Inf(1)}
	if s.Branch != nil {
		out.rise = n.Fluid.Density * s.Branch.WaveSpeed * area(r.Bore) / area(s.Branch.Bore)
	} else {
		admit := 0.0
		for i := range n.Pipes {
			if p := &n.Pipes[i]; p.From == s.To || p.To == s.To {
				admit += n.G() * area(p.Bore) / p.WaveSpeed
			}
		}
		if admit > 0 {
			out.rise = weight * area(r.Bore) * float64(r.Units) / admit
		}
	}
	if p := c.Limits.Peak(); p != nil {
		out.room = *p - out.high
	}
	return out
}

// need is set by the strictest of what limits and service ask. What the pressure leaves for the slam is counted from the highest head of the header, though the
// slam may come before that: on the safe side.
func (s *Screening) need() {
	c := s.Case
	slam := c.Limits.SlamSteps()
	s.Need = Need{slam.None, ByBackflow}
	if c.Service.Harmless {
		s.Need = Need{slam.Mild, BySlam}
	}
	if v := c.Limits.Reverse(); v != nil {
		s.Need = Need{*v, ByLimit}
	}
	if c.Service.NoRotation && s.Need.Velocity > slam.None {
		s.Need = Need{slam.None, ByRotation}
	}
	for _, d := range s.Scenarios {
		for _, x := range d.stops {
			v := math.Inf(1)
			switch {
			case x.room <= 0:
				v = 0
			case x.rise > 0:
				v = x.room / x.rise
			}
			if v < s.Need.Velocity || v == 0 && x.high > s.Reaches {
				s.Need, s.Reaches = Need{v, ByPressure}, x.high
			}
		}
	}
}

// rise is the greatest Joukowsky pressure rise of a reverse velocity, Pa.
func (s *Screening) rise(v float64) float64 {
	greatest := 0.0
	for _, d := range s.Scenarios {
		for _, x := range d.stops {
			greatest = math.Max(greatest, x.rise*v)
		}
	}
	return greatest
}

// least is the least velocity in the valves of running units, m/s.
func (s *Screening) least() float64 {
	v := math.Inf(1)
	for _, d := range s.Scenarios {
		v = math.Min(v, d.least)
	}
	return v
}

// given tells whether a candidate has data of its own.
func given(spec valve.Spec) bool {
	return len(spec.Set) > 0 || len(spec.Tables) > 0 || len(spec.Tests) > 0
}

// own are the candidates of the case that are no plain generic valves.
func (s *Screening) own() []valve.Spec {
	return slices.DeleteFunc(slices.Clone(s.Case.Candidates), func(spec valve.Spec) bool { return !given(spec) || spec.Failure != valve.Sound || spec.Type == "ideal" })
}
