package casefile

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/network/pipe"
	"seatwise/network/quantity"
)

// conduit is what pipes and branches have in common.
type conduit struct {
	bore, waveSpeed, roughness, friction, minorLoss float64
	bends                                           []float64
	creep                                           network.Creep
}

// Figures in place of one that could not be read. They never reach a case: what could not be read is an error.
const (
	someBore      = 0.5  // m
	someWall      = 5e-3 // m
	someWaveSpeed = 1000 // m/s
)

// shell is the wall of a conduit.
type shell struct {
	thickness float64 // m; 0: not known
	material  pipe.Material
	known     bool    // the material is
	young     float64 // Young's modulus for sudden load, Pa
	status    string  // how far it can be trusted
	restraint pipe.Restraint
	held      bool // the restraint is given
}

// conduit reads bore, wall, wave speed, creep, friction and bends.
func (r *reader) conduit(s *section, liquid fluid.Fluid) conduit {
	var c conduit
	var w shell
	w.material, w.known = s.material()
	young, ok := s.positive("modulus", quantity.Modulus)
	if w.young, w.status = w.material.Young, w.material.Status; ok {
		w.young, w.status = young, ""
	}
	c.bore, w.thickness = s.boreAndWall()
	w.restraint, w.held = s.restraint()
	c.waveSpeed = s.waveSpeed(liquid, c.bore, w)
	c.creep = s.creep(c.bore, w)
	c.roughness, c.friction = s.friction(w.material, w.known)
	c.minorLoss, _ = s.quantity("minor loss", quantity.Number)
	if !s.has("minor loss") {
		r.assume(s.key("minor loss"), "0", Default, "", "%s: no minor losses", s.path)
	}
	c.bends = s.bends()
	return c
}

// material looks up the material of the wall.
func (s *section) material() (pipe.Material, bool) {
	s.r.survey.form(s.key("material"), shape{kind: isWord, words: pipe.Names(), free: true}) // in any case of letters, and by other names of the trade
	name, ok := s.text("material")
	if !ok {
		return pipe.Material{}, false
	}
	m, ok := pipe.Lookup(name)
	if ok {
		return m, true
	}
	hint := "materials: " + strings.Join(pipe.Names(), ", ")
	if near := network.Nearest(name, pipe.Names()); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	s.r.failed(s.key("material"), s.node.get("material").value.fault(fmt.Sprintf("%s: there is no material %s", s.key("material"), quantity.Quote(name)), hint))
	return pipe.Material{}, false
}

// boreAndWall reads `bore` and `wall`, or `size`. The wall is 0 when it is not given.
func (s *section) boreAndWall() (bore, wall float64) {
	label, sized := s.text("size")
	wall, _ = s.positive("wall", quantity.Length)
	if !s.has("size") {
		bore, ok := s.needQuantity("bore", quantity.Length, "700 mm")
		if !ok || bore <= 0 {
			return bore, wall // network.Validate complains of the bore
		}
		if wall >= bore/2 {
			s.doubt("wall", "the wall is half the bore or more", "give the thickness of the wall, e.g. 9.5 mm")
		}
		return bore, wall
	}
	for _, key := range []string{"bore", "wall"} {
		if s.take(key) != nil {
			s.conflict(key, key+" and size are both given", "leave one out: the size has bore and wall")
		}
	}
	if !sized {
		return someBore, someWall
	}
	size, err := pipe.Schedule(label)
	if err != nil {
		s.r.failed(s.key("size"), s.unknownSize(err))
		return someBore, someWall
	}
	s.r.assume(s.key("bore"), fmt.Sprintf("%.4g mm", size.Bore()*1e3), Catalogue, "ASME B36.10M, from memory",
		"%s: bore %.4g mm and wall %.4g mm of size %s", s.path, size.Bore()*1e3, size.Wall*1e3, size.Label)
	return size.Bore(), size.Wall
}

// unknownSize is the error of package pipe about a size, with the nearest that there is.
func (s *section) unknownSize(err error) *Error {
	at := s.node.get("size").value
	var e *pipe.SizeError
	if !errors.As(err, &e) {
		return at.fault(s.key("size")+": "+err.Error(), "")
	}
	if near := network.Nearest(e.Schedule, e.Schedules); near != "" && e.Nominal != "" {
		return at.fault(fmt.Sprintf("%s: unknown size %s", s.key("size"), quantity.Quote(e.Label)), fmt.Sprintf("did you mean %q?", e.Nominal+" "+near))
	}
	return at.fault(fmt.Sprintf("%s: unknown size %s (%s)", s.key("size"), quantity.Quote(e.Label), e.Hint), "write it like DN450 STD or NPS 18 STD, or give bore and wall")
}

