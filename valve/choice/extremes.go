package choice

import (
	"fmt"
	"math"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/quantity"
)

// extremes are the highest and lowest gauge pressures over all nodes of all pipes, and the summits and sags between them.
type extremes struct {
	steady, peak, least           float64 // Pa
	steadyAtPeak, steadyAtLeast   float64 // Pa, at the nodes of peak and least
	steadySpot, peakSpot, lowSpot Spot
	cavities                      bool    // one formed somewhere
	cavity                        float64 // m3, largest
	cavitySpot                    Spot
	share                         float64 // largest of a cavity in the volume of its reach
	shareOf, shareReach           float64 // m3, that cavity and that reach
	shareSpot                     Spot
	atVapour                      bool // one formed where the pressure is least
}

// tenfold is the part of the atmosphere above vapour pressure below which free gas has grown to more than ten times its volume: a cavity has formed.
const tenfold = 0.1

// extremes looks at all nodes. The steady pressure is also that at the upstream face of the units' valves.
func (p *places) extremes(n *network.Network, pipes []moc.PipeTrace, units []moc.UnitTrace) extremes {
	gamma := n.Fluid.Density * n.G()
	thin := n.Fluid.VapourPressure - (1-tenfold)*n.Atmosphere // Pa gauge
	e := extremes{steady: math.Inf(-1), peak: math.Inf(-1), least: math.Inf(1)}
	low := 0.0 // m3, cavity where the pressure is lowest
	for i := range pipes {
		t := &pipes[i]
		for k, top := range t.Top {
			bottom := t.Bottom[k]
			spot := func(time float64) Spot { return Spot{p.at(t, k), time} }
			if x := gamma * (t.Steady[k] - bottom); x > e.steady {
				e.steady, e.steadySpot = x, spot(-1)
			}
			if x := gamma * (t.Max[k] - bottom); x > e.peak {
				e.peak, e.peakSpot, e.steadyAtPeak = x, spot(t.MaxTime[k]), gamma*(t.Steady[k]-bottom)
			}
			if x := gamma * (t.Min[k] - top); x < e.least-alike || x < e.least+alike && held(t, k) > low {
				e.least, e.lowSpot, e.steadyAtLeast = min(x, e.least), spot(t.MinTime[k]), gamma*(t.Steady[k]-top)
				e.atVapour, low = parted(t, k) && x < thin, held(t, k)
			}
			if parted(t, k) && gamma*(t.Min[k]-top) < thin {
				e.cavities = true
				x, reach := t.MaxCavity[k], area(t.Bore)*t.Step
				if x > e.cavity {
					e.cavity, e.cavitySpot = x, spot(t.MaxCavityTime[k])
				}
				if x/reach > e.share {
					e.share, e.shareOf, e.shareReach, e.shareSpot = x/reach, x, reach, spot(t.MaxCavityTime[k])
				}
			}
		}
	}
	for i := range units {
		u := &units[i]
		if x := gamma * (u.HeadUp[0] - elevation(n, u.Station)); x > e.steady {
			e.steady, e.steadySpot = x, Spot{p.inlet(u), -1}
		}
	}
	if e.peak-e.steadyAtPeak < still {
		e.peakSpot.Time = -1
	}
	if e.steadyAtLeast-e.least < still {
		e.lowSpot.Time = -1
	}
	return e
}

// alike is the difference of pressure, Pa, below which two nodes are equally low: with vapour cavities all that part are. The one with the largest cavity
// is then told.
const alike = 1e-3

// held is the largest cavity at a node of a pipe, m3.
func held(t *moc.PipeTrace, k int) float64 {
	if t.MaxCavity == nil {
		return 0
	}
	return t.MaxCavity[k]
}

// parted tells whether a node of a pipe had room for a cavity: of vapour, more than the rounding of a volume.
func parted(t *moc.PipeTrace, k int) bool {
	return held(t, k) > 1e-9*area(t.Bore)*t.Step
}

// still is the change of pressure, Pa, below which an extreme is the steady pressure: a millimetre of water.
const still = 10.0

// places turns nodes of the model into words.
type places struct {
	s      Settings
	nodes  map[string]string // words of the nodes inside units
	pipes  map[string]string // words of the pipes inside units
	itself *moc.UnitTrace    // the watched one where there is no doubt about its place; nil: there is
}

// newPlaces lists the words for the insides of all units; those of itself, which may be nil, go without its name.
func newPlaces(n *network.Network, itself *moc.UnitTrace, s Settings) *places {
	p := &places{s, map[string]string{}, map[string]string{}, itself}
	for _, st := range n.Stations {
		for u := 1; u <= st.Units; u++ {
			of := " of " + called(st.Name, u)
			if p.is(st.Name, u) {
				of = ""
			}
			p.nodes[moc.Part(st.Name, u, "outlet")] = "valve outlet" + of
			p.pipes[moc.Part(st.Name, u, "branch")] = "branch" + of
		}
	}
	return p
}

// is tells whether a unit is the one whose insides go without its name.
func (p *places) is(station string, unit int) bool {
	return p.itself != nil && p.itself.Station == station && p.itself.Unit == unit
}

// inlet is the upstream face of a unit's valve.
func (p *places) inlet(u *moc.UnitTrace) string {
	switch {
	case p.is(u.Station, u.Unit):
		return "valve inlet"
	case len(u.Speed) == 0:
		return "inlet of " + u.Station
	}
	return "valve inlet of " + called(u.Station, u.Unit)
}

// called names a unit in words.
func called(station string, unit int) string { return fmt.Sprintf("%s, unit %d", station, unit) }

// at is the place of node k of a pipe: the name of the node at its ends, else the pipe and the chainage.
func (p *places) at(t *moc.PipeTrace, k int) string {
	node := ""
	switch k {
	case 0:
		node = t.From
	case len(t.Chainage) - 1:
		node = t.To
	default:
		pipe := t.Name
		if words, ok := p.pipes[pipe]; ok {
			pipe = words
		}
		return pipe + " at " + p.s.write(t.Chainage[k], quantity.Length)
	}
	if words, ok := p.nodes[node]; ok {
		return words
	}
	return node
}

func speed(v float64, s Settings) string   { return s.write(v, quantity.Velocity) }
func seconds(t float64, s Settings) string { return s.write(t, quantity.Time) }
