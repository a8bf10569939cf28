package casefile

import (
	"fmt"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// upstream reads the fitting that stands before a check valve.
func (s *section) upstream() network.Upstream {
	u := s.r.section(s.take("upstream"), s.key("upstream"))
	if u.node == nil {
		return network.Upstream{}
	}
	defer u.done()
	var out network.Upstream
	if u.need("fitting", "bend") != nil {
		out.Fitting, _ = u.choose("fitting", choice.Fittings())
	}
	out.Distance, _ = u.needQuantity("distance", quantity.Length, "1.5 m")
	if p := u.node.get("distance"); p != nil && !s.r.unread(u.key("distance")) && !(out.Distance >= 0 && out.Distance <= mostDistance) {
		s.r.failed(u.key("distance"), p.value.fault(fmt.Sprintf("%s is %s", u.key("distance"), p.value.text), "give the straight pipe between the fitting and the valve, 0 m to 1 km"))
	}
	return out
}

const mostDistance = 1000 // m
