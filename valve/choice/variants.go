package choice

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve"
)

// variant is a single step away from a case with one candidate. Its change gives a case of its own and leaves the given one as it is; the error says in words
// why there is no such step.
type variant struct {
	name   string
	change func(*Case, Settings) (*Case, string, error) // the case, and in words what was changed
}

// variants are the steps that are tried, in order.
var variants = []variant{
	{"stronger spring", strongerSpring},
	{"next size down", func(c *Case, _ Settings) (*Case, string, error) { return nextSize(c, -1) }},
	{"next size up", func(c *Case, _ Settings) (*Case, string, error) { return nextSize(c, 1) }},
	{"more pump inertia", moreInertia},
	{"bypass check valve", bypass},
	{"small air vessel", airVessel},
	{idealValve, ideally},
}

const (
	idealValve   = "ideal valve"
	springFactor = 1.5
	moreTurning  = 2   // factor on the inertia of pump and motor
	vesselTime   = 2.0 // s of the flow of the station that the gas of a small air vessel takes up
	vesselGas    = 0.5 // part of it that is gas
	vesselBore   = 0.5 // of its connection over that of the widest pipe there
)

// nominalSizes are the sizes of valves that are on the market, mm (common practice).
var nominalSizes = []float64{50, 65, 80, 100, 125, 150, 200, 250, 300, 350, 400, 450, 500, 600, 700, 800, 900}

// only is the case with one candidate, without economics.
func only(c *Case, candidate string) *Case {
	out := *c
	out.Economics = nil
	out.Candidates = slices.DeleteFunc(slices.Clone(c.Candidates), func(s valve.Spec) bool { return s.Name != candidate })
	return &out
}

// withValve is the case with another candidate in place of its only one.
func withValve(c *Case, spec valve.Spec) *Case {
	out := *c
	out.Candidates = []valve.Spec{spec}
	return &out
}

// withNetworks is the case with each installation changed. Change is given a copy, whose lists may be written to; what they point to is not.
func withNetworks(c *Case, change func(*network.Network, []network.Event) error) (*Case, error) {
	out := *c
	out.Scenarios = slices.Clone(c.Scenarios)
	for i := range out.Scenarios {
		n := *out.Scenarios[i].Network
		n.Stations, n.CheckValves, n.Devices = slices.Clone(n.Stations), slices.Clone(n.CheckValves), slices.Clone(n.Devices)
		if err := change(&n, out.Scenarios[i].Events); err != nil {
			return nil, err
		}
		out.Scenarios[i].Network = &n
	}
	return &out, nil
}

// tripping are the stations of which units trip in any scenario, by name.
func tripping(c *Case) map[string]bool {
	out := map[string]bool{}
	for _, s := range c.Scenarios {
		for _, e := range s.Events {
			if e.Kind == network.Trip {
				out[e.Target] = true
			}
		}
	}
	return out
}

var errNoTrip = errors.New("no pump trips")

// strongerSpring has preload and rate of the candidate's spring greater by half; the liquid's load on the disc stays.
func strongerSpring(c *Case, _ Settings) (*Case, string, error) {
	spec := c.Candidates[0]
	spec.Spring = springFactor
	out := withValve(c, spec)
	for i := range out.Scenarios {
		switch in, err := Install(out, &out.Scenarios[i], spec); {
		case errors.Is(err, valve.ErrNoPart) || err == nil && errors.Is(in.Unfit, valve.ErrNoPart):
			return nil, "", errors.New("the valve has no spring")
		case err != nil:
			return nil, "", err
		}
	}
	return out, fmt.Sprintf("preload and rate times %g", springFactor), nil
}

// nextSize has the next nominal size, less or greater, between the same pipes. Data that were given for the candidate are those of its own size.
func nextSize(c *Case, step int) (*Case, string, error) {
	spec := c.Candidates[0]
	if len(spec.Set) > 0 || len(spec.Tables) > 0 || len(spec.Tests) > 0 {
		return nil, "", errors.New("data are given for the candidate that hold for its own size")
	}
	next := 0.0
	for _, dn := range nominalSizes {
		size := dn / 1000
		if step > 0 && size > spec.Size*(1+same) && next == 0 || step < 0 && size < spec.Size*(1-same) {
			next = size
		}
	}
	if next == 0 {
		return nil, "", errors.New("the catalogue has no such size")
	}
	was := spec.Size
	spec.Size = next
	return withValve(c, spec), fmt.Sprintf("DN%.0f in place of DN%.0f", 1000*next, 1000*was), nil
}

