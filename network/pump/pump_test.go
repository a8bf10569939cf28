package pump

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const rpm = math.Pi / 30

// lift is the pump of the built-in example.
func lift() Spec {
	return Spec{
		Flow: 430. / 3600, Head: 52, Speed: 1480 * rpm, Efficiency: 0.81,
		Curve: []Point{{0, 66, 0}, {215. / 3600, 62, 0}, {430. / 3600, 52, 0}, {600. / 3600, 39, 0}},
	}
}

// withEfficiency is lift with an efficiency column that agrees with its rated point.
func withEfficiency() Spec {
	s := lift()
	for i, eta := range []float64{0, 0.62, 0.81, 0.74} {
		s.Curve[i].Efficiency = eta
	}
	return s
}

// bare is a rated point of the given specific speed, and nothing else.
func bare(specificSpeed float64) Spec {
	return Spec{Flow: 0.3, Head: 40, Speed: 990 * rpm, Efficiency: 0.8, SpecificSpeed: specificSpeed}
}

func build(t testing.TB, s Spec) *Pump {
	t.Helper()
	p, err := New(s, 998.2, 9.80665)
	require.NoError(t, err)
	return p
}

// specs are pumps of every construction, by name.
func specs() map[string]Spec {
	runOut := lift() // far past the zero of the head data of the set
	runOut.Curve = append(runOut.Curve, Point{900. / 3600, 5, 0})
	late := withEfficiency()
	late.Curve = late.Curve[1:]
	unlike := lift()
	unlike.SpecificSpeed = 261
	out := map[string]Spec{"curve": lift(), "efficiency": withEfficiency(), "run-out": runOut, "late": late, "unlike": unlike}
	for _, set := range Sets() {
		out[set.Name] = bare(set.SpecificSpeed)
	}
	return out
}

func TestRatedPoint(t *testing.T) {
	for name, s := range specs() {
		t.Run(name, func(t *testing.T) {
			p := build(t, s)
			h, _, _, torque, _, _ := p.At(s.Flow, s.Speed)
			require.InEpsilon(t, s.Head, h, 1e-12)
			want := 998.2 * 9.80665 * s.Flow * s.Head / (s.Efficiency * s.Speed)
			require.InEpsilon(t, want, torque, 1e-12)
			require.InEpsilon(t, want, p.RatedTorque, 1e-14)
			require.InEpsilon(t, s.Efficiency, p.Efficiency(s.Flow), 1e-12)
		})
	}
}

func TestCurvePoints(t *testing.T) {
	for name, s := range specs() {
		p := build(t, s)
		for _, c := range s.Curve {
			require.InDelta(t, c.Head, first(p.Head(c.Flow, s.Speed)), 1e-10, name)
			if c.Efficiency > 0 {
				require.InEpsilon(t, c.Efficiency, p.Efficiency(c.Flow), 1e-12, name)
			}
		}
	}
	require.InDelta(t, 66, build(t, lift()).ShutOffHead(), 1e-10)
}

// TestZeroFlowTorque holds the rule of the package comment: the data's torque
// times the ratio of the nearest efficiency point.
func TestZeroFlowTorque(t *testing.T) {
	s := withEfficiency()
	p, plain := build(t, s), build(t, bare(25))
	q := s.Curve[1].Flow
	at := func(p *Pump, q float64) float64 { return first(p.Torque(q*p.Spec.Flow, p.Spec.Speed)) / p.RatedTorque }
	r := at(p, q/s.Flow) / at(plain, q/s.Flow)
	require.InEpsilon(t, r*0.44, at(p, 0), 1e-12) // FB of set 25 at zero flow is 0.44
	require.InEpsilon(t, 0.44, at(build(t, lift()), 0), 1e-12)
}

