package fit

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"

	"seatwise/valve"
	"seatwise/valve/catalogue"
	"seatwise/valve/characteristic"
)

// problem is a valve, its tests and the data that are free: ln p = centre + half tanh(u + shift), p generic at u = 0.
type problem struct {
	ctx     context.Context
	spec    valve.Spec
	in      catalogue.Setting
	bench   characteristic.Settings
	generic valve.Valve
	free    []free
}

// free is a datum to be found.
type free struct {
	key                 string
	generic             float64
	centre, half, shift float64
}

const (
	reach    = 5.0  // factor around the generic datum that is searched
	resolved = 0.01 // m/s per unit of ln p; see the package comment
	nowhere  = 1e3  // m/s, residual where the data make no valve
	step     = 2e-3 // of u in differences: far above the rounding of a bench run
)

func newFree(key catalogue.Key, generic float64) free {
	lo, hi := math.Max(generic/reach, math.Max(key.Min, 1e-6*generic)), math.Min(generic*reach, key.Max)
	p := free{key: key.Name, generic: generic}
	p.centre, p.half = (math.Log(lo)+math.Log(hi))/2, (math.Log(hi)-math.Log(lo))/2
	p.shift = math.Atanh((math.Log(generic) - p.centre) / p.half)
	return p
}

// value is the datum at u; slope is d(ln p)/du.
func (p free) value(u float64) (x, slope float64) {
	t := math.Tanh(u + p.shift)
	return math.Exp(p.centre + p.half*t), p.half * (1 - t*t)
}

// at is the spec with the data that belong to u.
func (f *problem) at(u []float64) valve.Spec {
	spec := bare(f.spec)
	for i, p := range f.free {
		spec.Set[p.key], _ = p.value(u[i])
	}
	return spec
}

// reverse is the reverse velocity on the bench, m/s, negative when the disc seats in forward flow.
func (f *problem) reverse(v valve.Valve, a float64) float64 {
	p := characteristic.At(v, a, f.bench)
	if p.Outcome != characteristic.Seats {
		return nowhere
	}
	return p.ReverseVelocity - p.ForwardVelocity
}

// residuals fills r_i for u.
func (f *problem) residuals(r, u []float64) {
	v, err := catalogue.Complete(withoutTests(f.at(u)), f.in)
	for i, p := range f.spec.Tests {
		if err != nil || f.ctx.Err() != nil {
			r[i] = nowhere
			continue
		}
		r[i] = f.reverse(v, p.Deceleration) - p.ReverseVelocity
		if p.ReverseVelocity == 0 {
			r[i] = math.Max(0, r[i])
		}
	}
}

// jacobian is dr/du; r are the residuals at u.
func (f *problem) jacobian(u, r []float64) *mat.Dense {
	j := mat.NewDense(len(f.spec.Tests), len(u), nil)
	fd.Jacobian(j, f.residuals, u, &fd.JacobianSettings{Formula: fd.Forward, Step: step, OriginValue: r, Concurrent: true})
	return j
}

// logarithmic is dr/d(ln p).
func (f *problem) logarithmic(u []float64) *mat.Dense {
	n := len(f.spec.Tests)
	r := make([]float64, n)
	f.residuals(r, u)
	j := f.jacobian(u, r)
	for k, p := range f.free {
		_, slope := p.value(u[k])
		for i := range n {
			j.Set(i, k, j.At(i, k)/slope)
		}
	}
	return j
}

