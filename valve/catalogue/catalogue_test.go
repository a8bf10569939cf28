package catalogue

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/valve"
)

var level = Setting{Density: 1000, Gravity: 9.80665}

func tilted(slope float64) Setting {
	s := level
	s.Slope = slope
	return s
}

func complete1(t require.TestingT, kind string, size float64, set map[string]float64, s Setting) (valve.Valve, *valve.Law) {
	spec := valve.Spec{Name: "x", Type: kind, Size: size, Set: set}
	for _, f := range Families() {
		if f.Name == kind && len(set) == 0 {
			spec = least(f, size)
		}
	}
	v, err := Complete(spec, s)
	require.NoError(t, err)
	l, _ := v.Motion.(*valve.Law)
	return v, l
}

func datum(t require.TestingT, v valve.Valve, key string) valve.Datum {
	for _, d := range v.Data {
		if d.Key == key {
			return d
		}
	}
	require.Fail(t, "no datum "+key)
	return valve.Datum{}
}

func TestMasses(t *testing.T) {
	// Masses from plate thickness, kg; below DN100 the least thickness adds (100/DN)^0.5.
	for _, c := range []struct {
		kind       string
		dn         float64
		mass, unit float64
	}{
		{"swing", 50, 0.081 * math.Sqrt2, 1e-3}, {"swing", 100, 0.65, 1e-9}, {"swing", 150, 2.19, 5e-3}, {"swing", 200, 5.2, 1e-9},
		{"swing", 300, 17.6, 0.06}, {"swing", 400, 41.6, 1e-9}, {"swing", 600, 140, 0.5}, {"swing", 900, 474, 0.5},
		{"nozzle", 100, 0.30, 1e-9}, {"nozzle", 300, 8.1, 1e-9}, {"nozzle", 600, 64.8, 1e-9},
		{"dual plate", 100, 0.125, 1e-9}, {"dual plate", 300, 3.38, 6e-3}, {"dual plate", 600, 27, 1e-9},
		{"axial spring", 100, 0.15, 1e-9}, {"axial spring", 600, 32.4, 1e-9},
	} {
		v, _ := complete1(t, c.kind, c.dn/1000, nil, level)
		require.InDelta(t, c.mass, datum(t, v, "moving mass").Value, c.unit, "%s DN%.0f", c.kind, c.dn)
	}
	// Added mass of a free disc in water, 8/3 rho R^3: as large as the metal.
	for dn, m := range map[float64]float64{100: 1. / 3, 300: 9, 600: 72} {
		require.InDelta(t, m, valve.DiscLiquidMass(1000, dn/1000), 5e-4*m)
		v, l := complete1(t, "nozzle", dn/1000, nil, level)
		require.InDelta(t, m, datum(t, v, "added mass").Value, 5e-4*m)
		require.InDelta(t, m+datum(t, v, "moving mass").Value, l.Inertia, 1e-3*m)
	}
}

func TestLosses(t *testing.T) {
	for _, c := range []struct {
		kind     string
		dn, loss float64
	}{
		{"swing", 100, 0.85}, {"swing", 300, 0.65}, {"swing", 600, 0.60}, {"swing", 50, 0.85}, {"swing", 900, 0.60},
		{"swing heavy", 100, 1.7}, {"swing heavy", 300, 1.3}, {"swing heavy", 600, 1.2},
		{"axial spring", 100, 3}, {"axial spring", 600, 3},
		{"nozzle", 100, 2}, {"nozzle", 300, 1}, {"nozzle", 600, 0.7}, {"ideal", 300, 0.65},
		{"dual plate", 100, 2.5}, {"dual plate", 300, 1.2}, {"dual plate", 600, 0.7},
	} {
		v, _ := complete1(t, c.kind, c.dn/1000, nil, level)
		require.InEpsilon(t, c.loss, v.LossOpen, 1e-12, "%s DN%.0f", c.kind, c.dn)
	}
	v, _ := complete1(t, "swing", 0.2, nil, level)
	require.True(t, v.LossOpen > 0.65 && v.LossOpen < 0.85)
}

