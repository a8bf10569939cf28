package requirement_test

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network/casefile"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/choice"
	"seatwise/valve/requirement"
)

const short = `format: 1
fluid: {liquid: water, temperature: 15 °C}
atmosphere: 101.3 kPa
reservoirs: {sump: {level: 1 m}, tower: {level: 41 m}}
stations:
  lift:
    from: sump
    to: header
    units: 1
    elevation: 0 m
    pump: {rated: {flow: 200 m3/h, head: 43 m, speed: 1480 rpm, efficiency: 80 %}, inertia: 1.5 kg·m2}
pipes:
  main: {from: header, to: tower, wave speed: 1200 m/s, bore: 200 mm, roughness: 0.1 mm, length: 120 m, elevation: 0 m}
candidates:
  plain-swing: {type: swing, size: DN200}
events:
  - {trip: lift, at: 0.2 s}
run: {until: 2.5 s}
limits: {design pressure: 8 bar, surge allowance: 10 %}
`

// read is the short case with values set, as path, value.
func read(t *testing.T, set ...string) *choice.Case {
	t.Helper()
	d, err := casefile.Read("short.yaml", []byte(short), nil)
	require.NoError(t, err)
	for i := 0; i < len(set); i += 2 {
		d, err = d.With(set[i], set[i+1])
		require.NoError(t, err)
	}
	c, err := d.Case()
	require.NoError(t, err)
	return c
}

func find(t *testing.T, c *choice.Case) *requirement.Requirement {
	t.Helper()
	r, err := requirement.Find(context.Background(), c, choice.Settings{})
	require.NoError(t, err)
	return r
}

// meets tells whether the ideal valve that shuts at v meets all limits in a plain comparison.
func meets(t *testing.T, r *requirement.Requirement, v float64) bool {
	t.Helper()
	c := *r.Case
	c.Candidates = []valve.Spec{{Name: "trial", Type: "ideal", Size: r.Size, Set: map[string]float64{"closes at": v, "full-open velocity": r.FullOpen().SI}}}
	out, err := choice.Run(context.Background(), &c, choice.Settings{})
	require.NoError(t, err)
	met := true
	for _, s := range out.Scenarios {
		require.Empty(t, s.Outcomes[0].Failed)
		require.NotNil(t, s.Outcomes[0].LimitsMet)
		met = met && *s.Outcomes[0].LimitsMet
	}
	return met
}

// What is found is the boundary: two plain comparisons beside it say so. The rise of the pressure is that of N. Joukowsky, 1898: rho a V over the pressure at
// the seating.
func TestFoundIsTheBoundary(t *testing.T) {
	r := find(t, read(t))
	a := r.Allowed
	require.Empty(t, a.Velocity.Reason)
	require.Greater(t, a.Velocity.SI, 0.01)
	require.Greater(t, a.Above, a.Velocity.SI)
	require.LessOrEqual(t, a.Above, a.Velocity.SI*(1+2*requirement.Tolerance))
	require.False(t, a.Given)
	require.NotEmpty(t, a.Binding)
	require.True(t, meets(t, r, 0.99*a.Velocity.SI))
	require.False(t, meets(t, r, 1.01*a.Velocity.SI))

	o := r.At.Scenarios[0].Outcomes[0]
	require.InEpsilon(t, a.Velocity.SI, o.MaxReverseVelocity.SI, 1e-3)
	require.InEpsilon(t, 999.1*1200*a.Velocity.SI, o.SlamPressureRise.SI, 0.02)
}

// The limit of the case on the reverse velocity is the answer where all else allows more, and two scenarios allow what the harder allows.
func TestGivenLimitAndScenarios(t *testing.T) {
	both := find(t, read(t, "limits.reverse velocity", "5 m/s", "scenarios", "{higher: {set: {reservoirs.tower.level: 44 m}}}"))
	require.Len(t, both.Own, 2)
	for _, o := range both.Own {
		require.LessOrEqual(t, o.Tangent.SI, both.Own[both.Hardest].Tangent.SI)
	}
	least := both.Allowed.Velocity.SI
	require.Positive(t, least)
	require.True(t, meets(t, both, 0.99*least))
	require.False(t, meets(t, both, 1.01*least))

	low := find(t, read(t, "limits.reverse velocity", "0.05 m/s"))
	require.True(t, low.Allowed.Given)
	require.Equal(t, 0.05, low.Allowed.Velocity.SI)
	require.Less(t, low.Allowed.Runs, both.Allowed.Runs)
	require.Contains(t, sheet(both)["design_deceleration_m_s2"].Note, "; the greatest of: base ")
	require.Contains(t, sheet(both)["design_deceleration_m_s2"].Note, ", higher ")
	require.Contains(t, sheet(both)["reverse_velocity_m_s"].Note, "in scenario ")

	spared := find(t, read(t, "limits.reverse velocity", "0.05 m/s", "limits.margin", "20 %"))
	require.True(t, spared.Allowed.Given)
	require.InEpsilon(t, 0.04, spared.Allowed.Velocity.SI, 1e-9, "a fifth of every limit is kept to spare")
	require.Contains(t, sheet(spared)["reverse_velocity_m_s"].Note, "with 20 % kept to spare")
}

// sheet is the items of a requirement by key.
func sheet(r *requirement.Requirement) map[string]requirement.Item {
	all := map[string]requirement.Item{}
	for _, g := range r.Sheet(quantity.SI) {
		for _, i := range g.Items {
			all[i.Key] = i
		}
	}
	return all
}

