package pipe_test

import (
	"fmt"

	"seatwise/network/fluid"
	"seatwise/network/pipe"
)

func Example() {
	water, err := fluid.Water(288.15, 500e3)
	if err != nil {
		fmt.Println(err)
		return
	}
	size, err := pipe.Schedule("DN450 STD")
	if err != nil {
		fmt.Println(err)
		return
	}
	steel, _ := pipe.Lookup("carbon steel")
	a := pipe.WaveSpeed(water, size.Bore(), size.Wall, steel, pipe.AnchoredThroughout, pipe.GasContent{})
	re := 2 * size.Bore() / water.KinematicViscosity()
	f := pipe.FrictionFactor(re, steel.Roughness/size.Bore())
	fmt.Printf("bore %.1f mm, wave speed %.0f m/s, friction factor %.4f at 2 m/s\n", size.Bore()*1e3, a, f)
	// Output:
	// bore 437.9 mm, wave speed 1225 m/s, friction factor 0.0138 at 2 m/s
}
