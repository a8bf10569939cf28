package fluid

import (
	"errors"
	"fmt"
	"math"
)

// Fluid is a liquid at one state; every property is constant over a run.
type Fluid struct {
	Name           string
	Temperature    float64 // K; 0 when not given
	Density        float64 // kg/m3
	BulkModulus    float64 // isentropic, Pa
	Viscosity      float64 // dynamic, Pa s
	VapourPressure float64 // absolute, Pa
}

// ErrProperty is wrapped by errors about a property that is missing or impossible.
var ErrProperty = errors.New("fluid: bad property")

// ErrRange is wrapped by errors about a state outside the range of a formulation.
var ErrRange = errors.New("fluid: state out of range")

// Liquid returns a liquid from its properties: density kg/m3, isentropic bulk
// modulus Pa, dynamic viscosity Pa s, vapour pressure Pa absolute. The error
// wraps ErrProperty.
func Liquid(name string, density, bulkModulus, viscosity, vapourPressure float64) (Fluid, error) {
	f := Fluid{
		Name:           name,
		Density:        density,
		BulkModulus:    bulkModulus,
		Viscosity:      viscosity,
		VapourPressure: vapourPressure,
	}
	if err := f.Validate(); err != nil {
		return Fluid{}, err
	}
	return f, nil
}

// SoundSpeed returns the speed of sound in the unconfined liquid, m/s.
func (f Fluid) SoundSpeed() float64 { return math.Sqrt(f.BulkModulus / f.Density) }

// KinematicViscosity returns the kinematic viscosity, m2/s.
func (f Fluid) KinematicViscosity() float64 { return f.Viscosity / f.Density }

// VapourHead returns the gauge head at which the liquid boils, m, for an
// atmospheric pressure in Pa absolute and gravity in m/s2. It is negative for a
// liquid that does not boil in the open.
func (f Fluid) VapourHead(atmosphere, gravity float64) float64 {
	return (f.VapourPressure - atmosphere) / (f.Density * gravity)
}

// Validate reports the first property that no liquid can have. The error wraps
// ErrProperty.
func (f Fluid) Validate() error {
	for _, c := range []struct {
		name, hint string
		value      float64
		ok         bool
	}{
		{"density", "give kg/m3, above zero", f.Density, f.Density > 0},
		{"bulk modulus", "give the isentropic value in Pa, above zero", f.BulkModulus, f.BulkModulus > 0},
		{"viscosity", "give the dynamic value in Pa s, above zero", f.Viscosity, f.Viscosity > 0},
		{"vapour pressure", "give Pa absolute, zero or above", f.VapourPressure, f.VapourPressure >= 0},
		{"temperature", "give K, zero when unknown", f.Temperature, f.Temperature >= 0},
	} {
		if !c.ok || math.IsInf(c.value, 0) {
			return fmt.Errorf("%w: %s %g of %q (%s)", ErrProperty, c.name, c.value, f.Name, c.hint)
		}
	}
	return nil
}
