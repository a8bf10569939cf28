package moc

import (
	"flag"
	"os"
	"testing"
)

// TestMain draws the same installations in every plain run of the tests, so that a change is judged by what it changes. `-rapid.seed=N` draws others,
// `-rapid.checks=N` more of them. Draws that are known to fail:
//
//	TestValvesNeverFail       -rapid.seed=10385751578551363764   air valve and vapour cavity at one node: the step cannot be cut small enough
//	TestOutletSteadyAnywhere  -rapid.seed=5425765558397798882    the steady flow of an outlet is 0.7 % beyond the bound
func TestMain(m *testing.M) {
	flag.Parse()
	if seed := flag.Lookup("rapid.seed"); seed.Value.String() == "0" {
		if err := seed.Value.Set("20261125"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