func TestHomologousScaling(t *testing.T) {
	pumps := everyPump(t)
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom(pumps).Draw(t, "pump")
		sin, cos := math.Sincos(rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle"))
		R := rapid.Float64Range(0.01, 3).Draw(t, "radius")
		v, alpha := R*sin, R*cos
		k := rapid.Float64Range(0.1, 10).Draw(t, "k")
		q, w := v*p.Spec.Flow, alpha*p.Spec.Speed
		h, hq, hw, m, mq, mw := p.At(q, w)
		H, Hq, Hw, M, Mq, Mw := p.At(k*q, k*w)
		R2 := v*v + alpha*alpha
		require.InDelta(t, h, H/(k*k), 1e-9*p.Spec.Head*R2)
		require.InDelta(t, m, M/(k*k), 1e-9*p.RatedTorque*R2)
		// Euler: a function of degree two is half its derivatives along the ray
		require.InDelta(t, 2*h, q*hq+w*hw, 1e-9*p.Spec.Head*R2)
		require.InDelta(t, 2*m, q*mq+w*mw, 1e-9*p.RatedTorque*R2)
		require.InDelta(t, 2*H, k*q*Hq+k*w*Hw, 1e-9*p.Spec.Head*k*k*R2)
		require.InDelta(t, 2*M, k*q*Mq+k*w*Mw, 1e-9*p.RatedTorque*k*k*R2)
	})
}

// TestContinuity crosses zero flow, the end of the curve, zero speed and the
// seam of the table: no step above 1e-9 of the rated values.
func TestContinuity(t *testing.T) {
	pumps := everyPump(t)
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom(pumps).Draw(t, "pump")
		joints := []float64{0, math.Pi / 4, math.Pi / 2, math.Pi, -math.Pi / 2}
		if p.end > 0 {
			joints = append(joints, math.Atan2(p.end, 1))
		}
		a := rapid.SampledFrom(joints).Draw(t, "angle")
		R := rapid.Float64Range(0.01, 2).Draw(t, "radius")
		const tiny = 1e-12
		at := func(a float64) (h, m float64) {
			sin, cos := math.Sincos(a)
			h, _, _, m, _, _ = p.At(R*sin*p.Spec.Flow, R*cos*p.Spec.Speed)
			return h / p.Spec.Head, m / p.RatedTorque
		}
		h0, m0 := at(a - tiny)
		h1, m1 := at(a + tiny)
		require.InDelta(t, h0, h1, 1e-9)
		require.InDelta(t, m0, m1, 1e-9)
	})
}

func TestDerivatives(t *testing.T) {
	pumps := everyPump(t)
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.SampledFrom(pumps).Draw(t, "pump")
		a := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle")
		R := rapid.Float64Range(0.05, 2).Draw(t, "radius")
		sin, cos := math.Sincos(a)
		v, alpha := R*sin, R*cos
		const step = 1e-6
		if nearKink(p, v, alpha, 4*step/R) {
			t.Skip("a kink lies within the difference")
		}
		q, w := v*p.Spec.Flow, alpha*p.Spec.Speed
		dq, dw := step*p.Spec.Flow, step*p.Spec.Speed
		_, hq, hw, _, tq, tw := p.At(q, w)
		slope := func(dq, dw float64) (h, m float64) {
			h0, _, _, m0, _, _ := p.At(q-dq, w-dw)
			h1, _, _, m1, _, _ := p.At(q+dq, w+dw)
			return (h1 - h0) / (2 * step * p.Spec.Head), (m1 - m0) / (2 * step * p.RatedTorque)
		}
		hv, mv := slope(dq, 0)
		ha, ma := slope(0, dw)
		const tol = 1e-6 // truncation step^2 f'''/6 and rounding eps/step, both below
		require.InDelta(t, hv, hq*p.Spec.Flow/p.Spec.Head, tol)
		require.InDelta(t, ha, hw*p.Spec.Speed/p.Spec.Head, tol)
		require.InDelta(t, mv, tq*p.Spec.Flow/p.RatedTorque, tol)
		require.InDelta(t, ma, tw*p.Spec.Speed/p.RatedTorque, tol)
	})
}

// nearKink reports whether a kink in value or slope lies within the angle d.
func nearKink(p *Pump, v, alpha, d float64) bool {
	x := math.Pi + math.Atan2(v, alpha)
	u := x * p.table.perStep
	if math.Abs(u-math.Round(u)) < d*p.table.perStep {
		return true
	}
	for _, c := range append(append(cubic{}, p.head...), p.ratio...) {
		if math.Abs(x-math.Pi-math.Atan2(c.x, 1)) < d {
			return true
		}
	}
	return false
}