// choose sets the free data: those asked for, or those of the order that the points tell apart, fewer than the points by one if that leaves any.
func (f *problem) choose(keys []string) error {
	asked := len(keys) > 0
	if !asked {
		keys = f.order()
	}
	at := slices.IndexFunc(catalogue.Families(), func(k catalogue.Family) bool { return k.Name == f.spec.Type })
	family := catalogue.Families()[at]
	var all []free
	for _, name := range keys {
		k := slices.IndexFunc(family.Keys, func(k catalogue.Key) bool { return k.Name == name })
		given, generic := f.given(name), datum(f.generic, name).Value
		switch {
		case asked && k < 0:
			return fmt.Errorf("%w: type %q has no %q", ErrFit, f.spec.Type, name)
		case asked && given != "":
			return fmt.Errorf("%w: %s is given by the %s; leave that out to have it fitted", ErrFit, name, given)
		case asked && !(generic > 0):
			return fmt.Errorf("%w: %s is zero in a generic valve, so that there is nothing to begin with", ErrFit, name)
		case asked && slices.ContainsFunc(all, func(p free) bool { return p.key == name }):
			return fmt.Errorf("%w: %s is asked for twice", ErrFit, name)
		case k >= 0 && given == "" && generic > 0:
			all = append(all, newFree(f.below(family.Keys[k], keys), generic))
		}
	}
	n := len(f.spec.Tests)
	if asked {
		if f.free = all; len(all) > n {
			return fmt.Errorf("%w: %d data are asked for, but there are %d test points", ErrFit, len(all), n)
		}
		return nil
	}
	none := fmt.Errorf("%w: of %s none is left that is not given and that the points tell", ErrFit, strings.Join(keys, ", "))
	if len(all) == 0 {
		return none
	}
	// Gram and Schmidt: what the columns before do not explain.
	f.free = all
	j := f.logarithmic(make([]float64, len(all)))
	f.free = nil
	var basis []*mat.VecDense
	for k, p := range all {
		if len(f.free) == max(1, n-1) {
			break
		}
		c := mat.NewVecDense(n, mat.Col(nil, k, j))
		for _, b := range basis {
			c.AddScaledVec(c, -mat.Dot(b, c), b)
		}
		if norm := mat.Norm(c, 2); norm >= resolved*math.Sqrt(float64(n)) && norm < nowhere {
			c.ScaleVec(1/norm, c)
			basis, f.free = append(basis, c), append(f.free, p)
		}
	}
	if len(f.free) == 0 {
		return none
	}
	return nil
}

// lifting tells whether preload, spring rate and full-open velocity are tied to each other by the balance of forces on the stop.
func (f *problem) lifting() bool { return datum(f.generic, "force coefficient").Value > 0 }

// order is that in which data are taken to be fitted. The full-open velocity of a lifting disc moves preload and rate of its spring together, of
// which the curve tells little more than one; where that velocity is given the preload is left.
func (f *problem) order() []string {
	switch _, full := f.spec.Set["full-open velocity"]; {
	case !f.lifting():
		return []string{"full-open velocity", "moving mass", "preload", "spring rate", "added mass"}
	case full:
		return []string{"preload", "moving mass", "added mass"}
	}
	return []string{"full-open velocity", "moving mass", "added mass"}
}

// below is the key with its range cut: where the full-open velocity of a lifting disc fixes the force of the spring on the stop, the preload is below it.
func (f *problem) below(key catalogue.Key, fitted []string) catalogue.Key {
	if l, ok := f.generic.Motion.(*valve.Law); ok && f.lifting() && key.Name == "preload" && (!slices.Contains(fitted, "spring rate") || f.given("spring rate") != "") {
		key.Max = 0.999 * (l.Preload + l.SpringRate*l.Travel)
	}
	return key
}

// given is the datum that fixes another one, empty when it is free.
func (f *problem) given(key string) string {
	has := func(key string) bool { _, ok := f.spec.Set[key]; return ok }
	sprung := has("preload") || has("cracking pressure")
	switch {
	case has(key):
		return key
	case key == "preload" && has("cracking pressure"):
		return "cracking pressure"
	case key == "loss when open" && has("kv"):
		return "kv"
	case f.lifting() && key == "spring rate" && has("full-open velocity"):
		return "full-open velocity"
	case f.lifting() && key == "preload" && has("spring rate") && has("full-open velocity"):
		return "spring rate and full-open velocity"
	case f.lifting() && key == "full-open velocity" && has("spring rate") && sprung:
		return "spring rate and preload"
	}
	return ""
}

