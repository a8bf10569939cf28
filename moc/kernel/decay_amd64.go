//go:build !purego

package kernel

import "golang.org/x/sys/cpu"

func fastestDecay() decay {
	if cpu.X86.HasAVX2 {
		return vectorDecay
	}
	return scalarDecay
}

func vectorDecay(past [][terms]float64, dq, z []float64, e, b *[terms]float64) {
	if len(past) == 0 {
		return
	}
	_, _ = dq[len(past)-1], z[len(past)-1]
	recall(&past[0], &dq[0], &z[0], len(past), e, b)
}

// recall is scalarDecay for n > 0 nodes, all terms of a node at once.
//
//go:noescape
func recall(past *[terms]float64, dq, z *float64, n int, e, b *[terms]float64)
