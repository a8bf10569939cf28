package casefile

import (
	"fmt"

	"seatwise/network"
	"seatwise/network/pipe"
	"seatwise/network/quantity"
)

// creep reads `creep`, the retarded compliance of a plastic wall. A plastic without it is worth a warning.
func (s *section) creep(bore float64, w shell) (c network.Creep) {
	rows, _ := s.table("creep", []column{{name: "compliance", dim: quantity.Compliance}, {name: "time", dim: quantity.Time}})
	if !s.has("creep") {
		if w.known && w.material.Creeps {
			how := "give creep: [[compliance, time], ...]"
			if s.has("wave speed") {
				how += ", with wall and modulus in place of the wave speed"
			}
			s.r.warnings = append(s.r.warnings, fmt.Sprintf("%s: %s creeps, which an elastic wall leaves out: later peaks come out too high; %s, as the maker or a test has it at the temperature of the line", s.path, w.material.Name, how))
		}
		return c
	}
	if s.has("wave speed") {
		s.conflict("creep", "creep and wave speed are both given", "give wall, material and modulus in place of the wave speed: the creep works by the ratio of bore to wall, and the modulus sets the wave speed")
		return c
	}
	if !w.known || !(bore > 0) || !(w.thickness > 0) {
		return c
	}
	c.Stretch = pipe.Stretch(bore, w.thickness, w.material, w.restraint)
	for _, row := range rows {
		c.Elements = append(c.Elements, network.CreepElement{Compliance: row[0], Time: row[1]})
	}
	s.r.assume(s.path+".initial creep", "", Given, "", "%s: the wall has done creeping under the pressure at the start of the run", s.path)
	return c
}
