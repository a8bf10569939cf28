package choice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/valve"
)

func TestOpenMargin(t *testing.T) {
	r := compare(t, quick(t, spec("plain", "swing"), set(spec("stiff", "axial spring"), map[string]float64{"full-open velocity": 3})))
	o := r.Scenarios[0].Outcomes
	for i, words := range []string{"close", "flutters"} {
		require.InEpsilon(t, o[i].InitialVelocity.SI/o[i].Valve.FullOpenVelocity, o[i].OpenMargin.SI, 1e-12)
		require.Equal(t, words, o[i].Staying())
	}
	require.Equal(t, 1.0, o[0].OpeningFraction.SI, "a disc with a margin above 1 is on its stop")
	require.Less(t, o[1].OpeningFraction.SI, 1.0)

	require.Equal(t, noFlow, openMargin(moc.SteadyUnit{Shut: true, FullOpenVelocity: 2}).Reason)
	free := Outcome{OpenMargin: openMargin(moc.SteadyUnit{Velocity: 2})}
	require.Contains(t, free.OpenMargin.Reason, "no flow is needed")
	require.Empty(t, free.Staying())
}

// Speed at the edge and energy are of one rate: E = 1/2 M (v/reach)^2.
func TestSeatImpactEnergy(t *testing.T) {
	o := compare(t, quick(t, spec("plain", "swing"), spec("plates", "dual plate"))).Scenarios[0].Outcomes
	law := o[0].Valve.Motion.(*valve.Law)
	require.InEpsilon(t, law.Inertia/2*math.Pow(o[0].SeatImpactSpeed.SI/o[0].Valve.Reach, 2), o[0].SeatImpactEnergy.SI, 1e-12)
	require.Contains(t, o[1].SeatImpactEnergy.Reason, "one moving disc")
}
