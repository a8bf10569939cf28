package verify

import (
	"context"
	"fmt"

	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
)

func merits() []Case {
	return []Case{{"R1", Disc, "orders of magnitude of reverse velocities, DN200 to DN300, water, level pipe; recalled from the literature, from memory, ±50 %", meritChecks}}
}

// meritChecks hold the generic valves of DN300 against the middle of a band, half of which is the tolerance, from a flow of 3.3 m/s that holds all of them open. They are comparisons: no
// measured point could be read, and nothing is fitted to them.
func meritChecks(context.Context) ([]Check, error) {
	var checks []Check
	for _, b := range []struct {
		kind  string
		bands [4][2]float64 // at 2, 5, 10, 20 m/s2
	}{
		{"swing", [4][2]float64{{0.3, 0.5}, {0.8, 1.2}, {1.5, 2.2}, {2.5, 4}}},
		{"ball", [4][2]float64{{0.2, 0.4}, {0.5, 0.9}, {1.0, 1.6}, {2, 3}}},
		{"flap", [4][2]float64{{0.1, 0.3}, {0.3, 0.6}, {0.7, 1.2}, {1.3, 2.2}}},
		{"tilting disc", [4][2]float64{{0.1, 0.2}, {0.3, 0.5}, {0.6, 1.0}, {1.2, 1.8}}},
		{"dual plate", [4][2]float64{{0.05, 0.15}, {0.15, 0.35}, {0.4, 0.7}, {0.8, 1.4}}},
		{"nozzle", [4][2]float64{{0, 0.05}, {0.05, 0.15}, {0.15, 0.35}, {0.3, 0.8}}},
		{"axial spring", [4][2]float64{{0, 0.05}, {0.05, 0.15}, {0.15, 0.35}, {0.3, 0.8}}},
		{"spring disc", [4][2]float64{{0, 0.05}, {0.05, 0.15}, {0.15, 0.35}, {0.3, 0.8}}},
	} {
		v, err := catalogue.Complete(valve.Spec{Name: b.kind, Type: b.kind, Size: 0.3}, catalogue.Setting{Density: 998.2, Gravity: 9.80665})
		if err != nil {
			return nil, err
		}
		for i, a := range []float64{2, 5, 10, 20} {
			low, high := b.bands[i][0], b.bands[i][1]
			got := characteristic.At(v, a, characteristic.Settings{InitialVelocity: 3.3}).ReverseVelocity
			checks = append(checks, compared(within(fmt.Sprintf("reverse velocity, %s DN300 at %g m/s2, band %g-%g", b.kind, a, low, high), "m/s", (low+high)/2, got, (high-low)/2)))
		}
	}
	return checks, nil
}