// The full-open velocity follows from the least flow and from what stands upstream; a head loss is priced by hand.
func TestOpenValve(t *testing.T) {
	area := math.Pi / 4 * 0.2 * 0.2
	none := []string{"limits", "{head loss: 1.5 m}"} // nothing to look for
	plain := find(t, read(t, none...))
	o := plain.At.Scenarios[0].Outcomes[0]
	require.InEpsilon(t, o.InitialVelocity.SI/1.2, plain.FullOpen().SI, 1e-9)
	require.InEpsilon(t, 999.1*9.80665*1.5, sheet(plain)["pressure_drop_pa"].Value.SI, 1e-5)
	require.True(t, sheet(plain)["minimum_flow_m3_s"].Blank())

	normal := find(t, read(t, append(none, "duty", "{normal flow: 180 m3/h, trips: 6}")...))
	require.InEpsilon(t, 0.05/area/1.2, normal.FullOpen().SI, 1e-9)
	require.Equal(t, 6.0, sheet(normal)["trips_a_year"].Value.SI)

	table := find(t, read(t, append(none, "duty", "{flow table: [[180 m3/h, 1000 h], [72 m3/h, 500 h]]}")...))
	require.InEpsilon(t, 0.02/area/1.2, table.FullOpen().SI, 1e-9)
	require.InDelta(t, 0.02, sheet(table)["minimum_flow_m3_s"].Value.SI, 1e-12)
	require.Contains(t, sheet(table)["full_open_velocity_m_s"].Note, "least flow of the flow table")

	least := find(t, read(t, append(none, "duty", "{minimum flow: 72 m3/h, normal flow: 180 m3/h, maximum flow: 216 m3/h, flow table: [[180 m3/h, 1000 h]]}",
		"stations.lift.upstream", "{fitting: bend, distance: 0.2 m}", "economics", "{currency: EUR, years: 1, discount rate: 0 %, energy price: 0.2, efficiency: 50 %}")...))
	require.InEpsilon(t, 0.02/area/(1.5-0.3*1.0/5), least.FullOpen().SI, 1e-9, "one bore behind a bend that asks for five")
	items := sheet(least)
	require.Equal(t, "bend", items["upstream"].Words)
	require.InDelta(t, 0.2, items["straight_run_m"].Value.SI, 1e-12)
	require.InDelta(t, 0.06, items["maximum_flow_m3_s"].Value.SI, 1e-12)
	// rho g Q h t c/(1000 eta) = 999.1 x 9.80665 x 0.05 x 0.1 x 1000 x 0.2/(1000 x 0.5)
	require.Contains(t, items["head_loss_m"].Note, "0.1 m of it at every flow of the duty cost 19.6 EUR in present value")
}

func TestNothingToFind(t *testing.T) {
	for name, x := range map[string]struct {
		set   []string
		words string
	}{
		"no limits":            {[]string{"limits", "{}"}, "no limits are given"},
		"head loss alone":      {[]string{"limits", "{head loss: 1 m}"}, "no limits are given"},
		"nothing happens":      {[]string{"events", "[]"}, "nothing happens"},
		"none meets":           {[]string{"limits", "{design pressure: 2 bar}"}, "even a valve that shuts at zero velocity does not meet the limits"},
		"no limit is so low":   {[]string{"limits", "{design pressure: 90 bar}"}, "no limit is broken by the closing"},
		"the flow goes on":     {[]string{"run.until", "0.25 s"}, "the flow does not reverse"},
		"a bound out of reach": {[]string{"limits", "{reverse velocity: 19 m/s}"}, "no limit is broken by the closing"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r := find(t, read(t, x.set...))
			require.Contains(t, r.Allowed.Velocity.Reason, x.words)
			require.Equal(t, name == "none meets", len(r.Allowed.Broken) > 0)
			for _, g := range r.Sheet(quantity.SI) {
				for _, i := range g.Items {
					require.NotContains(t, i.Text(quantity.SI), "no value", i.Key)
					if i.Key == "reverse_velocity_m_s" {
						require.True(t, i.Blank())
						require.Contains(t, i.Remark(), x.words)
					}
				}
			}
		})
	}
}

// Of the built-in example the swing disc fails and the spring disc passes: what is allowed lies between their reverse velocities.
func TestExampleLiesBetweenItsCandidates(t *testing.T) {
	if testing.Short() {
		t.Skip("runs the example some ten times")
	}
	raw, err := examples.Files.ReadFile("lift-station.yaml")
	require.NoError(t, err)
	d, err := casefile.Read("lift-station.yaml", raw, examples.Files.ReadFile)
	require.NoError(t, err)
	c, err := d.Case()
	require.NoError(t, err)
	r := find(t, c)
	out, err := choice.Run(context.Background(), c, choice.Settings{})
	require.NoError(t, err)
	swing, spring := out.Scenarios[0].Outcomes[0], out.Scenarios[0].Outcomes[1]
	require.False(t, *swing.LimitsMet)
	require.True(t, *spring.LimitsMet)
	require.Greater(t, r.Allowed.Velocity.SI, spring.MaxReverseVelocity.SI)
	require.Less(t, r.Allowed.Velocity.SI, swing.MaxReverseVelocity.SI)
	require.Equal(t, out.Scenarios[0].Own, r.Own[0].Tangent)
	require.NotContains(t, r.Assumptions(), "candidates.")
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	_, err := requirement.Find(ctx, read(t), choice.Settings{Progress: func(float64) { cancel() }})
	require.ErrorIs(t, err, context.Canceled)
}