func TestFullOpenVelocity(t *testing.T) {
	v, l := complete1(t, "swing", 0.25, nil, Setting{Density: 998.2, Gravity: 9.80665})
	require.InDelta(t, 2.317, v.FullOpenVelocity, 5e-4)
	require.InDelta(t, v.FullOpenVelocity, datum(t, v, "full-open velocity").Value, 1e-12)
	require.True(t, l.Steady(2.33).Held)
	require.False(t, l.Steady(2.30).Held)

	for _, kind := range []string{"swing", "swing heavy", "axial spring", "nozzle", "dual plate"} {
		for _, slope := range []float64{0, 0.3, math.Pi / 2} {
			v, _ := complete1(t, kind, 0.25, map[string]float64{"full-open velocity": 1.7, "moving mass": 5}, tilted(slope))
			require.InDelta(t, 1.7, v.FullOpenVelocity, 1e-6, kind)
			require.Equal(t, valve.Given, datum(t, v, "full-open velocity").Origin)
		}
	}
	// The load on the body stays when weights change: the velocity follows the root of the moment.
	plain, _ := complete1(t, "swing", 0.25, nil, level)
	loaded, _ := complete1(t, "swing", 0.25, map[string]float64{"preload": 10}, level)
	require.Greater(t, loaded.FullOpenVelocity, plain.FullOpenVelocity)
	up, _ := complete1(t, "swing", 0.25, nil, tilted(math.Pi/2))
	require.InEpsilon(t, math.Sqrt(math.Cos(70*math.Pi/180)/math.Sin(70*math.Pi/180)), up.FullOpenVelocity/plain.FullOpenVelocity, 1e-6)
	// A gas of 40 kg/m3 needs 11.57 m/s with C = 60; the submerged weight is part of C.
	gas, _ := complete1(t, "swing", 0.25, nil, Setting{Density: 40, Gravity: 9.80665})
	require.InDelta(t, 11.57, gas.FullOpenVelocity, 5e-3)
}

