package casefile_test

import (
	"fmt"

	"seatwise/examples"
	"seatwise/network/casefile"
)

// A case file becomes a case; the files that it names are read through the function given.
func ExampleRead() {
	raw, err := examples.Files.ReadFile("lift-station.yaml")
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := casefile.Read("lift-station.yaml", raw, examples.Files.ReadFile)
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := d.Case()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(c.Title)
	for _, v := range c.Candidates {
		fmt.Printf("%s: %s, %.0f mm\n", v.Name, v.Type, 1000*v.Size)
	}
	// Output:
	// Ostermere lift station
	// plain-swing: swing, 250 mm
	// spring-disc: axial spring, 250 mm
}

// A fault of syntax comes alone, with its place, what was expected and what to write.
func ExampleRead_fault() {
	_, err := casefile.Read("my-case.yaml", []byte("format: 1\ntitle: Pump house: new valves\n"), nil)
	fmt.Println(err)
	// Output:
	// my-case.yaml:2:8: a colon inside a value
	//     2 | title: Pump house: new valves
	//       |        ^^^^^^^^^^
	//     hint: put the value in quotation marks: "Pump house: new valves"
}

// With puts another value in place of the file's.
func ExampleDocument_With() {
	raw, err := examples.Files.ReadFile("lift-station.yaml")
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := casefile.Read("lift-station.yaml", raw, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err = d.With("pipes.rising-main.bore", "600")
	if err != nil {
		fmt.Println(err)
		return
	}
	_, err = d.Case()
	fmt.Println(err)
	// Output:
	// set pipes.rising-main.bore: pipes.rising-main.bore: "600" has no unit, a length is wanted
	//       | pipes.rising-main.bore=600
	//       |                        ^^^
	//     hint: write 600 mm or 600 m
}
