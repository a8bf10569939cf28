package casefile

import (
	"fmt"

	"seatwise/network/quantity"
	"seatwise/valve"
)

var testColumns = []column{{name: "deceleration", dim: quantity.Acceleration}, {name: "reverse velocity", dim: quantity.Velocity}}

// tests reads the results of tests of a valve: deceleration of the flow and reverse velocity at which the valve shut. A curve comes in the order of
// the deceleration and does not fall; single results to fit a disc to may come in any order, and more than once.
func (s *section) tests(key string, curve bool) []valve.TestPoint {
	rows, _ := s.table(key, testColumns)
	var points []valve.TestPoint
	for i, row := range rows {
		p := valve.TestPoint{Deceleration: row[0], ReverseVelocity: row[1]}
		switch {
		case !(p.Deceleration > 0):
			s.rowFault(key, i, "the deceleration is not above zero", "give it as a positive number")
		case !(p.ReverseVelocity >= 0):
			s.rowFault(key, i, "the reverse velocity is below zero", "give it as a positive number, 0 m/s where the valve shut in forward flow")
		case curve && i > 0 && p.Deceleration <= points[i-1].Deceleration:
			s.rowFault(key, i, "the deceleration does not increase", "sort the rows by deceleration and give each once")
		case curve && i > 0 && p.ReverseVelocity < points[i-1].ReverseVelocity:
			s.rowFault(key, i, "the reverse velocity falls while the deceleration grows", "look at the test again, or draw a smooth curve through its points and take it from there")
		default:
			points = append(points, p)
			continue
		}
		return nil
	}
	if len(points) == 1 && curve {
		s.rowFault(key, 0, "a curve has two points or more", "give more points; the type ideal with closes at has a single reverse velocity")
		return nil
	}
	return points
}

// rowFault reports a row of a table, counted from 0.
func (s *section) rowFault(key string, i int, msg, hint string) {
	path := fmt.Sprintf("%s[%d]", s.key(key), i+1)
	at := s.node.place(path[len(s.path)+1:])
	if c, _, ok := s.r.cell(path); ok {
		at = c.node
	}
	s.r.failed(path, at.fault(path+": "+msg, hint))
}

// tested says in words how a valve uses its test points.
func tested(v valve.Valve) string {
	m, ok := v.Motion.(*valve.Measured)
	if !ok {
		return "the test points do not move the disc"
	}
	by := fmt.Sprintf("the slope of the velocity at zero, by least squares over about the last %s", quantity.Format(m.Watch.Window, quantity.Time, quantity.SI))
	if m.Watch.From > 0 {
		by = fmt.Sprintf("the mean slope of the velocity from %s to zero", quantity.Format(m.Watch.From, quantity.Velocity, quantity.SI))
	}
	return "it shuts at the reverse velocity of its test points; the deceleration is " + by + "; points of another size count in the dimensionless form, reverse velocity over full-open velocity V against deceleration times bore over V squared"
}