func TestSprings(t *testing.T) {
	v, l := complete1(t, "axial spring", 0.25, nil, Setting{Density: 998.2, Gravity: 9.80665})
	full := 2 * 998.2 / 2 * 4 * math.Pi / 4 * 0.0625 // C_F rho/2 V^2 A
	require.InEpsilon(t, full, l.Preload+l.SpringRate*l.Travel, 1e-9)
	require.InEpsilon(t, full/2, l.Preload, 1e-9)
	_, cracks := l.Shut()
	require.True(t, cracks > 1e3 && cracks < 1e4, "cracking pressure %g Pa, common practice 0.01-0.05 bar", cracks)
	require.InDelta(t, 2, v.FullOpenVelocity, 1e-6)

	v, l = complete1(t, "nozzle", 0.25, map[string]float64{"preload": 60, "spring rate": 3000}, level)
	require.Equal(t, 60.0, l.Preload)
	require.Equal(t, 3000.0, l.SpringRate)
	require.InEpsilon(t, math.Sqrt((60+3000*0.05)/(2*500*math.Pi/4*0.0625)), v.FullOpenVelocity, 1e-6)

	v, l = complete1(t, "nozzle", 0.25, map[string]float64{"preload": 60, "spring rate": 3000, "full-open velocity": 1}, level)
	require.InDelta(t, 1, v.FullOpenVelocity, 1e-5)
	require.InEpsilon(t, (60+150)/(500*math.Pi/4*0.0625), datum(t, v, "force coefficient").Value, 1e-9)
	require.Equal(t, 60.0, l.Preload)

	v, l = complete1(t, "nozzle", 0.25, map[string]float64{"preload": 60}, level)
	require.Equal(t, 60.0, l.Preload)
	require.InDelta(t, v.FullOpenVelocity, 1.5*math.Sqrt(998.2/1000), 1e-6)
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		spec    valve.Spec
		setting Setting
		class   error
		text    string
	}{
		"type":            {valve.Spec{Type: "swng", Size: 0.25}, level, ErrType, "known types: swing, swing heavy, "},
		"key":             {valve.Spec{Type: "swing", Size: 0.25, Set: set{"colour": 1}}, level, ErrKey, "moving mass"},
		"key of other":    {valve.Spec{Type: "swing", Size: 0.25, Set: set{"ring ratio": 0.5}}, level, ErrKey, "ring ratio"},
		"ideal has none":  {valve.Spec{Type: "ideal", Size: 0.25, Set: set{"preload": 1}}, level, ErrKey, "closes at"},
		"table":           {valve.Spec{Type: "swing", Size: 0.25, Tables: map[string]valve.Points{"torque": {}}}, level, ErrKey, "loss table"},
		"empty table":     {valve.Spec{Type: "swing", Size: 0.25, Tables: map[string]valve.Points{"loss table": {}}}, level, ErrValue, "rows"},
		"rising loss":     {valve.Spec{Type: "swing", Size: 0.25, Tables: map[string]valve.Points{"loss table": {Opening: []float64{0.5, 1}, Value: []float64{1, 2}}}}, level, valve.ErrTable, "grows"},
		"load below zero": {valve.Spec{Type: "nozzle", Size: 0.25, Tables: map[string]valve.Points{"load table": {Opening: []float64{0.5, 1}, Value: []float64{1, -2}}}}, level, valve.ErrTable, "load table, row 2"},
		"range":           {valve.Spec{Type: "swing", Size: 0.25, Set: set{"moving mass": -1}}, level, ErrValue, "moving mass"},
		"not a number":    {valve.Spec{Type: "swing", Size: 0.25, Set: set{"moving mass": math.NaN()}}, level, ErrValue, "moving mass"},
		"size":            {valve.Spec{Type: "swing", Size: 2.5}, level, ErrValue, "50 to 900 mm"},
		"no density":      {valve.Spec{Type: "swing", Size: 0.25}, Setting{Gravity: 9.8}, ErrValue, "setting"},
		"swing downflow":  {valve.Spec{Type: "swing", Size: 0.25}, tilted(-math.Pi / 2), valve.ErrLaw, "does not close by itself"},
		"swing falling":   {valve.Spec{Type: "swing", Size: 0.25}, tilted(-0.2), valve.ErrLaw, "level or rising"},
		"floating disc":   {valve.Spec{Type: "swing", Size: 0.25, Set: set{"disc density": 900}}, level, valve.ErrLaw, "floats"},
		"long lift":       {valve.Spec{Type: "axial spring", Size: 0.25, Set: set{"travel": 0.9}}, level, valve.ErrLaw, "travel of a disc = 900 mm is more than 1.5 times the bore of 250 mm"},
		"weak spring":     {valve.Spec{Type: "nozzle", Size: 0.6, Set: set{"preload": 20}}, tilted(-math.Pi / 2), valve.ErrLaw, "does not close"},
		"spring disagree": {valve.Spec{Type: "nozzle", Size: 0.25, Set: set{"preload": 1e5}}, level, ErrValue, "does not agree"},
		"tied": {valve.Spec{Type: "nozzle", Size: 0.25, Set: set{"preload": 60, "spring rate": 3000, "full-open velocity": 1, "force coefficient": 2}}, level,
			ErrValue, "leave one of them out"},
		"plates falling":  {valve.Spec{Type: "dual plate", Size: 0.6}, tilted(-math.Pi / 2), valve.ErrLaw, "preload above 29.4"},
		"upper plate":     {valve.Spec{Type: "dual plate", Size: 0.25, Set: set{"hinge pin": 1.5, "preload": 0.1, "spring rate": 0.1}}, level, valve.ErrLaw, "the upper plate"},
		"no springs":      {valve.Spec{Type: "dual plate", Size: 0.25, Set: set{"preload": 0, "spring rate": 0}}, level, valve.ErrLaw, "nothing closes the discs"},
		"small plates":    {valve.Spec{Type: "dual plate", Size: 0.25, Set: set{"disc diameter": 0.1}}, level, valve.ErrLaw, "do not fit a bore of 250 mm"},
		"plates disagree": {valve.Spec{Type: "dual plate", Size: 0.25, Set: set{"preload": 100, "full-open velocity": 2}}, level, ErrValue, "do not agree"},
		"plates tied": {valve.Spec{Type: "dual plate", Size: 0.25, Set: set{"preload": 3, "spring rate": 1, "full-open velocity": 2, "load coefficient": 2}}, level,
			ErrValue, "leave one of them out"},
		"plates twice": {valve.Spec{Type: "dual plate", Size: 0.25, Set: set{"load coefficient": 2},
			Tables: map[string]valve.Points{"load table": {Opening: []float64{1}, Value: []float64{1}}}}, level, ErrValue, "say the same"},
		"twice": {valve.Spec{Type: "swing", Size: 0.25, Set: set{"full-open velocity": 2},
			Tables: map[string]valve.Points{"load table": {Opening: []float64{1}, Value: []float64{1}}}}, level, ErrValue, "say the same"},
	} {
		_, err := Complete(c.spec, c.setting)
		require.ErrorIs(t, err, c.class, name)
		require.ErrorContains(t, err, c.text, name)
	}
	// Every mistake is named at once.
	_, err := Complete(valve.Spec{Type: "swing", Size: 0.25, Set: set{"colour": 1, "arm": -1, "travel": 0}}, level)
	for _, name := range []string{"colour", "arm", "travel"} {
		require.ErrorContains(t, err, name)
	}
}