// least finds the u of the least sum of squares.
func (f *problem) least() ([]float64, error) {
	m, n := len(f.free), len(f.spec.Tests)
	var j *mat.Dense
	var jAt []float64
	r, rAt := make([]float64, n), []float64(nil)
	residuals := func(u []float64) *mat.VecDense {
		if !slices.Equal(u, rAt) {
			f.residuals(r, u)
			rAt = slices.Clone(u)
		}
		return mat.NewVecDense(n, r)
	}
	jacobian := func(u []float64) *mat.Dense {
		if !slices.Equal(u, jAt) {
			residuals(u)
			j, jAt = f.jacobian(u, r), slices.Clone(u)
		}
		return j
	}
	p := optimize.Problem{
		Func: func(u []float64) float64 {
			v := residuals(u)
			return mat.Dot(v, v)
		},
		Grad: func(g, u []float64) {
			v := mat.NewVecDense(m, g)
			v.MulVec(jacobian(u).T(), residuals(u))
			v.ScaleVec(2, v)
		},
		Hess: func(h *mat.SymDense, u []float64) {
			h.SymOuterK(2, jacobian(u).T())
			g := mat.NewVecDense(m, nil)
			g.MulVec(jacobian(u).T(), residuals(u))
			for i := range m {
				h.SetSym(i, i, h.At(i, i)+2*mat.Norm(g, 2))
			}
		},
	}
	settings := &optimize.Settings{
		MajorIterations:   30,
		GradientThreshold: 1e-7,
		Converger:         &optimize.FunctionConverge{Absolute: 1e-9, Relative: 1e-4, Iterations: 2},
	}
	var best *optimize.Result
	for _, start := range f.starts(p.Func) {
		found, err := optimize.Minimize(p, start, settings, &optimize.Newton{Linesearcher: &optimize.Backtracking{}})
		if f.ctx.Err() != nil {
			return nil, f.ctx.Err()
		}
		if found == nil {
			return nil, fmt.Errorf("fit: %w", err)
		}
		// An error of the line search, that it can go no further, is an arrival.
		if best == nil || found.F < best.F {
			best = found
		}
		if best.F <= float64(n)*resolved*resolved {
			break
		}
	}
	if !(best.F < nowhere) {
		return nil, fmt.Errorf("%w: the generic valve does not close at the tests: give more of its data", ErrFit)
	}
	return best.X, nil
}

// mostStarts bounds the searches; a further one is made when those before leave residuals that a test would resolve.
const mostStarts = 3

// starts are the generic data and the best two points of a coarse grid, the best first, so that the search does not end in a valley beside the
// deepest: for each datum the grid has the generic one and those at 0.6 of the way to either bound of ln p.
func (f *problem) starts(s func([]float64) float64) [][]float64 {
	levels := []float64{0, -0.7, 0.7}
	type point struct {
		u []float64
		s float64
	}
	var grid []point
	u := make([]float64, len(f.free))
	for n := 0; ; n++ {
		rest := n
		for i := range u {
			u[i] = levels[rest%len(levels)]
			rest /= len(levels)
		}
		if rest > 0 {
			break
		}
		grid = append(grid, point{slices.Clone(u), s(u)})
	}
	generic := grid[0]
	slices.SortStableFunc(grid, func(a, b point) int { return cmp.Compare(a.s, b.s) })
	var out [][]float64
	for _, p := range grid {
		if len(out) == mostStarts-1 && !slices.ContainsFunc(out, func(u []float64) bool { return slices.Equal(u, generic.u) }) {
			p = generic
		}
		if out = append(out, p.u); len(out) == mostStarts {
			break
		}
	}
	return out
}

// variance is the diagonal of (J^T J)^-1 in ln p.
func (f *problem) variance(u []float64) []float64 {
	j := f.logarithmic(u)
	_, m := j.Dims()
	var normal, inverse mat.Dense
	normal.Mul(j.T(), j)
	out := make([]float64, m)
	err := inverse.Inverse(&normal)
	for i := range out {
		if out[i] = math.Inf(1); err == nil {
			out[i] = inverse.At(i, i)
		}
	}
	return out
}
