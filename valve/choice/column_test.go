package choice

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
)

// A heavy column slows at g dH/L whatever the valve does: 1000 m between two reservoirs, without friction, through which a difference of level of zeta v0^2/(2g)
// drives v0; then the level behind rises by dH. Waves pass the pipe in a millisecond and slow it in steps of 2 a L/c, the tolerance: the column is rigid. The valve takes a metre or two of the
// hundreds, but for the last moments before it seats. The bench has the same deceleration.
func TestHeavyColumnIsABench(t *testing.T) {
	const length, bore, wave = 1000.0, 0.25, 1e6
	water, err := fluid.Water(288.15, 101325)
	require.NoError(t, err)
	for _, kind := range []string{"swing", "dual plate"} {
		for _, a := range []float64{5, 10} {
			v, err := catalogue.Complete(spec("v", kind), catalogue.Setting{Density: water.Density, Gravity: network.Gravity})
			require.NoError(t, err)
			v0 := 1.05 * v.FullOpenVelocity
			drive := v.LossOpen * v0 * v0 / (2 * network.Gravity)
			rise := a * length / network.Gravity
			n := &network.Network{
				Fluid: water, Atmosphere: 101325,
				Reservoirs: []network.Reservoir{
					{Name: "up", Level: 3000 + drive},
					{Name: "down", Levels: []network.Level{{Time: 0, Head: 3000}, {Time: 0.1, Head: 3000}, {Time: 0.1, Head: 3000 + rise}}},
				},
				Pipes:       []network.Pipe{{Name: "column", From: "behind", To: "down", Profile: []network.Point{{}, {Chainage: length}}, Bore: bore, WaveSpeed: wave, FrictionFactor: 1e-9}},
				CheckValves: []network.CheckValve{{Name: "guard", From: "up", To: "behind"}},
			}
			r, err := moc.Solve(context.Background(), moc.Problem{Network: n, Valves: []valve.Valve{v}, Until: 0.1 + 2*v0/a}, moc.Settings{Liquid: true, Step: 1e-3})
			require.NoError(t, err)
			require.NotEmpty(t, r.Units[0].Seatings, kind)
			first := r.Units[0].Seatings[0]
			p := characteristic.At(v, a, characteristic.Settings{})
			quantum := 2 * a * length / wave // by which each wave slows the flow, m/s
			require.InDelta(t, v0, r.Units[0].Flow[0]/area(bore), 1e-3, kind)
			require.Equal(t, characteristic.Seats, p.Outcome)
			require.InDelta(t, -first.Velocity, p.ReverseVelocity, quantum, kind)
			require.InDelta(t, first.Time-0.1, p.Time, 2e-3, kind)
		}
	}
}