func TestWorkingCombinations(t *testing.T) {
	complete1(t, "axial spring", 0.25, nil, tilted(-math.Pi/2))
	complete1(t, "nozzle", 0.9, nil, tilted(-math.Pi/2))
	up, l := complete1(t, "nozzle", 0.9, nil, tilted(math.Pi/2))
	_, same := complete1(t, "nozzle", 0.9, nil, level)
	require.InEpsilon(t, same.Preload, l.Preload, 1e-9)
	require.Greater(t, up.FullOpenVelocity, 2.0)
	complete1(t, "swing", 0.25, nil, tilted(-0.05)) // within the inclination of the seat
	complete1(t, "swing", 0.25, map[string]float64{"preload": 60}, tilted(-math.Pi/2))

	v, err := Complete(valve.Spec{Type: "nozzle", Size: 0.25, Tables: map[string]valve.Points{
		"loss table": {Opening: []float64{0.1, 0.5, 1}, Value: []float64{100, 5, 1.3}},
		"load table": {Opening: []float64{0.1, 0.5, 1}, Value: []float64{105, 7, 2.6}},
	}}, level)
	require.NoError(t, err)
	require.InEpsilon(t, 1.3, v.LossOpen, 1e-12)
	l = v.Motion.(*valve.Law)
	for _, c := range []struct{ opening, load float64 }{{0.1, 105}, {0.5, 7}, {1, 2.6}} {
		kappa, _ := l.Load.At(c.opening * l.Travel)
		g, _ := l.Conductance.At(c.opening * l.Travel)
		require.InEpsilon(t, c.load, kappa/(g*g), 1e-9)
	}
	require.InDelta(t, 1.5*math.Sqrt(998.2/1000), v.FullOpenVelocity, 1e-5)
}

// least is the least that makes a valve of a family: nothing where the catalogue has all.
func least(f Family, size float64) valve.Spec {
	spec := valve.Spec{Type: f.Name, Size: size}
	if len(f.Needs()) > 0 {
		spec.Set = map[string]float64{"loss when open": 1, "full-open velocity": 2}
		spec.Tests = []valve.TestPoint{{Deceleration: 1, ReverseVelocity: 0}, {Deceleration: 4, ReverseVelocity: 0.2}, {Deceleration: 12, ReverseVelocity: 1}}
	}
	return spec
}

func TestRecord(t *testing.T) {
	for _, f := range Families() {
		spec := least(f, 0.25)
		spec.Name = "unit"
		v, err := Complete(spec, level)
		require.NoError(t, err)
		require.Equal(t, "unit", v.Name)
		require.Equal(t, f.Name, v.Type)
		require.Equal(t, 0.25, v.Bore)
		require.Empty(t, v.Warnings, f.Name)
		seen := map[string]bool{}
		for _, d := range v.Data {
			require.False(t, seen[d.Key], "%s: %s twice", f.Name, d.Key)
			seen[d.Key] = true
			require.NotEmpty(t, d.Status, d.Key)
			require.NotEmpty(t, d.Label, d.Key)
			require.NotEmpty(t, d.Unit, d.Key)
			require.Equal(t, slices.Contains(f.Needs(), d.Key), d.Origin == valve.Given, d.Key)
		}
		for _, k := range f.Keys {
			require.True(t, seen[k.Name], "%s: %s is not on record", f.Name, k.Name)
			// What the user gives is used and marked.
			spec := least(f, 0.25)
			if spec.Set == nil {
				spec.Set = map[string]float64{}
			}
			spec.Set[k.Name] = datum(t, v, k.Name).Value
			switch k.Name {
			case "slope":
				spec.Set[k.Name] = 0.1
			case restitution:
				delete(spec.Set, seatKind)
			case capacity:
				delete(spec.Set, "loss when open")
			}
			again, err := Complete(spec, level)
			require.NoError(t, err)
			require.Equal(t, valve.Given, datum(t, again, k.Name).Origin)
		}
	}
}

