package export

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve/choice"
)

// The summary says how the candidates stay open where that was asked; what is not known is null with its reason, and words stand beside their figures.
func TestStayingOpen(t *testing.T) {
	v := func(x float64) choice.Value { return choice.Value{SI: x} }
	no := func(reason string) choice.Value { return choice.Value{Reason: reason} }
	a, f := 0.05, 2.0
	k := choice.StayingOpen{Candidate: "a", Watched: "lift, unit 1", FullOpenVelocity: v(2), LeastVelocity: no("no rule"), HighestFrom: v(2.5), HighestTo: v(3), Upstream: "bend", Distance: v(0.5), Bores: v(2),
		NeededMargin: v(1.38), Strokes: v(1e6), Travel: v(2.2e6), Hinged: true, StopTaps: v(0), StopTapEnergy: v(0), Closures: no("none"), ClosuresEnergy: no("none"),
		Flows: []choice.HeldFlow{{Name: "minimum flow", Flow: v(0.1), Velocity: v(1), Margin: v(0.5), Class: "flutters severely", Opening: v(0.4), HeadLoss: v(0.2), Ripple: "floats", Amplitude: v(0.03),
			Frequency: v(1.5), Damping: v(0.3), Ratio: v(1.33), Response: v(0.9)}}}
	c := &choice.Comparison{Case: &choice.Case{Duty: &choice.Duty{Fluctuation: &a, Frequency: &f}}, Staying: []choice.StayingOpen{k}}
	s := &object{}
	stayingOpen(s, c)
	var out bytes.Buffer
	require.NoError(t, s.write(&out))
	var got struct {
		Open struct {
			Fluctuation float64 `json:"flow_fluctuation_fraction"`
			Frequency   float64 `json:"fluctuation_frequency_hz"`
			Candidates  []map[string]any
		} `json:"staying_open"`
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &got))
	require.Equal(t, []float64{a, f}, []float64{got.Open.Fluctuation, got.Open.Frequency})
	one := got.Open.Candidates[0]
	require.Nil(t, one["least_velocity_m_s"])
	require.Equal(t, 2.2e6, one["hinge_travel_rad_per_year"])
	require.Nil(t, one["guide_travel_m_per_year"])
	require.Equal(t, map[string]any{"least_velocity_m_s": "no rule", "guide_travel_m_per_year": "the disc swings on a hinge", "closures_per_year": "none", "seat_impact_energy_j_per_year": "none"}, one["reasons"])
	require.Equal(t, map[string]any{"at": "minimum flow", "flow_m3_s": 0.1, "velocity_m_s": 1., "full_open_margin": 0.5, "hold": "flutters severely", "opening_fraction": 0.4, "head_loss_m": 0.2,
		"in_fluctuation": "floats", "opening_amplitude_fraction": 0.03, "natural_frequency_hz": 1.5, "damping_fraction": 0.3, "frequency_ratio": 1.33, "amplitude_response": 0.9}, one["flows"].([]any)[0])

	s = &object{}
	stayingOpen(s, &choice.Comparison{Case: &choice.Case{}})
	require.Empty(t, s.fields)
}
