package catalogue

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
)

func TestSeat(t *testing.T) {
	restitutionOf := func(kind string, s set) float64 {
		v, _ := complete1(t, kind, 0.3, s, level)
		d := datum(t, v, restitution)
		require.Contains(t, d.Status, " seat, ")
		require.Positive(t, d.Spread)
		return d.Value
	}
	// Soft 0 to 0.2, hard 0.1 to 0.4, the middle of each; rubber where the family has it.
	for kind, want := range map[string]float64{"swing": 0.25, "nozzle": 0.25, "dual plate": 0.25, "flap": 0.1, "ball": 0.1} {
		require.InEpsilon(t, want, restitutionOf(kind, nil), 1e-12, kind)
		require.InEpsilon(t, 0.1, restitutionOf(kind, set{seatKind: soft}), 1e-12, kind)
		require.InEpsilon(t, 0.25, restitutionOf(kind, set{seatKind: hard}), 1e-12, kind)
	}
	_, l := complete1(t, "swing", 0.3, set{seatKind: soft}, level)
	require.InEpsilon(t, 0.1, l.Restitution, 1e-12)

	for text, s := range map[string]set{
		"seat and restitution say the same": {seatKind: soft, restitution: 0.2},
		"seat must be one of its words":     {seatKind: 0.5},
	} {
		_, err := Complete(valve.Spec{Name: "v", Type: "swing", Size: 0.3, Set: s}, level)
		require.ErrorIs(t, err, ErrValue)
		require.ErrorContains(t, err, text)
	}
}

// The leak of a seat is that of the class given, of the leak given, or guessed for its kind; a run has a tight seat unless one is given.
func TestSeatLeak(t *testing.T) {
	for _, c := range []struct {
		kind      string
		set       set
		rate, law float64 // mm3/s per mm in the test; conductance in a run
		pn        float64
	}{
		{"swing", nil, 2, 0, 16},
		{"swing", set{"pressure class": 40}, 2, 0, 40},
		{"swing", set{seatKind: soft}, 0, 0, 16},
		{"flap", nil, 0, 0, 16},
		{"flap", set{leakageClass: 0.3}, 0.3, valve.SeatConductance(0.3, 0.3, 16), 16},
		{"nozzle", set{leakageClass: 0}, 0, 0, 16},
	} {
		v, l := complete1(t, c.kind, 0.3, c.set, level)
		require.InDelta(t, valve.SeatConductance(c.rate, 0.3, c.pn), v.SeatLeak, 1e-15, c)
		require.InDelta(t, c.law, l.Leak, 1e-15, c)
		require.InDelta(t, c.rate, datum(t, v, leakageClass).Value, 1e-12, c)
	}
	v, _ := complete1(t, "dual plate", 0.3, set{"leak": 0.01}, level)
	require.InDelta(t, 0.01, v.SeatLeak, 1e-15)
	require.InDelta(t, 0.01, v.Motion.(*valve.Pair).Halves[0].Leak*2, 1e-15)
}
