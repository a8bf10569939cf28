package fit

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
)

// ErrFit is the class of errors in what is to be fitted: no points, no disc, nothing that can be fitted.
var ErrFit = errors.New("fit: nothing to fit")

// Settings of a fit; the zero value is the default.
type Settings struct {
	Keys  []string                // data to fit; nil: of those usual for the type the ones not given that the points tell apart
	Bench characteristic.Settings // of the runs behind it
}

// roughly is the spread, a fraction, beyond which the linear model of it is no more than an order of magnitude.
const roughly = 0.3

// Parameter is a fitted datum.
type Parameter struct {
	valve.Datum         // Value is the fitted one, SI
	Generic     float64 // that of the catalogue, where the search began
	Spread      float64 // half-width of the 95 % interval, fraction of Value; NaN: as many data as points
	AtBound     bool    // the search ended at its bound, five times or a fifth of Generic or the range of the key
}

// Residual is one test point and what the fitted valve does there.
type Residual struct {
	valve.TestPoint
	Model float64 // reverse velocity, m/s; negative: forward velocity at seating
}

// Result is a fitted valve.
type Result struct {
	Spec      valve.Spec  // what was given, with the fitted data and without the tests
	Valve     valve.Valve // made of it
	Fitted    []Parameter
	Given     []valve.Datum
	Derived   []valve.Datum // from the others
	Assumed   []valve.Datum // generic or default
	Residuals []Residual    // in the order of the points
	Deviation float64       // root mean square of the residuals, m/s
	Before    float64       // the same with the generic data, m/s
	Warnings  []string
}

// Fit fits a valve to its tests in a setting. An error wraps [ErrFit], or is that of data that make no valve or that of the context.
func Fit(ctx context.Context, spec valve.Spec, in catalogue.Setting, s Settings) (*Result, error) {
	if len(spec.Tests) == 0 {
		return nil, fmt.Errorf("%w: %s has no test points", ErrFit, spec.Name)
	}
	spec = bare(spec)
	generic, err := catalogue.Complete(withoutTests(spec), in)
	if err != nil {
		return nil, err
	}
	if generic.Reach == 0 {
		return nil, fmt.Errorf("%w: type %q has no disc", ErrFit, spec.Type)
	}
	f := &problem{ctx: ctx, spec: spec, in: in, bench: s.Bench, generic: generic}
	err = f.choose(s.Keys)
	if ctx.Err() != nil { // its residuals then say nothing
		return nil, ctx.Err()
	}
	if err != nil {
		return nil, err
	}
	u, err := f.least()
	if err != nil {
		return nil, err
	}
	r, err := f.result(u)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	return r, err
}

// bare is a copy of a spec whose map may be changed.
func bare(spec valve.Spec) valve.Spec {
	set := map[string]float64{}
	maps.Copy(set, spec.Set)
	spec.Set = set
	return spec
}

func withoutTests(spec valve.Spec) valve.Spec {
	spec.Tests = nil
	return spec
}

// result looks at the valve that belongs to u.
func (f *problem) result(u []float64) (*Result, error) {
	spec := bare(withoutTests(f.at(u)))
	v, err := catalogue.Complete(spec, f.in)
	if err != nil {
		return nil, err
	}
	r := &Result{Spec: spec, Valve: v, Warnings: slices.Clone(v.Warnings)}
	n, m := len(f.spec.Tests), len(u)
	res := make([]float64, n)
	f.residuals(res, make([]float64, m))
	r.Before = rms(res)
	f.residuals(res, u)
	r.Deviation = rms(res)
	for _, p := range f.spec.Tests {
		r.Residuals = append(r.Residuals, Residual{p, f.reverse(v, p.Deceleration)})
	}
	sigma := f.sigma(u, r.Deviation)
	for i, p := range f.free {
		x := Parameter{Generic: p.generic, Spread: sigma[i], AtBound: math.Abs(math.Tanh(u[i])) > 0.999}
		x.Datum = datum(v, p.key)
		x.Status = "fitted to the test points"
		r.Fitted = append(r.Fitted, x)
		if x.AtBound {
			r.Warnings = append(r.Warnings, fmt.Sprintf("the %s ends at the bound of its search: the points ask for a valve that this type is not, or another datum is wrong", p.key))
		} else if x.Spread > roughly {
			r.Warnings = append(r.Warnings, fmt.Sprintf("the points tell the %s only roughly, and the interval is an order of magnitude: give it if it is known", p.key))
		}
	}
	for _, d := range v.Data {
		switch {
		case slices.ContainsFunc(f.free, func(p free) bool { return p.key == d.Key }):
		case d.Origin == valve.Given:
			r.Given = append(r.Given, d)
		case d.Origin == valve.Estimated:
			r.Derived = append(r.Derived, d)
		default:
			r.Assumed = append(r.Assumed, d)
		}
	}
	return r, nil
}

// sigma is the half-width of the 95 % interval of ln p for each datum; deviation is the root mean square of the residuals.
func (f *problem) sigma(u []float64, deviation float64) []float64 {
	n, m := len(f.spec.Tests), len(u)
	out := make([]float64, m)
	spread := math.NaN()
	if n > m {
		spread = deviation * math.Sqrt(float64(n)/float64(n-m)) * distuv.StudentsT{Sigma: 1, Nu: float64(n - m)}.Quantile(0.975)
	}
	variance := f.variance(u)
	for i := range out {
		out[i] = spread * math.Sqrt(variance[i])
	}
	return out
}

func datum(v valve.Valve, key string) valve.Datum {
	i := slices.IndexFunc(v.Data, func(d valve.Datum) bool { return d.Key == key })
	if i < 0 {
		return valve.Datum{}
	}
	return v.Data[i]
}

func rms(x []float64) float64 {
	s := 0.0
	for _, v := range x {
		s += v * v
	}
	return math.Sqrt(s / float64(len(x)))
}
