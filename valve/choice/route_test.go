package choice

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/network"
)

func level(name, from, to string, length float64) network.Pipe {
	return network.Pipe{Name: name, From: from, To: to, Profile: []network.Point{{}, {Chainage: length}}}
}

// Two reservoirs: the farther by the shortest way is the end; a pipe laid against the route is turned; a throttling valve is passed.
func TestRouteGoesToTheFarthestReservoir(t *testing.T) {
	n := &network.Network{
		Reservoirs: []network.Reservoir{{Name: "near"}, {Name: "far"}},
		Pipes: []network.Pipe{level("a", "header", "fork", 100), level("b", "fork", "near", 50), level("c", "gate", "fork", 60), level("d", "beyond", "far", 10),
			level("loop", "header", "fork", 300), level("spur", "fork", "blind", 900)},
		Throttles: []network.Throttle{{Name: "valve", From: "gate", To: "beyond"}},
	}
	var names []string
	for _, s := range farthest(n, "header", "") {
		if s.pipe < 0 {
			names = append(names, "valve")
			continue
		}
		name := n.Pipes[s.pipe].Name
		if s.backwards {
			name += " backwards"
		}
		names = append(names, name)
	}
	require.Equal(t, []string{"a", "c backwards", "valve", "d"}, names)

	n.Reservoirs = nil
	way := farthest(n, "header", "")
	require.Equal(t, "spur", n.Pipes[way[len(way)-1].pipe].Name, "without a reservoir, the farthest node")
	require.Empty(t, farthest(n, "alone", ""))
}

func TestProfileTurns(t *testing.T) {
	p := profile(&moc.PipeTrace{Name: "p", Chainage: []float64{0, 4, 10}, Elevation: []float64{1, 2, 3}, Steady: []float64{7, 6, 5}, Max: []float64{9, 8, 7}, Min: []float64{4, 3, 2}}, 100, true)
	require.Equal(t, []float64{100, 106, 110}, p.Chainage)
	require.Equal(t, []float64{3, 2, 1}, p.Elevation)
	require.Equal(t, []float64{5, 6, 7}, p.Steady)
	require.Nil(t, p.Cavity)
}

func TestPlacesInWords(t *testing.T) {
	n := &network.Network{Stations: []network.Station{{Name: "lift", Units: 2}}}
	p := newPlaces(n, &moc.UnitTrace{Station: "lift", Unit: 1}, Settings{})
	at := func(pipe, from, to string, k int) string {
		return p.at(&moc.PipeTrace{Name: pipe, From: from, To: to, Chainage: []float64{0, 133, 600}}, k)
	}
	require.Equal(t, "valve outlet", at("lift/1/branch", "lift/1/outlet", "header", 0))
	require.Equal(t, "valve outlet of lift, unit 2", at("lift/2/branch", "lift/2/outlet", "header", 0))
	require.Equal(t, "branch of lift, unit 2 at 133 m", at("lift/2/branch", "lift/2/outlet", "header", 1))
	require.Equal(t, "header", at("lift/2/branch", "lift/2/outlet", "header", 2))
	require.Equal(t, "rising-main at 133 m", at("rising-main", "header", "tower", 1))
}
