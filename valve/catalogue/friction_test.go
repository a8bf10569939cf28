package catalogue

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
)

// A full-open velocity given with friction is the one at which the disc reaches its stop as the flow rises; without one the friction raises it
// and leaves load and spring as they are.
func TestFrictionAndFullOpenVelocity(t *testing.T) {
	for _, f := range Families() {
		key := ""
		for _, k := range f.Keys {
			if strings.HasSuffix(k.Name, " friction") {
				key = k.Name
			}
		}
		if key == "" {
			continue
		}
		for _, slope := range []float64{0, 0.3} {
			free, _ := complete1(t, f.Name, 0.3, set{key: 0}, tilted(slope))
			share := 0.2 * openForce(free)
			rubbing, _ := complete1(t, f.Name, 0.3, set{key: share}, tilted(slope))
			require.InEpsilon(t, 1.2*math.Pow(free.FullOpenVelocity, 2), math.Pow(rubbing.FullOpenVelocity, 2), 1e-6, f.Name)
			require.InEpsilon(t, rubbing.FullOpenVelocity, datum(t, rubbing, "full-open velocity").Value, 1e-6, f.Name)
			require.InEpsilon(t, openForce(free), openForce(rubbing), 1e-9, f.Name)

			const v = 3.0
			given, at := complete1(t, f.Name, 0.3, set{key: share, "full-open velocity": v}, tilted(slope))
			require.InEpsilon(t, v, given.FullOpenVelocity, 1e-6, f.Name)
			require.True(t, given.Motion.Steady(1.0001*v).Held, f.Name)
			require.False(t, given.Motion.Steady(0.9999*v).Held, f.Name)

			// Held there, the disc leaves where the load is the closing force less the friction.
			if at == nil {
				continue
			}
			closing := openForce(given)
			leaves := v * math.Sqrt((closing-share)/(closing+share))
			for _, w := range []float64{1.001, 0.999} {
				drop := at.OpenLoss() * at.Density / 2 * math.Pow(w*leaves, 2)
				step := at.Advance(valve.State{Y: at.Travel, Contact: valve.Stopped}, 1e-3, w*leaves, drop)
				require.Equal(t, w > 1, step.State.Contact == valve.Stopped, f.Name)
			}
		}
	}
}

// openForce is what closes the open disc but for friction.
func openForce(v valve.Valve) float64 {
	var l *valve.Law
	switch m := v.Motion.(type) {
	case *valve.Law:
		l = m
	case *valve.Carried:
		l = m.Law
	case *valve.Pair:
		l = m.Halves[0]
	}
	w, _ := l.Weight.At(l.Travel)
	return w + l.Preload + l.SpringRate*l.Travel
}