// Whatever is set within the ranges of the keys gives an error or a disc that moves by finite numbers.
func TestAnyData(t *testing.T) {
	for _, f := range Families() {
		t.Run(f.Name, rapid.MakeCheck(func(t *rapid.T) {
			spec := least(f, rapid.Float64Range(SmallestSize, LargestSize).Draw(t, "size"))
			if spec.Set == nil {
				spec.Set = map[string]float64{}
			}
			for _, k := range f.Keys {
				if rapid.IntRange(0, 5).Draw(t, "set "+k.Name) == 0 {
					spec.Set[k.Name] = rapid.Float64Range(k.Min, k.Max).Draw(t, k.Name)
				}
			}
			setting := Setting{
				Density: rapid.Float64Range(1, 1500).Draw(t, "density"),
				Gravity: 9.8,
				Slope:   rapid.Float64Range(-math.Pi/2, math.Pi/2).Draw(t, "slope"),
			}
			moves(t, spec, setting)
		}))
	}
}

func moves(t require.TestingT, spec valve.Spec, setting Setting) {
	v, err := Complete(spec, setting)
	if err != nil {
		return
	}
	numbers := []float64{v.LossOpen, v.FullOpenVelocity, v.Travel, v.Reach, v.PriceRatio}
	e := v.Motion.Steady(1)
	shut, opens := v.Motion.Shut()
	numbers = append(numbers, e.DP, e.Slope, e.State.Y, opens)
	for _, s := range []valve.State{e.State, shut} {
		for _, dp := range []float64{-1e5, -1, 0, 1, 1e5} {
			step := v.Motion.Advance(s, 1e-3, 0.5, dp)
			numbers = append(numbers, step.R, step.RV, step.RP, step.Event, step.State.Y, step.State.W)
			require.True(t, step.RV >= 0 && step.RP <= 0)
		}
	}
	for i, x := range numbers {
		require.False(t, math.IsNaN(x) || math.IsInf(x, 0), "number %d of %v", i, numbers)
	}
}

func FuzzComplete(f *testing.F) {
	f.Add("swing", 0.25, "moving mass", 5.0, "preload", 1.0, 998.0, 0.0)
	f.Add("axial spring", 0.05, "ring ratio", 0.9, "travel", 1e-4, 1.0, -1.5)
	f.Add("nozzle", 0.9, "spring rate", 0.0, "preload", 0.0, 1500.0, 1.5)
	f.Add("ideal", 0.3, "closes at", 0.3, "loss when open", 1e-3, 40.0, 0.0)
	f.Add("swing heavy", 0.3, "loss when open", 1e4, "counterweight arm", -5.0, 40.0, 0.1)
	f.Fuzz(func(t *testing.T, kind string, size float64, key1 string, value1 float64, key2 string, value2, density, slope float64) {
		if density < 1e-3 || density > 2e4 {
			t.Skip("no fluid")
		}
		moves(t, valve.Spec{Type: kind, Size: size, Set: map[string]float64{key1: value1, key2: value2}}, Setting{Density: density, Gravity: 9.8, Slope: slope})
	})
}

func ExampleComplete() {
	v, err := Complete(valve.Spec{Name: "plain-swing", Type: "swing", Size: 0.25}, Setting{Density: 999.1, Gravity: 9.80665})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("zeta %.2f, full-open velocity %.2f m/s, travel %.2f rad\n", v.LossOpen, v.FullOpenVelocity, v.Travel)
	// Output: zeta 0.68, full-open velocity 2.32 m/s, travel 1.13 rad
}

