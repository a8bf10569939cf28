package casefile

import (
	"seatwise/network"
	"seatwise/network/quantity"
)

// pipes reads the section pipes.
func (r *reader) pipes(root *section, n *network.Network) {
	root.named("pipes", func(name string, s *section) {
		p := network.Pipe{Name: name}
		p.From, p.To = s.ends()
		c := r.conduit(s, n.Fluid)
		p.Bore, p.WaveSpeed, p.Roughness, p.FrictionFactor, p.MinorLoss, p.Bends = c.bore, c.waveSpeed, c.roughness, c.friction, c.minorLoss, c.bends
		p.Creep = c.creep
		p.Profile = s.profile()
		n.Pipes = append(n.Pipes, p)
	})
}

// profile reads `profile`, or `length` and `elevation` of a level pipe.
func (s *section) profile() []network.Point {
	rows, _ := s.table("profile", []column{{name: "chainage", dim: quantity.Length}, {name: "elevation", dim: quantity.Length}})
	if s.has("profile") {
		for _, key := range []string{"length", "elevation"} {
			if s.take(key) != nil {
				s.conflict(key, key+" and profile are both given", "leave one out: the profile has length and elevations")
			}
		}
		var profile []network.Point
		for _, row := range rows {
			profile = append(profile, network.Point{Chainage: row[0], Elevation: row[1]})
		}
		return profile
	}
	if !s.has("length") && !s.has("elevation") {
		s.need("profile", "[[0 m, 102 m], [600 m, 140 m]], or length and elevation of a level pipe")
		return nil
	}
	length, ok := s.needPositive("length", quantity.Length, "600 m")
	elevation, level := s.needQuantity("elevation", quantity.Length, "102 m")
	if !ok || !level {
		s.r.fail(s.key("profile"))
		return nil
	}
	return []network.Point{{Elevation: elevation}, {Chainage: length, Elevation: elevation}}
}
