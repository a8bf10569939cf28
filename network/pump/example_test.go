package pump_test

import (
	"fmt"
	"math"

	"seatwise/network/pump"
)

// A tripped pump coasts through zero flow: head and torque go on without a step
// from the pump's own curve to the four-quadrant data.
func Example() {
	p, err := pump.New(pump.Spec{
		Flow: 430. / 3600, Head: 52, Speed: 1480 * math.Pi / 30, Efficiency: 0.81,
		Curve: []pump.Point{{Flow: 0, Head: 66}, {Flow: 215. / 3600, Head: 62}, {Flow: 430. / 3600, Head: 52}, {Flow: 600. / 3600, Head: 39}},
	}, 999.1, 9.80665)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("set %s, inertia %.2f kg m2 (estimated: %v)\n", p.Set.Name, p.Inertia, p.InertiaEstimated)
	for _, v := range []float64{1, 0, -0.2} {
		h, _, _, t, _, _ := p.At(v*p.Spec.Flow, 0.8*p.Spec.Speed)
		fmt.Printf("flow %4.0f %%, speed 80 %%: %6.2f m, %5.1f N m\n", 100*v, h, t)
	}
	// Output:
	// set SI 25, inertia 2.19 kg m2 (estimated: true)
	// flow  100 %, speed 80 %:  28.40 m, 316.9 N m
	// flow    0 %, speed 80 %:  42.24 m, 136.5 N m
	// flow  -20 %, speed 80 %:  44.18 m, 116.6 N m
}
