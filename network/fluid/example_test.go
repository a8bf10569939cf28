package fluid_test

import (
	"fmt"

	"seatwise/network/fluid"
)

func ExampleWater() {
	f, err := fluid.Water(288.15, 101325)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kg/m3, K %.3f GPa, %.0f m/s, boils at %.2f m gauge\n",
		f.Density, f.BulkModulus/1e9, f.SoundSpeed(), f.VapourHead(101325, 9.80665))
	// Output:
	// 999.1 kg/m3, K 2.149 GPa, 1467 m/s, boils at -10.17 m gauge
}
