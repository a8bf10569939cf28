package moc

import "math"

// profile is a pipe's as its grid sees it: what each node stands for.
//
// Between two nodes the head goes nearly linearly, but the profile may have a summit or a sag of its own there, where the pressure is lowest or
// highest and where the liquid parts first. Every vertex that lies above both nodes around it, or below both, is therefore given to the nearest
// inner node: its elevation counts there for vapour and for the lowest pressure, or for the highest. Its chainage is off by half a reach at the most, a
// whole one next to the ends of the pipe, which the head differs by as little as over any reach; its elevation is exact. A vertex between the
// elevations of its nodes is left alone: it is no higher and no lower than what is looked at anyway. The ends keep their own elevation, as their node
// may join other pipes and devices.
type profile struct {
	chainage    []float64 // of the nodes, or of the vertex that one stands for, m
	elevation   []float64 // there, m
	top, bottom []float64 // highest and lowest point that the node stands for, m
}

// profileOn gives each of n+1 nodes what it stands for.
func (c *conduit) profileOn(n int) profile {
	p := profile{make([]float64, n+1), make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)}
	for k := range n + 1 {
		f := float64(k) / float64(n)
		z := c.elevationAt(f)
		p.chainage[k], p.elevation[k], p.top[k], p.bottom[k] = f*c.length, z, z, z
	}
	if n < 2 {
		return p
	}
	const rounding = 1e-9 // m
	node := func(k int) float64 { return c.elevationAt(float64(k) / float64(n)) }
	for _, v := range c.profile[1 : len(c.profile)-1] {
		at := v.Chainage / c.length * float64(n)
		left := min(int(at), n-1)
		a, b := node(left), node(left+1)
		k := min(max(int(math.Round(at)), 1), n-1)
		above, below := v.Elevation > math.Max(a, b)+rounding, v.Elevation < math.Min(a, b)-rounding
		switch {
		case above && v.Elevation > p.top[k]:
			p.top[k] = v.Elevation
		case below && v.Elevation < p.bottom[k]:
			p.bottom[k] = v.Elevation
			if p.top[k] > node(k) { // the summit is what shows
				continue
			}
		default:
			continue
		}
		p.chainage[k], p.elevation[k] = v.Chainage, v.Elevation
	}
	return p
}
