package casefile

import "seatwise/valve/service"

// service reads what the service asks of the type of the valve, whatever its dynamics.
func (r *reader) service(root *section) service.Service {
	s := r.section(root.take("service"), "service")
	is := func(key, word, other string) bool {
		text, _ := s.choose(key, []string{word, other})
		return text == word
	}
	out := service.Service{
		Dirty:      is("dirty", "yes", "no"),
		Piggable:   is("piggable", "yes", "no"),
		Pulsation:  is("pulsation", "yes", "no"),
		NoRotation: is("reverse rotation", "not allowed", "allowed"),
		Harmless:   is("backflow", "harmless", "harmful"),
	}
	s.done()
	return out
}
