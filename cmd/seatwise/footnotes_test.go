package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve"
	"seatwise/valve/choice"
)

// page is a view of one outcome, and what it prints.
func page(o choice.Outcome) (*view, *bytes.Buffer) {
	buf := &bytes.Buffer{}
	c := &choice.Comparison{Scenarios: []choice.ScenarioOutcomes{{Name: "base", Outcomes: []choice.Outcome{o}}}}
	return &view{screen: &screen{Writer: buf, width: 400}, Comparison: c, measures: choice.Measures(choice.LiquidPump)}, buf
}

// The words of the verdicts are defined where they appear.
func TestDefinitionsOfVerdicts(t *testing.T) {
	for _, d := range []choice.Verdict{{}, {Unsure: true}, {Narrow: true}} {
		v, buf := page(choice.Outcome{EventTime: -1, Verdicts: []choice.Verdict{d}})
		v.definitions()
		require.Equal(t, d.Unsure, bytes.Contains(buf.Bytes(), []byte("  unsure: ")))
		require.Equal(t, d.Narrow, bytes.Contains(buf.Bytes(), []byte("  narrowly: ")))
	}
}

func TestSmallErrorsAreSummedUp(t *testing.T) {
	o := choice.Outcome{MaxReverseVelocity: choice.Value{SI: 0.6}, Errors: map[string]float64{"max_reverse_velocity_m_s": 1e-5}}
	v, buf := page(o)
	v.errors(&v.Scenarios[0], v.measures)
	require.Contains(t, buf.String(), "halving the time step: all figures less than 0.1 %.")

	o.Errors = map[string]float64{"max_reverse_velocity_m_s": 0.01}
	v, buf = page(o)
	v.errors(&v.Scenarios[0], v.measures)
	require.Contains(t, buf.String(), "reverse velocity 0.010 m/s")
	require.Contains(t, buf.String(), "m/s, all else less than")
}

// The governing table leaves out what has no limit and is no load.
func TestGoverningTableIsShort(t *testing.T) {
	v, buf := page(choice.Outcome{Candidate: "swing", Verdicts: []choice.Verdict{{Measure: "pump_max_reverse_rpm"}}})
	v.Case, v.Service = &choice.Case{Candidates: []valve.Spec{{Name: "swing"}}}, choice.LiquidPump
	v.Scenarios = append(v.Scenarios, v.Scenarios[0])
	v.Governing = []choice.Governing{{Candidate: "swing", Measure: "peak_pressure_pa", Scenario: "base", Value: 2}}
	v.governing()
	require.Contains(t, buf.String(), "\nhighest pressure, bar")
	require.Contains(t, buf.String(), "\npump reverse speed, rpm")
	for _, absent := range []string{"price", "opening", "reverse velocity"} {
		require.NotContains(t, buf.String(), absent)
	}
}
