package catalogue

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/valve"
)

var (
	// ErrType is an unknown family.
	ErrType = errors.New("catalogue: unknown valve type")
	// ErrKey is a datum that the family does not have.
	ErrKey = errors.New("catalogue: unknown valve datum")
	// ErrValue is a datum or size out of range, or a combination that contradicts itself.
	ErrValue = errors.New("catalogue: unusable valve datum")
)

// Sizes that the catalogue covers, nominal bore in m.
const (
	SmallestSize = 0.050
	LargestSize  = 0.900
)

// Setting is what the installation says about a valve.
type Setting struct {
	Density float64 // of the fluid, kg/m3
	Gravity float64 // m/s2
	Slope   float64 // of the pipe at the valve, rad, positive rising in the direction of flow
}

// Family is one type of valve, for help texts.
type Family struct {
	Name   string
	Help   string
	Keys   []Key
	Tables []string
}

// Key is a datum that can be set in place of the catalogue's.
type Key struct {
	Name string // as in the case file
	Unit string // SI; "1" for a ratio
	Help string
	Min  float64 // least value
	Max  float64 // greatest value
}

type family struct {
	Family
	soft  bool // its usual seat
	build func(*draft) (valve.Valve, error)
}

// families in the order of the help texts.
var families = []family{
	swing, swingHeavy, swingLever, swingSpring, swingDashpot, flap, tiltingDisc, tiltingSteep, ball, lift,
	axialSpring, springDisc, nozzle, nozzleGas,
	dualPlate,
	ideal, measured,
}

// Families lists what the catalogue knows.
func Families() []Family {
	list := make([]Family, len(families))
	for i, f := range families {
		list[i] = f.Family
	}
	return list
}

// Complete makes a valve of what the user said, the catalogue's data for the rest, and the setting.
func Complete(spec valve.Spec, s Setting) (valve.Valve, error) {
	var names []string
	for _, f := range families {
		if f.Name == spec.Type {
			return complete(f, spec, s)
		}
		names = append(names, f.Name)
	}
	return valve.Valve{}, fmt.Errorf("%w: %q; known types: %s", ErrType, spec.Type, strings.Join(names, ", "))
}

func complete(f family, spec valve.Spec, s Setting) (valve.Valve, error) {
	if err := f.accepts(spec); err != nil {
		return valve.Valve{}, err
	}
	if !(s.Density > 0) || !(s.Gravity > 0) || math.IsInf(s.Density, 0) || math.IsInf(s.Gravity, 0) || !(math.Abs(s.Slope) <= math.Pi/2) {
		return valve.Valve{}, fmt.Errorf("%w: setting %+v", ErrValue, s)
	}
	if !(spec.Size >= SmallestSize && spec.Size <= LargestSize) {
		return valve.Valve{}, fmt.Errorf("%w: size %.0f mm; the catalogue covers %.0f to %.0f mm", ErrValue, 1000*spec.Size, 1000*SmallestSize, 1000*LargestSize)
	}
	v, err := f.sheet(spec, s)
	if err != nil {
		return valve.Valve{}, fmt.Errorf("%s valve: %w", f.Name, err)
	}
	if spec.Spring != 0 {
		if v, err = v.Stronger(spec.Spring); err != nil {
			return valve.Valve{}, fmt.Errorf("%s valve: %w", f.Name, err)
		}
	}
	return v.Failed(spec.Failure)
}

// make builds the valve of a spec in the keys of the family's law.
func (f family) make(spec valve.Spec, s Setting) (valve.Valve, error) {
	d := &draft{spec: spec, setting: s, keys: f.Keys, usual: hard}
	if f.soft {
		d.usual = soft
	}
	v, err := f.build(d)
	if err != nil {
		return valve.Valve{}, err
	}
	v.Name, v.Type, v.Density, v.Data = spec.Name, spec.Type, s.Density, d.data
	return v, nil
}

// accepts checks keys and ranges of the user's data.
func (f family) accepts(spec valve.Spec) error {
	var errs []error
	for _, name := range sorted(spec.Set) {
		value := spec.Set[name]
		k, ok := find(f.Keys, name)
		switch {
		case !ok:
			errs = append(errs, fmt.Errorf("%w: %q; type %q has: %s", ErrKey, name, f.Name, list(f.Keys)))
		case !(value >= k.Min && value <= k.Max):
			errs = append(errs, fmt.Errorf("%w: %s = %g %s must be between %g and %g", ErrValue, name, value, k.Unit, k.Min, k.Max))
		case k.Named() && k.Word(value) == "":
			errs = append(errs, fmt.Errorf("%w: %s must be one of its words", ErrValue, name))
		}
	}
	for _, name := range sorted(spec.Tables) {
		known := false
		for _, t := range f.Tables {
			known = known || t == name
		}
		if !known {
			errs = append(errs, fmt.Errorf("%w: %q; type %q has the tables: %s", ErrKey, name, f.Name, strings.Join(f.Tables, ", ")))
		} else if t := spec.Tables[name]; len(t.Opening) == 0 || len(t.Opening) != len(t.Value) {
			errs = append(errs, fmt.Errorf("%w: %s: needs rows of an opening and a value", ErrValue, name))
		}
	}
	_, leak := spec.Set["leak"]
	if _, class := spec.Set[leakageClass]; leak && class {
		errs = append(errs, fmt.Errorf("%w: leak and leakage class say the same; give one of them", ErrValue))
	}
	_, kind := spec.Set[seatKind]
	if _, e := spec.Set[restitution]; kind && e {
		errs = append(errs, fmt.Errorf("%w: seat and restitution say the same; give one of them", ErrValue))
	}
	if len(spec.Tests) > 0 && !slices.Contains(f.Tables, TestPoints) {
		errs = append(errs, fmt.Errorf("%w: %q; type %q is not fitted to tests; the type measured closes by them", ErrKey, TestPoints, f.Name))
	}
	return errors.Join(errs...)
}
