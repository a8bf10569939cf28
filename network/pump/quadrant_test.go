package pump

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTableChecks repeats the consistency checks made when the tables were
// written down.
func TestTableChecks(t *testing.T) {
	for i, want := range []struct {
		n                float64
		cells            int
		shutOff, torque0 float64
	}{
		{25, 72, 1.35, 0.44},
		{35, 88, 1.288, 0.450},
		{147, 88, 1.970, 1.490},
		{261, 88, 2.750, 1.950},
	} {
		set := tables[i]
		require.Equal(t, want.n, set.SpecificSpeed)
		require.Len(t, set.cells, want.cells)
		require.Contains(t, set.Provenance, "from memory")
		zero, rated := set.onSpeed(0), set.onSpeed(1)
		require.InDelta(t, want.shutOff, zero.head, 1e-12)
		require.InDelta(t, want.torque0, zero.torque, 1e-12)
		require.InDelta(t, 1, rated.head, 1e-12)
		require.InDelta(t, 1, rated.torque, 1e-12)
		// first = last: the cells close the turn
		a, b := set.cells[0], set.cells[want.cells-1]
		require.InDelta(t, a.wh, b.wh+b.rh, 1e-15)
		require.InDelta(t, a.wb, b.wb+b.rb, 1e-15)
	}
}

// TestNodes reads the tables back at their nodes and between them.
func TestNodes(t *testing.T) {
	for _, set := range tables {
		n := len(set.cells)
		for k, c := range set.cells {
			x := 2 * math.Pi * float64(k) / float64(n)
			require.InDelta(t, c.wh, set.at(x).wh, 1e-13)
			require.InDelta(t, c.wb, set.at(x).wb, 1e-13)
			next := set.cells[(k+1)%n]
			middle := set.at(x + math.Pi/float64(n))
			require.InDelta(t, (c.wh+next.wh)/2, middle.wh, 1e-13)
			require.InDelta(t, (c.wb+next.wb)/2, middle.wb, 1e-13)
		}
	}
}

// TestAxes compares both angle conventions on the axes: rows of the files,
// (v, alpha) = (0,1), (-1,0), (0,-1), (1,0).
func TestAxes(t *testing.T) {
	for i, want := range [][4][2]float64{
		{{1.35, 0.44}, {0.71, 0.88}, {0.66, -0.68}, {-0.55, -0.43}},
		{{1.288, 0.450}, {0.692, 0.865}, {0.634, -0.684}, {-0.556, -0.372}},
	} {
		for k, axis := range [4][2]float64{{0, 1}, {-1, 0}, {0, -1}, {1, 0}} {
			c := tables[i].at(math.Pi + math.Atan2(axis[0], axis[1]))
			require.InDelta(t, want[k][0], c.wh, 1e-12)
			require.InDelta(t, want[k][1], c.wb, 1e-12)
		}
	}
}

// TestNormalZone checks v, h, beta at alpha = 1 on nodes of sets 35 and 25, worked
// out separately from the tables with three decimals.
func TestNormalZone(t *testing.T) {
	for _, c := range []struct {
		set          int
		node         float64 // of the file, from the rated point
		v, h, torque float64
	}{
		{1, -4, 0.546, 1.223, 0.801}, {1, -2, 0.749, 1.144, 0.908}, {1, 1, 1.154, 0.858, 1.007}, {1, 2, 1.336, 0.668, 1.002},
		{0, -3, 0.577, 1.213, 0.813}, {0, -1, 0.839, 1.091, 0.937}, {0, 1, 1.192, 0.896, 1.017}, {0, 2, 1.428, 0.669, 1.033},
	} {
		set := tables[c.set]
		v := math.Tan(math.Pi/4 + c.node/set.perStep)
		require.InDelta(t, c.v, v, 6e-4)
		got := set.onSpeed(v)
		require.InDelta(t, c.h, got.head, 6e-4)
		require.InDelta(t, c.torque, got.torque, 6e-4)
	}
}

func TestNearestSet(t *testing.T) {
	for n, want := range map[float64]string{
		1: "SI 25", 26.4: "SI 25", 29.9: "SI 25", 30.1: "SI 35", 90.9: "SI 35", 91.1: "SI 147", 203: "SI 147", 205: "SI 261", 900: "SI 261",
	} {
		require.Equal(t, want, nearest(n).Name, "specific speed %g", n)
	}
	// the built-in example: 1480 x 0.345607/19.3643
	require.InDelta(t, 26.4145, SpecificSpeed(430./3600, 52, 1480*rpm), 1e-3)
}
