package catalogue

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
)

// zeta = 1.599e-3 D_mm^4/Kv^2; DN300 with zeta 1.0 passes 3599 m3/h at 1 bar (derived from the definition).
func TestCapacity(t *testing.T) {
	for _, kind := range []string{"swing", "axial spring", "nozzle", "ideal"} {
		v, _ := complete1(t, kind, 0.3, map[string]float64{"kv": 3599. / 3600}, level)
		require.InEpsilon(t, 1, v.LossOpen, 5e-4, kind)
		require.Equal(t, valve.Given, datum(t, v, "kv").Origin)
		loss := datum(t, v, "loss when open")
		require.Equal(t, valve.Estimated, loss.Origin)
		require.Equal(t, "derived from the kv", loss.Status)
		require.InEpsilon(t, v.LossOpen, loss.Value, 1e-9)
	}
	// On the bore, not the nominal size.
	v, _ := complete1(t, "swing", 0.3, map[string]float64{"kv": 3599. / 3600, "bore": 0.25}, level)
	require.InEpsilon(t, math.Pow(25./30, 4), v.LossOpen, 1e-3)
	v, _ = complete1(t, "swing", 0.3, nil, level)
	require.InEpsilon(t, 0.3*0.3*1e6/(25.01*math.Sqrt(0.65)), 3600*datum(t, v, "kv").Value, 1e-3)
}

// The preload is p A_s L less the weight and the friction of the shut disc.
func TestCrackingPressure(t *testing.T) {
	type set = map[string]float64
	for name, c := range map[string]struct {
		kind    string
		set     set
		setting Setting
	}{
		"ring":            {"axial spring", nil, level},
		"ring, friction":  {"axial spring", set{"guide friction": 20}, level},
		"ring, with rate": {"axial spring", set{"spring rate": 900}, level},
		"solid, upflow":   {"nozzle", set{"full-open velocity": 4}, tilted(math.Pi / 2)},
		"solid, downflow": {"nozzle", set{"full-open velocity": 4}, tilted(-math.Pi / 2)},
		"swing":           {"swing", nil, level},
		"swing, upflow":   {"swing", set{"hinge friction": 2}, tilted(math.Pi / 2)},
		"swing, downflow": {"swing", nil, tilted(-0.3)},
	} {
		const p = 6000.0
		if c.set == nil {
			c.set = set{}
		}
		c.set["cracking pressure"] = p
		v, l := complete1(t, c.kind, 0.25, c.set, c.setting)
		_, opens := l.Shut()
		require.InEpsilon(t, p, opens, 1e-9, name)
		w, _ := l.Weight.At(0)
		require.InEpsilon(t, p*l.Area*l.Arm-w-l.Friction, l.Preload, 1e-9, name)
		require.Equal(t, "derived from the cracking pressure", datum(t, v, "preload").Status)
		require.Equal(t, valve.Given, datum(t, v, "cracking pressure").Origin)
	}
	_, err := Complete(valve.Spec{Type: "swing", Size: 0.25, Set: set{"cracking pressure": 100}}, level)
	require.ErrorIs(t, err, ErrValue)
	require.ErrorContains(t, err, "too low: without any spring the disc opens at 127.5 Pa")
	// A plain swing disc has the cracking pressure of its weight.
	v, _ := complete1(t, "swing", 0.25, nil, level)
	again, l := complete1(t, "swing", 0.25, set{"cracking pressure": datum(t, v, "cracking pressure").Value}, level)
	require.InDelta(t, 0, l.Preload, 1e-9)
	require.InEpsilon(t, v.FullOpenVelocity, again.FullOpenVelocity, 1e-9)
}

func TestCrackingPressureOfEveryFamily(t *testing.T) {
	for _, f := range Families() {
		if _, ok := find(f.Keys, cracking); !ok {
			continue
		}
		v, _ := complete1(t, f.Name, 0.25, nil, level)
		_, generic := v.Motion.Shut()
		require.Equal(t, generic, datum(t, v, cracking).Value)
		v, _ = complete1(t, f.Name, 0.25, map[string]float64{cracking: 1.3 * generic}, level)
		_, opens := v.Motion.Shut()
		require.InEpsilon(t, 1.3*generic, opens, 1e-9, f.Name)
	}
}

func TestMeasuredFamily(t *testing.T) {
	f := Families()[len(Families())-1]
	spec := least(f, 0.25)
	spec.Set["test bore"], spec.Set["test full-open velocity"] = 0.125, 1
	v, err := Complete(spec, level)
	require.NoError(t, err)
	// a D/V^2 and V_r/V of a test at half the bore and half the velocity.
	require.InEpsilon(t, 12*2., datum(t, v, "tested to").Value, 1e-12)
	require.InEpsilon(t, 2*1., v.Motion.(*valve.Measured).Curve.At(24), 1e-12)
	require.Equal(t, 2.0, v.FullOpenVelocity)

	for text, change := range map[string]func(*valve.Spec){
		"test points are missing": func(s *valve.Spec) { s.Tests = nil },
		"its loss is missing":     func(s *valve.Spec) { delete(s.Set, "loss when open") },
		"full-open velocity is":   func(s *valve.Spec) { delete(s.Set, "full-open velocity") },
		"has no window and":       func(s *valve.Spec) { s.Set["deceleration window"], s.Set["deceleration"] = 0.1, 1 },
		"no velocity of its own":  func(s *valve.Spec) { s.Set["deceleration from"], s.Set["deceleration"] = 1, 1 },
		"two definitions":         func(s *valve.Spec) { s.Set["deceleration window"], s.Set["deceleration from"] = 0.1, 1 },
		"row 2: the reverse veloc": func(s *valve.Spec) {
			s.Tests = []valve.TestPoint{{Deceleration: 1, ReverseVelocity: 1}, {Deceleration: 2}}
		},
	} {
		bad := least(f, 0.25)
		change(&bad)
		_, err := Complete(bad, level)
		require.ErrorIs(t, err, ErrValue)
		require.ErrorContains(t, err, text)
	}
	_, err = Complete(valve.Spec{Type: "ideal", Size: 0.25, Tests: spec.Tests}, level)
	require.ErrorIs(t, err, ErrKey)
	v, err = Complete(valve.Spec{Type: "swing", Size: 0.25, Tests: spec.Tests}, level)
	require.NoError(t, err)
	require.Len(t, v.Warnings, 1)
}
