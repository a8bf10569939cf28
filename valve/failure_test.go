package valve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// lifting is a ring disc on a spring in a pipe of a slope.
func lifting(t *testing.T, slope, preload float64) Valve {
	b := Body{Density: 998.2, Gravity: 9.81, Bore: 0.25, Slope: slope, LossOpen: 3, Contraction: 0.65, Restitution: 0.2}
	l, err := disc(b, 0.6, 2.3, 7850, 1, 0.03, Spring{Preload: preload, Rate: 2000}, 2).law()
	require.NoError(t, err)
	return Valve{Motion: l, FullOpenVelocity: l.FullOpenVelocity()}
}

// A worn bearing adds its share to the balance on the stop, so that the full-open velocity grows with the root of it; the sound valve stays as it is.
func TestFailedBearing(t *testing.T) {
	v := lifting(t, 0, 60)
	worn, err := v.Failed(WornBearing)
	require.NoError(t, err)
	require.InEpsilon(t, math.Sqrt(1+WornShare), worn.FullOpenVelocity/v.FullOpenVelocity, 1e-3)
	require.InEpsilon(t, WornShare*(60+2000*0.03), worn.Motion.(*Law).Friction, 1e-12)
	require.Zero(t, v.Motion.(*Law).Friction)
}

// Without its spring a disc falls shut in a rising pipe, is left to the flow in a level one and hangs open in a falling one.
func TestFailedSpring(t *testing.T) {
	up, err := lifting(t, math.Pi/2, 60).Failed(BrokenSpring)
	require.NoError(t, err)
	require.Empty(t, up.Warnings)
	_, opens := up.Motion.Shut()
	require.InEpsilon(t, 2.3*9.81*(1-998.2/7850)/(math.Pi/4*0.25*0.25*(1-0.36)), opens, 1e-9, "weight over seat area")

	level, err := lifting(t, 0, 60).Failed(BrokenSpring)
	require.NoError(t, err)
	require.Equal(t, []string{"broken spring: nothing but reverse flow closes the disc"}, level.Warnings)
	require.Zero(t, level.FullOpenVelocity)

	_, err = lifting(t, -math.Pi/2, 60).Failed(BrokenSpring)
	require.ErrorIs(t, err, ErrLaw)
	require.ErrorContains(t, err, "its weight holds it open")
	_, err = lifting(t, math.Pi/2, 0).Failed(WornBearing)
	require.NoError(t, err)
}

func TestFailedWithoutThePart(t *testing.T) {
	for _, f := range Failures {
		_, err := Valve{Motion: &Ideal{Loss: 1, Density: 1000}}.Failed(f)
		require.ErrorIs(t, err, ErrNoPart, f)
	}
	stuck, err := lifting(t, 0, 60).Failed(StuckDisc)
	require.NoError(t, err)
	require.InEpsilon(t, 3, stuck.Motion.(*Stuck).Loss, 1e-9)
	same, err := lifting(t, 0, 60).Failed(Sound)
	require.NoError(t, err)
	require.IsType(t, &Law{}, same.Motion)
}
