package moc

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seatwise/network"
)

// What friction that remembers, a creeping wall and gas cavities cost: the time of a step over that of the plain one (quasi-steady friction, elastic wall,
// liquid), all forms in turns of some steps, so that what else the machine does falls on all alike. The station is the built-in example in steady flow, the
// pipe a thousand nodes between two reservoirs.
func BenchmarkCost(b *testing.B) {
	for _, c := range []struct {
		name string
		make func() Problem
	}{
		{"lift-station", func() Problem {
			p := tripOne(b, liftStation(b, 2), "swing", 1e4)
			p.Events = nil
			return p
		}},
		{"pipe", func() Problem {
			return Problem{Until: 1e4, Network: &network.Network{Fluid: testFluid(), Atmosphere: 101325,
				Reservoirs: []network.Reservoir{{Name: "up", Level: 60}, {Name: "down", Level: 40}},
				Pipes:      []network.Pipe{flatPipe("line", "up", "down", 999, 0.3, 1000, 0.02)}}}
		}},
	} {
		b.Run("case="+c.name, func(b *testing.B) { cost(b, c.make) })
	}
}

func cost(b *testing.B, problem func() Problem) {
	const turn = 100 // steps
	forms := []struct {
		name     string
		friction Friction
		elements int
		gas      bool
		run      *run
		spent    time.Duration
	}{
		{name: "plain"},
		{name: "weighted", friction: Weighted},
		{name: "accelerated", friction: Accelerated},
		{name: "creep1", elements: 1},
		{name: "creep3", elements: 3},
		{name: "creep5", elements: 5},
		{name: "weighted+creep3", friction: Weighted, elements: 3},
		{name: "gas", gas: true},
		{name: "gas+creep3", gas: true, elements: 3},
		{name: "gas+weighted+creep3", friction: Weighted, gas: true, elements: 3},
	}
	for i := range forms {
		f := &forms[i]
		p := problem()
		for k := range p.Network.Pipes {
			c := &p.Network.Pipes[k].Creep
			c.Stretch = 10
			for j := range f.elements {
				c.Elements = append(c.Elements, network.CreepElement{Compliance: 1e-11, Time: 0.05 * float64(int(1)<<(2*j))})
			}
		}
		f.run = started(b, p, Settings{Friction: f.friction, ReachesInLongest: 999})
		if f.gas {
			for _, l := range f.run.lines {
				l.Low = true
			}
			f.run.cavitate()
		}
		for range turn {
			require.NoError(b, f.run.advance())
		}
	}
	for b.Loop() {
		for i := range forms {
			f := &forms[i]
			begin := time.Now()
			for range turn {
				if err := f.run.advance(); err != nil {
					b.Fatal(err)
				}
			}
			f.spent += time.Since(begin)
		}
	}
	for i := range forms[1:] {
		f := &forms[i+1]
		b.ReportMetric(float64(f.spent)/float64(forms[0].spent), f.name+"/plain")
	}
	b.ReportMetric(float64(forms[0].spent.Nanoseconds())/float64(b.N*turn), "plain-ns/step")
}