// TestOrigin holds the value at rest and near it finite and zero.
func TestOrigin(t *testing.T) {
	zero := []float64{0, math.Copysign(0, -1)}
	tiny := []float64{0, math.Copysign(0, -1), 5e-324, -5e-324, 1e-200, -1e-200, 1e-9, -1e-9}
	for name, s := range specs() {
		p := build(t, s)
		for _, q := range zero {
			for _, w := range zero {
				h, hq, hw, m, mq, mw := p.At(q, w)
				require.Equal(t, [6]float64{}, [6]float64{h + 0, hq + 0, hw + 0, m + 0, mq + 0, mw + 0}, name)
			}
		}
		for _, q := range tiny {
			for _, w := range tiny {
				h, hq, hw, m, mq, mw := p.At(q, w)
				for _, y := range []float64{h, hq, hw, m, mq, mw} {
					require.Less(t, math.Abs(y), 1e-3, "%s at %g, %g", name, q, w)
				}
			}
		}
	}
}

// TestExampleShape: the example's head falls with flow through zero flow, the
// curve and the joint beyond it, and needs no warning.
func TestExampleShape(t *testing.T) {
	p := build(t, lift())
	require.Equal(t, "SI 25", p.Set.Name)
	require.Empty(t, p.Warnings)
	require.True(t, p.InertiaEstimated)
	last := math.Inf(1)
	for v := -1.0; v <= 1.8; v += 1e-3 {
		h := first(p.Head(v*p.Spec.Flow, p.Spec.Speed))
		require.Less(t, h, last, "at v = %g", v)
		last = h
	}
	// joint factors: curve over data, 66/52/1.35 at zero flow
	require.InEpsilon(t, 66./52/1.35, p.back.head.f0, 1e-12)
	require.InDelta(t, 1, p.back.head.f0+p.back.head.df*(math.Pi/2-math.Pi), 1e-15)
	require.InDelta(t, 1, p.beyond.head.f0+p.beyond.head.df*(3*math.Pi/2-p.beyond.head.x0), 1e-15)
}

func TestWarnings(t *testing.T) {
	for _, c := range []struct {
		want string
		edit func(*Spec)
	}{
		{"head rises", func(s *Spec) { s.Curve[0].Head = 60 }},
		{"from the rated head", func(s *Spec) { s.Head = 54 }},
		{"curve starts at", func(s *Spec) { s.Curve = s.Curve[1:] }},
		{"curve ends at", func(s *Spec) { s.Curve = s.Curve[:2] }},
		{"unlike its set", func(s *Spec) { s.SpecificSpeed = 261 }},
		{"far from the nearest", func(s *Spec) { s.SpecificSpeed = 80 }},
		{"efficiency above 1", func(s *Spec) { s.Efficiency = 1 }},
	} {
		s := lift()
		c.edit(&s)
		require.Contains(t, fmt.Sprint(build(t, s).Warnings), c.want)
	}
}

func TestBadSpec(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, edit := range map[string]func(*Spec){
		"flow":        func(s *Spec) { s.Flow = 0 },
		"flow NaN":    func(s *Spec) { s.Flow = nan },
		"head":        func(s *Spec) { s.Head = -1 },
		"speed":       func(s *Spec) { s.Speed = inf },
		"efficiency":  func(s *Spec) { s.Efficiency = 81 },
		"inertia":     func(s *Spec) { s.Inertia = -2 },
		"n":           func(s *Spec) { s.SpecificSpeed = nan },
		"one point":   func(s *Spec) { s.Curve = s.Curve[:1] },
		"order":       func(s *Spec) { s.Curve[2].Flow = s.Curve[1].Flow },
		"close":       func(s *Spec) { s.Curve[1].Flow = 1e-300 },
		"curve head":  func(s *Spec) { s.Curve[1].Head = nan },
		"units":       func(s *Spec) { s.Curve[3].Flow = 600 },
		"point eta":   func(s *Spec) { s.Curve[1].Efficiency = 1e-300 },
		"everything":  func(s *Spec) { *s = Spec{} },
		"curve alone": func(s *Spec) { *s = Spec{Curve: make([]Point, 3)} },
	} {
		s := lift()
		edit(&s)
		p, err := New(s, 998.2, 9.80665)
		require.Nil(t, p, name)
		require.ErrorIs(t, err, ErrSpec, name)
	}
	_, err := New(lift(), nan, 0)
	require.True(t, errors.Is(err, ErrSpec))
	require.ErrorContains(t, err, "density")
	require.ErrorContains(t, err, "gravity")
}

