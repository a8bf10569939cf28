package choice

import (
	"fmt"
	"math"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/quantity"
)

// extremes are the highest and lowest gauge pressures over all nodes of all pipes.
type extremes struct {
	steady, peak, least           float64 // Pa
	steadyAtPeak, steadyAtLeast   float64 // Pa, at the nodes of peak and least
	steadySpot, peakSpot, lowSpot Spot
	cavity                        float64 // m3, largest
	cavitySpot                    Spot
	cavities                      bool // the gas-cavity kernel ran somewhere
}

func (p *places) extremes(pipes []moc.PipeTrace, gamma float64) extremes {
	e := extremes{steady: math.Inf(-1), peak: math.Inf(-1), least: math.Inf(1)}
	for i := range pipes {
		t := &pipes[i]
		for k, z := range t.Elevation {
			spot := func(time float64) Spot { return Spot{p.at(t, k), time} }
			if x := gamma * (t.Steady[k] - z); x > e.steady {
				e.steady, e.steadySpot = x, spot(-1)
			}
			if x := gamma * (t.Max[k] - z); x > e.peak {
				e.peak, e.peakSpot, e.steadyAtPeak = x, spot(t.MaxTime[k]), gamma*(t.Steady[k]-z)
			}
			if x := gamma * (t.Min[k] - z); x < e.least {
				e.least, e.lowSpot, e.steadyAtLeast = x, spot(t.MinTime[k]), gamma*(t.Steady[k]-z)
			}
			if t.MaxCavity != nil {
				e.cavities = true
				if x := t.MaxCavity[k]; x > e.cavity {
					e.cavity, e.cavitySpot = x, spot(-1)
				}
			}
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

// still is the change of pressure, Pa, below which an extreme is the steady pressure: a millimetre of water.
const still = 10.0

// places turns nodes of the model into words.
type places struct {
	s     Settings
	nodes map[string]string // words of the nodes inside units
	pipes map[string]string // words of the pipes inside units
}

// newPlaces lists the words for the insides of all units; those of the watched one go without its name.
func newPlaces(n *network.Network, watched *moc.UnitTrace, s Settings) *places {
	p := &places{s, map[string]string{}, map[string]string{}}
	for _, st := range n.Stations {
		for u := 1; u <= st.Units; u++ {
			of := " of " + called(st.Name, u)
			if st.Name == watched.Station && u == watched.Unit {
				of = ""
			}
			part := func(x string) string { return fmt.Sprintf("%s-%d-%s", st.Name, u, x) }
			p.nodes[part("outlet")] = "valve outlet" + of
			p.pipes[part("branch")] = "branch of " + called(st.Name, u)
		}
	}
	return p
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
