package device

import (
	"math"

	"seatwise/network"
)

// basin is an open tank: the level z, m, of a liquid volume v, m3, above its floor,
//
//	v = integral of A(z) dz from floor to z
//
// with the horizontal area A(z) linear between the rows of a table and constant outside; in a slice from z0, v0, where A = A0 + A' (z - z0),
//
//	z = z0 + 2 (v - v0)/(A0 + A),   A = sqrt(A0^2 + 2 A' (v - v0)),   dz/dv = 1/A
//
// The level stays at the floor below v = 0 and at the crest above v = full.
type basin struct {
	floor, crest, full float64
	slices             []slice
}

type slice struct{ z, v, a, taper float64 } // at its lower end; taper = dA/dz, m

func newBasin(floor, crest float64, rows []network.LevelArea) basin {
	b := basin{floor: floor, crest: crest}
	first, last := rows[0], rows[len(rows)-1]
	b.add(network.LevelArea{Level: math.Inf(-1), Area: first.Area}, first)
	for i := 1; i < len(rows); i++ {
		b.add(rows[i-1], rows[i])
	}
	b.add(last, network.LevelArea{Level: math.Inf(1), Area: last.Area})
	return b
}

// add puts the part between two rows that lies between floor and crest on top.
func (b *basin) add(low, high network.LevelArea) {
	from, to := math.Max(low.Level, b.floor), math.Min(high.Level, b.crest)
	if !(to > from) {
		return
	}
	s := slice{z: from, v: b.full, a: low.Area}
	if high.Area != low.Area {
		s.taper = (high.Area - low.Area) / (high.Level - low.Level)
		s.a += s.taper * (from - low.Level)
	}
	b.slices = append(b.slices, s)
	b.full += s.volume(to)
}

// volume is what a slice holds up to the level z.
func (s *slice) volume(z float64) float64 { return (z - s.z) * (s.a + s.taper*(z-s.z)/2) }

// level is the level at volume v, m, and its slope, 1/m2.
func (b *basin) level(v float64) (z, zv float64) {
	if v <= 0 {
		return b.floor, 0
	}
	if v >= b.full {
		return b.crest, 0
	}
	s := &b.slices[0]
	for i := range b.slices {
		if b.slices[i].v <= v {
			s = &b.slices[i]
		}
	}
	dv := v - s.v
	a := math.Sqrt(s.a*s.a + 2*s.taper*dv)
	return s.z + 2*dv/(s.a+a), 1 / a
}

// volume is the volume at the level z, m3.
func (b *basin) volume(z float64) float64 {
	z = math.Min(math.Max(z, b.floor), b.crest)
	s := &b.slices[0]
	for i := range b.slices {
		if b.slices[i].z <= z {
			s = &b.slices[i]
		}
	}
	return s.v + s.volume(z)
}
