package casefile

import (
	"fmt"

	"seatwise/network/quantity"
)

const someBends = "bends: [12 m, 40 m]"

// bends reads the chainages at which a pipe changes its direction. Nothing is returned of a list with a fault.
func (s *section) bends() []float64 {
	items := s.items("bends", someBends)
	if items == nil {
		if p := s.node.get("bends"); p != nil && p.value.kind == list {
			s.r.failed(s.key("bends"), p.value.fault(s.key("bends")+" has no chainages", "write "+someBends+"; of a straight pipe [0 m]"))
		}
		return nil
	}
	if e := halves(items); e != nil {
		e.Msg = s.key("bends") + ": " + e.Msg
		s.r.failed(s.key("bends"), e)
		return nil
	}
	before := len(s.r.errs)
	bends := make([]float64, len(items))
	for i, item := range items {
		path := fmt.Sprintf("%s[%d]", s.key("bends"), i+1)
		if item.kind == empty {
			s.r.failed(path, item.fault(path+" has no value", "write the chainage of the bend"))
			continue
		}
		bends[i], _ = s.r.quantity(item, path, quantity.Length)
	}
	if len(s.r.errs) > before {
		return nil
	}
	return bends
}
