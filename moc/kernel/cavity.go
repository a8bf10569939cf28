package kernel

// cavity is what the nodes of a line hold beside liquid: gas (file gas.go) or vapour (file vapour.go). A node with a cavity has two flows, Qu arriving and
// Qd leaving, and one head; its volume V, m3, follows
//
//	V' = V + h (Qd' - Qu')       (weighting 1: fully implicit)
//	H' + Bz Qu' = P,   H' - Bz Qd' = M,   Bz = B + R|Q|/2
//
// with R|Q|/2 by the flow that liquid without friction would have, (P - M)/(2B). Weighting 1 takes a flow at the end of h for the whole of it, which is
// what it is when the flow comes in waves, so that the cavity of a front is exact; where the flow changes smoothly its error is of the first order in h
// and shows when the step is halved. A weight on the old flows would let a collapse overshoot: V could fall below 0, or the head rise
// above that of the liquid, by flows that are no longer there.
//
// The grid is rectangular, every node at every step. That is two staggered grids side by side, each of every other node and step, and in liquid neither
// knows of the other. One cavity filled and emptied by both in turn would let them beat against each other: spurious spikes two steps apart. So each of
// them has a cavity of its own at an inner node, advanced by h = 2 dt every other step, and what the node holds is their mean, whose balance is
// that of one cavity with h = dt, exactly. At the ends of a pipe, where devices join the two grids anyway, there is one cavity, and h is the step or
// the part of it that the device asks for.
//
// What is left of spikes is of two kinds: those of the ends, and the pulses of many small cavities along a pipe that collapse one by one, node by node
// instead of continuously. A spike that lasts a step or two, or that a halved step moves or takes away, is of the grid and not of the liquid: read from a history what
// lasts longer, and take a highest pressure with its error.
//
// A cavity takes no room: wave speed and length of the reaches stay. That is fair up to about a tenth of the volume of a reach (common practice); a larger one at a high
// point moves the ends of the two columns by its length in the pipe.
//
// Source: A. Bergant, A. R. Simpson, A. S. Tijsseling, Water hammer with column separation: a historical review, J. Fluids Struct. 22 (2006) 135-171, from
// memory, for staggered grids, weighting and the tenth; two cavities at a node of a rectangular grid are worked out here.
type cavity struct {
	k        float64   // of gas, K of a whole reach, m4; 0: vapour
	hv       []float64 // head of vapour pressure at the nodes, m
	v        []float64 // volumes of the staggered grid of the present step, m3
	other    []float64 // and of the other one; the same at the ends
	head     []float64
	most     []float64 // largest mean of the two
	mostAt   []int32   // and its step
	sum      float64   // of v at the inner nodes
	sumOther float64   // of other
	stored   float64   // volume at the inner nodes at mid-step, m3
	friction float64   // sum over the inner nodes of d on the arriving side less d on the leaving side, m
}

// part gives the line cavities that are empty.
func (l *Line) part(k float64, hv []float64) *cavity {
	n := l.N + 1
	if len(hv) != n {
		panic("kernel: cavities need a vapour head at every node")
	}
	c := &cavity{k: k, hv: hv, v: make([]float64, n), other: make([]float64, n), head: make([]float64, n), most: make([]float64, n), mostAt: make([]int32, n)}
	for i := range c.head {
		c.head[i] = l.Head(i)
	}
	l.Low = false
	return c
}

// HasCavities tells whether the line has cavities, of whichever kind.
func (l *Line) HasCavities() bool { return l.cavity != nil }

// parted is the step of the inner nodes of a line with cavities. The mean volume at mid-step is that of the grid at rest and of the one that moves.
func (l *Line) parted(p, m []float64) {
	c := l.cavity
	c.v, c.other = c.other, c.v
	was := c.sumOther
	c.sumOther = c.sum
	if c.k > 0 {
		l.gas(p, m)
	} else {
		l.vapour(p, m)
	}
	c.stored = c.sumOther/2 + (was+c.sum)/4
}

func (l *Line) end(right bool) int {
	if right {
		return l.N
	}
	return 0
}

// EndCavity is K of the gas, m4, 0 of vapour, vapour head, m, and present volume, m3, of the cavity at an end.
func (l *Line) EndCavity(right bool) (k, hv, v float64) {
	i := l.end(right)
	return l.cavity.k / 2, l.cavity.hv[i], l.cavity.v[i]
}

// SetEndCavity stores the volume of the cavity at an end, m3, at the end of the step.
func (l *Line) SetEndCavity(right bool, v float64) {
	c, i := l.cavity, l.end(right)
	c.v[i], c.other[i] = v, v
	if v > c.most[i] {
		c.most[i], c.mostAt[i] = v, l.steps
	}
}

// LargestCavity is the largest volume so far at node i, m3, and the step at which it was reached.
func (l *Line) LargestCavity(i int) (volume float64, step int) {
	if l.cavity == nil {
		return 0, 0
	}
	return l.cavity.most[i], int(l.cavity.mostAt[i])
}

func (c *cavity) copyTo(dst *cavity) *cavity {
	if c == nil {
		return nil
	}
	if dst == nil {
		n := len(c.v)
		dst = &cavity{v: make([]float64, n), other: make([]float64, n), head: make([]float64, n), most: make([]float64, n), mostAt: make([]int32, n)}
	}
	v, other, head, most, at := dst.v, dst.other, dst.head, dst.most, dst.mostAt
	*dst = *c
	dst.v, dst.other, dst.head, dst.most, dst.mostAt = v, other, head, most, at
	copy(v, c.v)
	copy(other, c.other)
	copy(head, c.head)
	copy(most, c.most)
	copy(at, c.mostAt)
	return dst
}