// moreInertia has pumps that trip with twice the moment of inertia, as by a flywheel.
func moreInertia(c *Case, s Settings) (*Case, string, error) {
	trips := tripping(c)
	if len(trips) == 0 {
		return nil, "", errNoTrip
	}
	to := 0.0
	out, err := withNetworks(c, func(n *network.Network, _ []network.Event) error {
		for i := range n.Stations {
			st := &n.Stations[i]
			if !trips[st.Name] {
				continue
			}
			inertia, err := n.Inertia(st)
			if err != nil {
				return err
			}
			st.Pump.Inertia = moreTurning * inertia
			to = math.Max(to, st.Pump.Inertia)
		}
		return nil
	})
	return out, fmt.Sprintf("pump and motor times %d, %s", moreTurning, s.write(to, quantity.Inertia)), err
}

// bypassName is the name of the valve in a bypass that is tried; no name of a case has a space.
const bypassName = "bypass tried"

// bypass has a plain swing disc of the candidate's size from the suction of each station that trips to where it delivers.
func bypass(c *Case, _ Settings) (*Case, string, error) {
	trips := tripping(c)
	if len(trips) == 0 {
		return nil, "", errNoTrip
	}
	out, err := withNetworks(c, func(n *network.Network, _ []network.Event) error {
		for i := range n.Stations {
			st := &n.Stations[i]
			if !trips[st.Name] {
				continue
			}
			if slices.ContainsFunc(n.CheckValves, func(v network.CheckValve) bool { return v.From == st.From && v.To == st.To }) {
				return errors.New("there is one around the station already")
			}
			n.CheckValves = append(n.CheckValves, network.CheckValve{Name: "bypass of " + st.Name, From: st.From, To: st.To, Elevation: st.Elevation, CheckValve: bypassName})
		}
		return nil
	})
	if err != nil {
		return nil, "", err
	}
	size := c.Candidates[0].Size
	out.Valves = map[string]valve.Spec{bypassName: {Name: bypassName, Type: "swing", Size: size}}
	for name, spec := range c.Valves {
		out.Valves[name] = spec
	}
	return out, fmt.Sprintf("swing DN%.0f around the station", 1000*size), nil
}

// airVessel has a small air vessel where each station that trips delivers. Its gas is what the rated flow of the running units brings in a set time, the vessel
// holds twice that, at the level of the valves, behind a connection of half the bore of the widest pipe there.
func airVessel(c *Case, s Settings) (*Case, string, error) {
	trips := tripping(c)
	if len(trips) == 0 {
		return nil, "", errNoTrip
	}
	whole := 0.0
	out, err := withNetworks(c, func(n *network.Network, _ []network.Event) error {
		done := map[string]bool{}
		for _, st := range n.Stations {
			if !trips[st.Name] || done[st.To] {
				continue
			}
			done[st.To] = true
			if slices.ContainsFunc(n.Devices, func(d network.Device) bool {
				v, ok := d.(*network.AirVessel)
				return ok && v.Node == st.To
			}) {
				return fmt.Errorf("there is an air vessel at %s already", st.To)
			}
			bore := 0.0
			for _, p := range n.Pipes {
				if p.From == st.To || p.To == st.To {
					bore = math.Max(bore, p.Bore)
				}
			}
			if bore == 0 {
				return fmt.Errorf("no pipe begins at %s", st.To)
			}
			gas := vesselTime * st.Pump.Flow * float64(st.Units-st.Stopped)
			v := &network.AirVessel{Name: "vessel at " + st.To, Node: st.To, Level: st.Elevation, Volume: gas / vesselGas, Gas: gas,
				Polytropic: 1.2, Bore: vesselBore * bore, LossIn: 1, LossOut: 0.5}
			n.Devices = append(n.Devices, v)
			whole = math.Max(whole, v.Volume)
		}
		return nil
	})
	return out, fmt.Sprintf("%s, half of it gas: %g s of the rated flow", s.write(whole, quantity.Volume), vesselTime), err
}

// ideally has a valve of the candidate's size and loss that closes at zero velocity: no valve does better.
func ideally(c *Case, _ Settings) (*Case, string, error) {
	spec := c.Candidates[0]
	in, err := Install(c, &c.Scenarios[0], spec)
	if err != nil {
		return nil, "", err
	}
	v := in.Valve()
	return withValve(c, valve.Spec{Name: spec.Name, Type: "ideal", Size: spec.Size, Set: map[string]float64{"closes at": 0, "bore": v.Bore, "loss when open": v.LossOpen}}),
		"closes at zero velocity", nil
}