// Each fault says where it is, the value with its unit, and what to give.
func TestFault(t *testing.T) {
	for want, edit := range map[string]func(*Spec){
		"inertia: pump: bad specification: inertia is 1e-12 kg·m2 (give 1e-9 to 1e9 kg·m2, or leave it out to have it estimated)":            func(s *Spec) { s.Inertia = 1e-12 },
		"rated.flow: pump: bad specification: rated flow is 0 m3/s (give 1e-9 to 1e9 m3/s)":                                                  func(s *Spec) { s.Flow, s.Curve = 0, nil },
		"curve: pump: bad specification: the number of rows is 1 (give two or more, or leave the curve out)":                                 func(s *Spec) { s.Curve = s.Curve[:1] },
		"curve[2]: pump: bad specification: the step in flow from the row before is 0 m3/s (flows must increase, by 1.194e-7 m3/s at least)": func(s *Spec) { s.Curve[1].Flow = s.Curve[0].Flow },
		"curve[4][2]: pump: bad specification: head is 600 m (give 0 to 520 m, 10 times the rated head at most)":                             func(s *Spec) { s.Curve[3].Head = 600 },
		"specific speed: pump: bad specification: specific speed is -1 (give 1e-9 to 1e9, or leave it out to have it from the rated point)":  func(s *Spec) { s.SpecificSpeed = -1 },
	} {
		s := lift()
		edit(&s)
		_, err := New(s, 998.2, 9.80665)
		var f *Fault
		require.ErrorAs(t, err, &f)
		require.Equal(t, want, f.Path+": "+f.Error())
	}
}

// TestAnySpecIsFinite: whatever New accepts is finite everywhere.
func TestAnySpecIsFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Float64Range(1e-9, 1e9)
		s := Spec{Flow: size.Draw(t, "flow"), Head: size.Draw(t, "head"), Speed: size.Draw(t, "speed"),
			Efficiency: rapid.Float64Range(0.001, 1).Draw(t, "eta")}
		for range rapid.IntRange(0, 6).Draw(t, "points") {
			s.Curve = append(s.Curve, Point{
				Flow:       s.Flow * rapid.Float64Range(0, 10).Draw(t, "q"),
				Head:       s.Head * rapid.Float64Range(0, 10).Draw(t, "h"),
				Efficiency: rapid.SampledFrom([]float64{0, 0.001, 0.5, 1}).Draw(t, "e"),
			})
		}
		p, err := New(s, 998.2, 9.80665)
		if err != nil {
			require.ErrorIs(t, err, ErrSpec)
			return
		}
		v := rapid.Float64Range(-10, 10).Draw(t, "v")
		alpha := rapid.Float64Range(-10, 10).Draw(t, "alpha")
		h, hq, hw, m, mq, mw := p.At(v*s.Flow, alpha*s.Speed)
		for _, y := range []float64{h, hq, hw, m, mq, mw, p.Inertia, p.Efficiency(v * s.Flow)} {
			require.False(t, math.IsNaN(y) || math.IsInf(y, 0), "%v", []float64{h, hq, hw, m, mq, mw})
		}
	})
}

func TestNoAllocation(t *testing.T) {
	p := build(t, withEfficiency())
	require.Zero(t, testing.AllocsPerRun(100, func() { sink, _, _, _, _, _ = p.At(0.1, 150) }))
}

func everyPump(t testing.TB) []*Pump {
	var out []*Pump
	for _, name := range []string{"curve", "efficiency", "run-out", "late", "unlike", "SI 25", "SI 35", "SI 147", "SI 261"} {
		out = append(out, build(t, specs()[name]))
	}
	return out
}

func first(y, _, _ float64) float64 { return y }

var sink float64

func BenchmarkAt(b *testing.B) {
	p := build(b, withEfficiency())
	for _, c := range []struct {
		zone     string
		v, alpha float64
	}{{"curve", 0.8, 0.9}, {"dissipation", -0.4, 0.6}, {"turbine", -0.8, -0.5}, {"beyond", 1.2, 0.5}} {
		b.Run("zone="+c.zone, func(b *testing.B) {
			q, w := c.v*p.Spec.Flow, c.alpha*p.Spec.Speed
			for b.Loop() {
				h, _, _, m, _, _ := p.At(q, w)
				sink += h + m
			}
		})
	}
}
