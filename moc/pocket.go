package moc

import "math"

// pocket is the vapour cavity at a node of a cluster, one for all the pipe ends there that may part. The unknown x of the node, m, is the head that it
// would have if liquid filled it and could bear tension, so that continuity at the node has no corner:
//
//	sum over pipe ends (C - x)/Z + sum over devices (+-q) = demand
//	H = max(Hv, x - V Z/h),   V' = max(0, V + (Hv - x) h/Z),   1/Z = sum over the pipe ends
//
// with V, m3, at the start of the sub-step of h seconds. That is continuity with the flow (V' - V)/h of the cavity, and one of H = Hv and V' = 0 holds.
// The devices see H. A node takes every step for itself: the two staggered grids of package kernel meet here.
type pocket struct {
	end int     // pipe end that keeps the volume; -1: no cavity can form
	hv  float64 // m, the highest of the ends
	v   float64 // m3, at the start of the sub-step
	z   float64 // Z, s/m2
}

// arrive reads the waves of the coming step.
func (c *cluster) arrive() {
	for i := range c.pockets {
		c.pockets[i] = pocket{end: -1}
	}
	c.parted = false
	for i := range c.ends {
		e := &c.ends[i]
		e.arrive()
		if e.vapour {
			k := &c.pockets[e.local]
			if k.end < 0 {
				k.end, k.hv = i, e.hv
			}
			k.hv, k.v, c.parted = math.Max(k.hv, e.hv), k.v+e.v, true
			e.v = 0
		}
	}
	if !c.parted {
		return
	}
	for i := range c.ends {
		c.pockets[c.ends[i].local].z += 1 / c.ends[i].z
	}
	for i := range c.pockets {
		c.pockets[i].z = 1 / c.pockets[i].z
	}
}

// head is that of local node i in a trial, and its derivative by the unknown x.
func (c *cluster) head(i int) (h, hx float64) {
	x := c.x[i]
	if !c.parted {
		return x, 1
	}
	k := &c.pockets[i]
	if k.end < 0 {
		return x, 1
	}
	if h = x - k.v*k.z/c.h; h > k.hv {
		return h, 1
	}
	return k.hv, 0
}

// fill takes the volume of the trial at node i as the new state, and its head as x. What continuity leaves over, m3/s into the node, is liquid in the
// cavity's place.
func (c *cluster) fill(i int, left float64) {
	k := &c.pockets[i]
	h, hx := c.head(i)
	if hx == 0 {
		k.v += (k.hv-c.x[i])*c.h/k.z - left*c.h
		left = 0
		if k.v < 0 {
			left, k.v = k.v/c.h, 0
		}
	} else {
		k.v = 0
	}
	c.defect += math.Abs(left) * c.h
	c.x[i] = h
	c.ends[k.end].v = k.v
}
