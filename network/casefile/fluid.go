package casefile

import (
	"fmt"
	"strings"

	"seatwise/network"
	"seatwise/network/fluid"
	"seatwise/network/quantity"
)

// Defaults of the surroundings.
const (
	standardAtmosphere = 101325.0 // Pa, ISO 2533, Standard atmosphere, 1975
	waterTemperature   = 293.15   // K
)

// surroundings reads the atmosphere.
func (r *reader) surroundings(root *section) {
	r.atmosphere = standardAtmosphere
	p, ok := root.quantity("atmosphere", quantity.AbsolutePressure)
	switch {
	case !ok && !root.has("atmosphere"):
		r.assume("atmosphere", "101.325 kPa", Default, "ISO 2533, Standard atmosphere, 1975", "atmosphere 101.325 kPa")
	case ok && p < 10e3:
		r.failed("atmosphere", root.node.get("atmosphere").value.fault(
			fmt.Sprintf("atmosphere is %s, less than a tenth of the usual one", root.node.get("atmosphere").value.text), "it is absolute, e.g. 101.3 kPa"))
	case ok:
		r.atmosphere = p
	}
}

// stand-in for a liquid that could not be read, so that the rest of the file can be judged.
var standIn = fluid.Fluid{Name: "water", Temperature: waterTemperature, Density: 998.2, BulkModulus: 2.19e9, Viscosity: 1.002e-3, VapourPressure: 2339}

// liquid reads the section fluid.
func (r *reader) liquid(root *section) fluid.Fluid {
	s := r.section(root.need("fluid", "{liquid: water, temperature: 15 °C}"), "fluid")
	defer s.done()
	name, ok := s.needText("liquid", "water")
	temperature, warm := s.quantity("temperature", quantity.Temperature)
	switch {
	case ok && strings.EqualFold(name, "water"):
		if !s.has("temperature") {
			temperature, warm = waterTemperature, true
			r.assume("fluid.temperature", "20 °C", Default, "common practice", "water at 20 °C")
		}
		return r.water(s, temperature, warm)
	case ok && network.Nearest(name, []string{"water"}) != "" && !s.has("density"):
		r.failed("fluid.liquid", s.node.get("liquid").value.fault("fluid.liquid: "+quantity.Quote(name)+" has no density", `did you mean "water"?`))
		for _, key := range []string{"bulk modulus", "viscosity", "vapour pressure"} {
			s.take(key)
		}
		return standIn
	}
	if s.has("temperature") && ok {
		r.failed("fluid.temperature", s.node.get("temperature").key.fault(fmt.Sprintf("fluid: the temperature of %s does nothing", quantity.Quote(name)),
			"take it out, and give density, bulk modulus, viscosity and vapour pressure as they are at that temperature; only water follows its temperature"))
	}
	return r.other(s, name, ok)
}

// water is water at a temperature under the atmosphere.
func (r *reader) water(s *section, temperature float64, ok bool) fluid.Fluid {
	for _, key := range []string{"density", "bulk modulus", "viscosity", "vapour pressure"} {
		if s.take(key) != nil {
			r.failed(s.key(key), s.node.get(key).key.fault("fluid: the "+key+" of water is calculated", "take it out, or give the liquid a name of its own and all its properties"))
		}
	}
	if !ok {
		return standIn
	}
	f, p, err := liquidWater(temperature, r.atmosphere)
	if err != nil {
		at := s.at
		if given := s.node.get("temperature"); given != nil {
			at = given.value
		}
		r.failed("fluid.temperature", at.fault("fluid.temperature: "+strings.TrimPrefix(err.Error(), "fluid: "), "give a temperature between freezing and 350 °C"))
		return standIn
	}
	r.assume("fluid", fmt.Sprintf("%.5g kg/m3", f.Density), Estimated, "IAPWS-IF97",
		"water at %.4g °C and %.4g kPa abs: density %.5g kg/m3, bulk modulus %.4g GPa, vapour pressure %.4g kPa abs", temperature-273.15, p/1e3, f.Density, f.BulkModulus/1e9, f.VapourPressure/1e3)
	return f
}

// liquidWater is water under the atmosphere or, where it would boil there, under the first doubling of the atmosphere at which it does not: its
// properties hardly change with pressure. The pressure is returned, Pa.
func liquidWater(temperature, atmosphere float64) (f fluid.Fluid, p float64, err error) {
	const greatest = 40e6 // Pa
	for p = atmosphere; p < greatest; p *= 2 {
		if f, err = fluid.Water(temperature, p); err == nil {
			break
		}
	}
	return f, p, err
}

// other is a liquid with its properties given.
func (r *reader) other(s *section, name string, named bool) fluid.Fluid {
	density, ok1 := s.needPositive("density", quantity.Density, "that of your liquid, e.g. 900 kg/m3")
	bulk, ok2 := s.needPositive("bulk modulus", quantity.Modulus, "that of your liquid, e.g. 1.5 GPa")
	viscosity, ok3 := s.viscosity(density)
	vapour, ok4 := s.needQuantity("vapour pressure", quantity.AbsolutePressure, "that of your liquid, e.g. 0.5 kPa")
	if !named || !ok1 || !ok2 || !ok3 || !ok4 {
		return standIn
	}
	f, err := fluid.Liquid(name, density, bulk, viscosity, vapour)
	if err != nil {
		r.failed("fluid", s.at.fault("fluid: "+strings.TrimPrefix(err.Error(), fluid.ErrProperty.Error()+": "), ""))
		return standIn
	}
	return f
}

// viscosity reads a dynamic or a kinematic viscosity; the result is dynamic, Pa s.
func (s *section) viscosity(density float64) (float64, bool) {
	p := s.take("viscosity")
	s.r.survey.form(s.key("viscosity"), figureOf(quantity.KinematicViscosity))
	if p != nil {
		if _, err := quantity.Parse(p.value.text, quantity.KinematicViscosity); err == nil {
			nu, ok := s.positive("viscosity", quantity.KinematicViscosity)
			return nu * density, ok
		}
	}
	return s.needPositive("viscosity", quantity.DynamicViscosity, "that of your liquid, e.g. 5 mPa·s")
}