// conflict reports a key that cannot stand beside another.
func (s *section) conflict(key, msg, hint string) {
	s.r.survey.clash(s.key(key))
	s.doubt(key, msg, hint)
}

// doubt reports a key whose value cannot be right.
func (s *section) doubt(key, msg, hint string) {
	s.r.failed(s.key(key), s.node.get(key).key.fault(s.path+": "+msg, hint))
}

// waveSpeed reads `wave speed`, or works it out from wall, material or modulus, restraint and gas content.
func (s *section) waveSpeed(liquid fluid.Fluid, bore float64, w shell) float64 {
	a, given := s.quantity("wave speed", quantity.Velocity)
	gas, gassy := s.gasContent()
	if s.has("wave speed") {
		for _, key := range []string{"wall", "restraint", "gas content", "modulus"} {
			if s.take(key) != nil {
				s.conflict(key, key+" and wave speed are both given", "leave one out: the wave speed follows from wall, material or modulus, restraint and gas content")
			}
		}
		if !given {
			return someWaveSpeed
		}
		return a
	}
	if !s.has("size") {
		s.need("wall", "9.5 mm")
	}
	s.need("material", "carbon steel")
	if !w.known || !gassy || !(bore > 0) || !(w.thickness > 0) || s.r.unread(s.key("wall")) {
		return someWaveSpeed
	}
	if !w.held && !s.has("restraint") {
		s.r.assume(s.key("restraint"), w.restraint.String(), Default, "common practice", "%s: %s", s.path, w.restraint)
	}
	m := w.material
	m.Young = w.young
	a = pipe.WaveSpeed(liquid, bore, w.thickness, m, w.restraint, gas)
	if math.IsNaN(a) || math.IsInf(a, 0) {
		return someWaveSpeed
	}
	s.r.assume(s.key("wave speed"), fmt.Sprintf("%.4g m/s", a), Estimated, w.status,
		"%s: wave speed %.4g m/s in %s, Young's modulus %.4g GPa", s.path, a, m.Name, m.Young/1e9)
	return a
}

// restraint reads how the pipe is held.
func (s *section) restraint() (pipe.Restraint, bool) {
	var words []string
	for _, r := range []pipe.Restraint{pipe.AnchoredThroughout, pipe.AnchoredUpstream, pipe.ExpansionJoints} {
		words = append(words, r.String())
	}
	text, ok := s.choose("restraint", words)
	if !ok {
		return pipe.AnchoredThroughout, false
	}
	r, err := pipe.ParseRestraint(text)
	return r, err == nil
}

// gasContent reads the free gas, as its share of the volume at the pressure of the surroundings. The result is false when it cannot be read.
func (s *section) gasContent() (pipe.GasContent, bool) {
	x, ok := s.quantity("gas content", quantity.Fraction)
	if !s.has("gas content") {
		return pipe.GasContent{}, true
	}
	if !ok {
		return pipe.GasContent{}, false
	}
	if x < 0 || x >= 0.1 {
		p := s.node.get("gas content")
		s.r.failed(s.key("gas content"), p.value.fault(fmt.Sprintf("%s is %s", s.key("gas content"), p.value.text), "give 0 % to 10 % of the volume; ordinary water has well below 1 %"))
		return pipe.GasContent{}, false
	}
	if x > 0 {
		s.r.assume(s.key("gas content"), "", Default, "low side: pressure makes the bubbles smaller", "%s: the free gas is taken at atmospheric pressure", s.path)
	}
	return pipe.GasContent{Fraction: x, Pressure: s.r.atmosphere}, true
}

// friction reads `friction factor`, or `roughness` with the material's as default.
func (s *section) friction(m pipe.Material, known bool) (roughness, factor float64) {
	factor, ok := s.positive("friction factor", quantity.Number)
	roughness, rough := s.quantity("roughness", quantity.Length)
	switch {
	case s.has("friction factor"):
		if s.take("roughness") != nil {
			s.conflict("roughness", "roughness and friction factor are both given", "leave one out")
		}
		if ok {
			return 0, factor
		}
		return 0, 0
	case s.has("roughness"):
		if rough {
			return roughness, 0
		}
		return 0, 0
	case known:
		s.r.assume(s.key("roughness"), fmt.Sprintf("%.4g mm", m.Roughness*1e3), Default, m.Status, "%s: roughness of %s %.4g mm", s.path, m.Name, m.Roughness*1e3)
		return m.Roughness, 0
	case !s.has("material") && s.has("wave speed"):
		s.need("roughness", "0.1 mm")
	}
	return 0, 0
}
