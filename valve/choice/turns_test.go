package choice

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTurns(t *testing.T) {
	o := &Outcome{MaxReverseVelocity: Value{SI: 0.5}, SlamPressureRise: Value{SI: 4e5}, Spots: map[string]Spot{keyPeak: {Time: 2}}}
	at := func(key string, value, margin float64) Verdict {
		return Verdict{Measure: key, Value: value, Margin: margin, Met: margin >= 0}
	}
	for _, x := range []struct {
		name string
		v    Verdict
		want bool
	}{
		{"reverse velocity far below the bound", at(keyReverse, 0.5, 0.21), false},
		{"reverse velocity that 40 % more would break", at(keyReverse, 0.5, 0.19), true},
		{"reverse velocity that 40 % less would mend", at(keyReverse, 0.5, -0.19), true},
		{"reverse velocity beyond help", at(keyReverse, 0.5, -0.21), false},
		{"pressure of which the slam is a part", at(keyPeak, 9e5, 1.5e5), true},
		{"pressure far below", at(keyPeak, 9e5, 1.7e5), false},
		{"reverse volume, the whole of it", at(keyReverseVolume, 0.1, -0.03), true},
		{"steady pressure, no matter of the valve", at(keySteadyPressure, 9e5, 1), false},
	} {
		require.Equal(t, x.want, o.Turns(x.v, 0.4), x.name)
	}
	require.False(t, o.Turns(at(keyReverse, 0.5, -0.19), 0.1), "data that are better known")
	asked := at(keyReverse, 0.5, 0.30)
	asked.Asked = 0.15
	require.True(t, o.Turns(asked, 0.4), "met by less than the margin asked for can change")
	o.Spots[keyPeak] = Spot{Time: -1} // that of the steady flow
	require.False(t, o.Turns(at(keyPeak, 9e5, 1), 0.4))
}
