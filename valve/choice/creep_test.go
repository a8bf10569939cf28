package choice

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/quantity"
)

func TestCreepWarnings(t *testing.T) {
	n := &moc.Numerics{Step: 0.002}
	require.Empty(t, CreepWarnings(n, Settings{}))
	e := network.CreepElement{Compliance: 1.5e-10, Time: 0.003}
	n.FastCreep = []moc.FastCreep{{Pipe: "main", CreepElement: e}, {Pipe: moc.Part("lift", 1, "branch"), CreepElement: e}, {Pipe: moc.Part("lift", 2, "branch"), CreepElement: e}}
	require.Equal(t, []string{
		"main: the retardation time of 0.003 s is less than two time steps of 0.002 s, so that this creep is all but elastic: leave it out and give modulus as 1/(1/E + 0.15 1/GPa)",
		"branches of lift: the retardation time of 0.003 s is less than two time steps of 0.002 s, so that this creep is all but elastic: leave it out and give modulus as 1/(1/E + 0.15 1/GPa)",
	}, CreepWarnings(n, Settings{}))
	require.Contains(t, CreepWarnings(n, Settings{Units: quantity.US})[0], "1/ksi")
}