func TestPlateSprings(t *testing.T) {
	type set = map[string]float64
	made := func(size float64, given set, s Setting) (valve.Valve, *valve.Pair) {
		v, err := Complete(valve.Spec{Type: "dual plate", Size: size, Set: given}, s)
		require.NoError(t, err)
		return v, v.Motion.(*valve.Pair)
	}
	for _, size := range []float64{0.05, 0.1, 0.3, 0.6, 0.9} {
		v, p := made(size, nil, level)
		require.InDelta(t, 2*math.Sqrt(998.2/1000), v.FullOpenVelocity, 1e-6)
		_, opens := p.Shut()
		require.True(t, opens > 800 && opens < 3000, "opens at %g Pa, common practice 0.01-0.03 bar", opens)
		last := 0.0
		for i := 1; i <= 50; i++ { // the pressure drop grows all the way, so that the plates open together
			e := p.Steady(0.05 * float64(i))
			require.Greater(t, e.DP, last)
			require.InDelta(t, e.State.Y, e.State.Second.Y, 1e-12)
			last = e.DP
		}
	}
	// Springs of a given full-open velocity, whatever else is given and however the weights lie.
	for _, given := range []set{
		{"preload": 1}, {"spring rate": 1}, {"preload": 3, "spring rate": 4}, {"second plate preload": 1.5}, {"second plate preload": 0, "second plate spring rate": 0},
		{"hinge pin": math.Pi / 2}, {"second plate spring rate": 2, "preload": 1}, {"loss when open": 2},
	} {
		for _, slope := range []float64{0, 0.4, math.Pi / 2} {
			given["full-open velocity"] = 2.2
			v, p := made(0.25, given, tilted(slope))
			require.InDelta(t, 2.2, v.FullOpenVelocity, 1e-6, "%v at %g", given, slope)
			require.Equal(t, valve.Given, datum(t, v, "full-open velocity").Origin)
			require.Equal(t, datum(t, v, "preload").Value, p.Halves[0].Preload)
			require.Equal(t, datum(t, v, "second plate preload").Value*p.Halves[0].Preload, p.Halves[1].Preload)
		}
	}
	// Without one the catalogue's springs stay, and the velocity follows the moments on the stop.
	plain, p := made(0.25, nil, level)
	strong, q := made(0.25, set{"preload": 2 * p.Halves[0].Preload}, level)
	require.Equal(t, p.Halves[0].SpringRate, q.Halves[0].SpringRate)
	require.InEpsilon(t, math.Sqrt(1.5), strong.FullOpenVelocity/plain.FullOpenVelocity, 1e-6)
	broken, _ := made(0.25, set{"second plate preload": 0, "second plate spring rate": 0}, level)
	require.Contains(t, broken.Warnings[0], "nothing closes the second plate but reverse flow")
	// In vertical upflow the weight closes both plates.
	up, r := made(0.25, nil, tilted(math.Pi/2))
	require.Greater(t, up.FullOpenVelocity, plain.FullOpenVelocity)
	for _, l := range r.Halves {
		w, _ := l.Weight.At(0)
		require.Positive(t, w)
	}
}

// On the seat the pressure drop does as much work on the disc, dp A_s L dy, as the displaced liquid gives, dp A sweep dy: otherwise a
// closing disc would make energy or lose it.
func TestSeatWorkIsConjugate(t *testing.T) {
	for _, f := range Families() {
		kind := f.Name
		v, l := complete1(t, kind, 0.25, nil, level)
		if l == nil {
			continue
		}
		sweep, _ := l.Sweep.At(0)
		kappa, _ := l.Load.At(0)
		require.InEpsilon(t, math.Pi/4*v.Bore*v.Bore*sweep, kappa*l.Area*l.Arm, 1e-12, kind)
	}
	v, err := Complete(valve.Spec{Type: "dual plate", Size: 0.25, Set: map[string]float64{"disc diameter": 0.26}}, level)
	require.NoError(t, err)
	for _, l := range v.Motion.(*valve.Pair).Halves {
		sweep, _ := l.Sweep.At(0)
		require.InEpsilon(t, math.Pi/4*v.Bore*v.Bore*sweep, l.Area*l.Arm, 1e-12)
	}
}
