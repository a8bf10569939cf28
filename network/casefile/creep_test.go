package casefile_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
)

const plasticLines = "    bore: 368 mm\n    wall: 41 mm\n    material: HDPE\n"

// Bore, wall and restraint give the stretch, the modulus the wave speed, in every form of the table.
func TestCreepForms(t *testing.T) {
	want := []network.CreepElement{{Compliance: 1.5e-10, Time: 0.05}, {Compliance: 2e-10, Time: 5}}
	for _, form := range []string{
		"    creep: [[0.15 1/GPa, 0.05 s], [0.2 1/GPa, 5 s]]\n",
		"    creep: [[1.5e-10 1/Pa, 50 ms], [2e-10 1/Pa, 5 s]]\n",
		"    creep: {columns: [time s, compliance 1/GPa], rows: [[0.05, 0.15], [5, 0.2]]}\n",
	} {
		c := read(t, replaced(t, conduitLines, plasticLines+"    modulus: 1.1 GPa\n"+form))
		require.Empty(t, c.Warnings)
		n := c.Scenarios[0].Network
		p := n.Pipes[0]
		require.InDeltaSlice(t, []float64{want[0].Compliance, want[1].Compliance}, []float64{p.Creep.Elements[0].Compliance, p.Creep.Elements[1].Compliance}, 1e-20)
		require.Equal(t, []float64{0.05, 5}, []float64{p.Creep.Elements[0].Time, p.Creep.Elements[1].Time})
		const d, e, mu = 0.368, 0.041, 0.46
		stretch := 2*(1+mu) + d/(d+e)*(1-mu*mu)*d/e // c1 D/e of a thick wall anchored throughout
		require.InEpsilon(t, stretch, p.Creep.Stretch, 1e-12)
		require.InEpsilon(t, 1/math.Sqrt(n.Fluid.Density*(1/n.Fluid.BulkModulus+stretch/1.1e9)), p.WaveSpeed, 1e-12)
		require.Contains(t, strings.Join(c.Assumptions, "\n"), "done creeping under the pressure at the start")
	}
	// Young's modulus of the material, where none is given.
	own := read(t, replaced(t, conduitLines, plasticLines+"    creep: [[0.15 1/GPa, 0.05 s]]\n")).Scenarios[0].Network.Pipes[0]
	given := read(t, replaced(t, conduitLines, plasticLines+"    modulus: 0.9 GPa\n    creep: [[0.15 1/GPa, 0.05 s]]\n")).Scenarios[0].Network.Pipes[0]
	require.Equal(t, own, given)
}

// A branch of plastic creeps as a pipe does.
func TestCreepOfBranches(t *testing.T) {
	branch := "    branch: {length: 6 m, bore: 250 mm, wall: 6.3 mm, material: carbon steel}"
	c := read(t, replaced(t, branch, "    branch: {length: 6 m, bore: 250 mm, wall: 25 mm, material: HDPE, creep: [[0.15 1/GPa, 0.05 s]]}"))
	require.Equal(t, []network.CreepElement{{Compliance: 1.5e-10, Time: 0.05}}, c.Scenarios[0].Network.Stations[0].Branch.Creep.Elements)
	require.Positive(t, c.Scenarios[0].Network.Stations[0].Branch.Creep.Stretch)
}

// A plastic without creep is warned of, whatever its wave speed; steel is not.
func TestPlasticWithoutCreep(t *testing.T) {
	require.Empty(t, read(t, lift(t)).Warnings)
	for _, material := range []string{"HDPE", "PVC-U"} {
		w := read(t, replaced(t, "    material: carbon steel\n", "    material: "+material+"\n")).Warnings
		require.Len(t, w, 1)
		require.Contains(t, w[0], "pipes.rising-main: "+material+" creeps")
	}
	w := read(t, replaced(t, conduitLines, "    bore: 368 mm\n    material: HDPE\n    wave speed: 250 m/s\n")).Warnings
	require.Len(t, w, 1)
	require.Contains(t, w[0], "with wall and modulus in place of the wave speed")
}
