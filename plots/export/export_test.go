package export

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/characteristic"
	"seatwise/valve/choice"
)

// measures stands for the table of the liquid service: the keys that the file format promises, in its order.
var measures = []choice.Measure{
	{Key: "initial_flow_m3_s", Get: func(o *choice.Outcome) choice.Value { return o.InitialFlow }},
	{Key: "initial_velocity_m_s", Get: func(o *choice.Outcome) choice.Value { return o.InitialVelocity }},
	{Key: "opening_fraction", Get: func(o *choice.Outcome) choice.Value { return o.OpeningFraction }},
	{Key: "head_loss_m", Get: func(o *choice.Outcome) choice.Value { return o.HeadLoss }},
	{Key: "deceleration_m_s2", Get: func(o *choice.Outcome) choice.Value { return o.Deceleration }},
	{Key: "max_reverse_velocity_m_s", Get: func(o *choice.Outcome) choice.Value { return o.MaxReverseVelocity }},
	{Key: "reverse_velocity_error_m_s", Get: func(o *choice.Outcome) choice.Value { return o.ReverseVelocityError }},
	{Key: "later_reverse_velocity_m_s", Get: func(o *choice.Outcome) choice.Value { return o.LaterReverseVelocity }},
	{Key: "reopenings", Get: func(o *choice.Outcome) choice.Value { return o.Reopenings }},
	{Key: "reverse_volume_m3", Get: func(o *choice.Outcome) choice.Value { return o.ReverseVolume }},
	{Key: "closing_start_s", Get: func(o *choice.Outcome) choice.Value { return o.ClosingStart }},
	{Key: "seated_s", Get: func(o *choice.Outcome) choice.Value { return o.Seated }},
	{Key: "seat_impact_speed_m_s", Get: func(o *choice.Outcome) choice.Value { return o.SeatImpactSpeed }},
	{Key: "slam_pressure_rise_pa", Get: func(o *choice.Outcome) choice.Value { return o.SlamPressureRise }},
	{Key: "peak_pressure_pa", Get: func(o *choice.Outcome) choice.Value { return o.PeakPressure }},
	{Key: "peak_error_pa", Get: func(o *choice.Outcome) choice.Value { return o.PeakError }},
	{Key: "peak_time_s", Get: func(o *choice.Outcome) choice.Value { return o.PeakTime }},
	{Key: "min_pressure_pa", Get: func(o *choice.Outcome) choice.Value { return o.MinPressure }},
	{Key: "cavity_max_m3", Get: func(o *choice.Outcome) choice.Value { return o.CavityMax }},
	{Key: "pump_speed_ratio_at_reversal", Get: func(o *choice.Outcome) choice.Value { return o.SpeedRatioAtReversal }},
	{Key: "pump_max_reverse_rpm", Get: func(o *choice.Outcome) choice.Value { return o.MaxReverseSpeed }},
}

// promised are the keys of a candidate in their order.
var promised = []string{"name", "type", "size_mm", "watched", "initial_flow_m3_s", "initial_velocity_m_s", "opening_fraction", "head_loss_m",
	"deceleration_m_s2", "max_reverse_velocity_m_s", "slam_class", "reverse_velocity_error_m_s", "later_reverse_velocity_m_s", "reopenings",
	"reverse_volume_m3", "closing_start_s", "seated_s", "seat_impact_speed_m_s", "slam_pressure_rise_pa", "peak_pressure_pa",
	"peak_error_pa", "peak_node", "peak_time_s", "min_pressure_pa", "min_node", "cavity_max_m3", "pump_speed_ratio_at_reversal",
	"pump_max_reverse_rpm", "limits_met", "verdicts"}

func two() *choice.Comparison {
	met, missed := true, false
	outcome := func(name string, reverse float64, limits *bool) choice.Outcome {
		v := func(x float64) choice.Value { return choice.Value{SI: x} }
		return choice.Outcome{Candidate: name, Type: "swing", Valve: valve.Valve{Bore: 0.25}, EventTime: 1,
			InitialFlow: v(0.1 + 0.2), MaxReverseVelocity: v(reverse), CavityMax: choice.Value{Reason: "no cavity formed"},
			MaxReverseSpeed: v(math.Pi), PeakPressure: v(1.14e6), PeakNode: "header", LimitsMet: limits,
			Verdicts: []choice.Verdict{
				{Measure: "peak_pressure_pa", Limit: "design pressure with 10 % surge allowance", Value: 1.14e6, Bound: 8.8e5, Margin: -2.6e5, Place: "header", Time: 1.5},
				{Measure: "pump_max_reverse_rpm", Limit: "pump reverse speed", Value: math.Pi, Bound: 2 * math.Pi, Margin: math.Pi, Met: true, Time: -1}},
			Time: []float64{0, 0.1, 1.0 / 3},
			History: []choice.Series{
				{Key: "velocity", Label: "velocity", Dimension: quantity.Velocity, Values: []float64{2.53, 1e-7, -reverse}},
				{Key: "opening", Label: "opening", Dimension: quantity.Fraction, Values: []float64{1, 0.5, 0}},
				{Key: "pressure_down", Label: "pressure downstream", Dimension: quantity.Pressure, Values: []float64{5.2e5, math.NaN(), 1.14e6}},
			},
			Route: []choice.Profile{
				{Pipe: "lift/1/branch", Chainage: []float64{0, 6}, Elevation: []float64{102, 102}, Steady: []float64{155, 154.9}, Lowest: []float64{110, 111}, Highest: []float64{223, 222}},
				{Pipe: "main", Chainage: []float64{6, 306, 606}, Elevation: []float64{102, 110, 140}, Steady: []float64{155, 153, 151.5},
					Lowest: []float64{111, 120, 151.5}, Highest: []float64{222, 190, 151.5}, Cavity: []float64{0, 2e-3, 0}}},
			Numerics: choice.Numerics{TimeStep: 5e-4, Reaches: map[string]int{"main": 100, "branch": 4}, StepFrom: "branch", LengthChangeMax: 1e-3, VolumeResidual: -1e-12, Kernel: "liquid"},
		}
	}
	return &choice.Comparison{
		Case: &choice.Case{Name: "lift", InputSHA256: "ab", Candidates: []valve.Spec{{Name: "spring-disc", Size: 0.065}}}, Service: "liquid",
		Scenarios: []choice.ScenarioOutcomes{
			{Name: "base", Own: choice.Value{SI: 6.8}, Outcomes: []choice.Outcome{outcome("plain-swing", 0.638, &missed), outcome("spring-disc", 0.104, &met)}},
			{Name: "all-trip", Own: choice.Value{Reason: "no event"}, Outcomes: []choice.Outcome{outcome("plain-swing", 0.8, nil)}},
		},
		Governing: []choice.Governing{{Candidate: "plain-swing", Measure: "pump_max_reverse_rpm", Scenario: "all-trip", Value: math.Pi}},
		Reasons:   []string{"reverse velocity < 0.3 m/s & cheapest"},
	}
}

func summary(t require.TestingT, c *choice.Comparison, ms []choice.Measure) (string, map[string]any) {
	var buf bytes.Buffer
	require.NoError(t, Summary(&buf, c, ms, About{Program: "seatwise test", Files: []string{"a.csv", "b.png"}, Bin: Bin}))
	var m map[string]any
	require.NoError(t, json.Unmarshal(buf.Bytes(), &m))
	return buf.String(), m
}

// keys are those of the object that begins at a key, in the order of the file.
func keysOf(t *testing.T, raw json.RawMessage) []string {
	d := json.NewDecoder(bytes.NewReader(raw))
	_, err := d.Token()
	require.NoError(t, err)
	var keys []string
	for d.More() {
		k, err := d.Token()
		require.NoError(t, err)
		keys = append(keys, k.(string))
		var skip json.RawMessage
		require.NoError(t, d.Decode(&skip))
	}
	return keys
}

// The title block stands in the summary when the case gives one, without its blank boxes.
func TestSummaryTitleBlock(t *testing.T) {
	var buf bytes.Buffer
	require.NoError(t, Summary(&buf, two(), measures, About{Report: TitleBlock{Project: "P-1", Checked: "CD"}}))
	var m struct{ Report json.RawMessage }
	require.NoError(t, json.Unmarshal(buf.Bytes(), &m))
	require.Equal(t, []string{"project", "checked"}, keysOf(t, m.Report))
	_, blank := summary(t, two(), measures)
	require.NotContains(t, blank, "report")
}

func TestSummaryKeys(t *testing.T) {
	text, _ := summary(t, two(), measures)
	require.Equal(t, []string{"format", "case", "service", "scenarios", "governing", "governing_verdicts", "recommended", "reasons", "numerics", "warnings", "cautions",
		"assumptions", "program", "inputs", "input_sha256", "history_rows", "files"}, keysOf(t, json.RawMessage(text)))
	var s struct {
		Scenarios []json.RawMessage
		Governing []json.RawMessage
		Numerics  json.RawMessage
	}
	require.NoError(t, json.Unmarshal([]byte(text), &s))
	require.Equal(t, []string{"candidate", "measure", "scenario", "value"}, keysOf(t, s.Governing[0]))
	require.Equal(t, []string{"time_step_s", "reaches", "step_from", "reach_length_change_max", "volume_residual", "kernel"}, keysOf(t, s.Numerics))
	require.Equal(t, []string{"name", "event_s", "own_deceleration_m_s2", "own_bore_mm", "candidates"}, keysOf(t, s.Scenarios[0]))
	var one struct{ Candidates []json.RawMessage }
	require.NoError(t, json.Unmarshal(s.Scenarios[0], &one))
	require.Equal(t, append(promised[:len(promised):len(promised)], "reasons"), keysOf(t, one.Candidates[0]))
	var cand struct{ Verdicts []json.RawMessage }
	require.NoError(t, json.Unmarshal(one.Candidates[0], &cand))
	require.Equal(t, []string{"measure", "limit", "scenario", "value", "bound", "met", "margin", "unsure", "narrow", "place", "time_s"}, keysOf(t, cand.Verdicts[0]))
}

func TestSummaryValues(t *testing.T) {
	text, m := summary(t, two(), measures)
	require.EqualValues(t, 1, m["format"])
	require.Nil(t, m["recommended"])
	require.Equal(t, []any{}, m["warnings"])
	require.Contains(t, text, `"reverse velocity < 0.3 m/s & cheapest"`)
	base := m["scenarios"].([]any)[0].(map[string]any)
	swing, spring := base["candidates"].([]any)[0].(map[string]any), base["candidates"].([]any)[1].(map[string]any)
	require.Equal(t, 0.1+0.2, swing["initial_flow_m3_s"]) // every bit
	require.Equal(t, 250.0, swing["size_mm"])             // bore of the valve
	require.Equal(t, 65.0, spring["size_mm"])             // size given, although 1000 * 0.065 is not 65
	require.InDelta(t, 30, swing["pump_max_reverse_rpm"], 1e-12)
	require.Equal(t, false, swing["limits_met"])
	require.Nil(t, swing["cavity_max_m3"])
	require.Equal(t, "no cavity formed", swing["reasons"].(map[string]any)["cavity_max_m3"])
	require.Equal(t, "no place found", swing["reasons"].(map[string]any)["min_node"])
	turn := swing["verdicts"].([]any)[1].(map[string]any)
	require.InDelta(t, 60, turn["bound"], 1e-12)
	require.Nil(t, turn["time_s"])
	require.Equal(t, "severe", swing["slam_class"])
	require.Equal(t, map[string]any{"place": "not of one place", "time_s": "not of one moment"}, turn["reasons"])
	require.InDelta(t, 30, m["governing"].([]any)[0].(map[string]any)["value"], 1e-12)
	other := m["scenarios"].([]any)[1].(map[string]any)
	require.Nil(t, other["own_deceleration_m_s2"])
	require.Nil(t, other["candidates"].([]any)[0].(map[string]any)["limits_met"])
	require.Equal(t, 1e-12, m["numerics"].(map[string]any)["volume_residual"])
}

// The summary is the manifest of its folder: it lists the files, and marks a built-in example.
func TestSummaryIsTheManifest(t *testing.T) {
	c := two()
	_, m := summary(t, c, measures)
	require.Equal(t, []any{"a.csv", "b.png"}, m["files"])
	require.Equal(t, "of every 1 ms the first, the last and those with the extremes of velocity and pressure_down", m["history_rows"])
	require.NotContains(t, m, "example")

	c.Case.Example = true
	_, m = summary(t, c, measures)
	require.Equal(t, true, m["example"])
	var buf bytes.Buffer
	require.NoError(t, Summary(&buf, c, measures, About{}))
	require.NoError(t, json.Unmarshal(buf.Bytes(), &m))
	require.Equal(t, []any{}, m["files"])
	require.Equal(t, "every time step", m["history_rows"])

	c.Scenarios[0].Outcomes[1].Numerics.HistoryBin = 0.0256 // a long run, of which the history holds a part of the steps
	buf.Reset()
	require.NoError(t, Summary(&buf, c, measures, About{}))
	require.NoError(t, json.Unmarshal(buf.Bytes(), &m))
	require.Equal(t, "every time step; of runs of very many steps, away from the events and the first reversals and seatings, of every 25.6 ms the first, the last and those "+
		"with the extremes of any series", m["history_rows"])
}

func TestSummaryOfNothing(t *testing.T) {
	_, m := summary(t, &choice.Comparison{}, nil)
	require.Equal(t, []any{}, m["scenarios"])
	require.Nil(t, m["numerics"].(map[string]any)["time_step_s"])
}

// Whatever the values and texts, the file is JSON, a number reads back to its bits and what is not finite is null with a reason.
func TestSummaryProperty(t *testing.T) {
	number := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), math.Copysign(0, -1), 5e-324}))
	rapid.Check(t, func(t *rapid.T) {
		c := two()
		o := &c.Scenarios[0].Outcomes[0]
		flow, time := number.Draw(t, "flow"), number.Draw(t, "time")
		o.InitialFlow = choice.Value{SI: flow}
		o.MaxReverseSpeed = choice.Value{SI: number.Draw(t, "speed")}
		o.Valve.Bore = number.Draw(t, "bore")
		o.Verdicts[0].Margin, o.Verdicts[0].Time = number.Draw(t, "margin"), time
		o.Numerics.TimeStep, o.Numerics.VolumeResidual = number.Draw(t, "step"), number.Draw(t, "residual")
		o.CavityMax.Reason = rapid.StringN(1, 20, -1).Draw(t, "reason")
		o.PeakNode, c.Case.Name = rapid.String().Draw(t, "node"), string(rapid.SliceOf(rapid.Byte()).Draw(t, "name"))
		text, m := summary(t, c, measures)
		require.True(t, json.Valid([]byte(text)))
		cand := m["scenarios"].([]any)[0].(map[string]any)["candidates"].([]any)[0].(map[string]any)
		if finite(flow) {
			require.Equal(t, flow, cand["initial_flow_m3_s"])
		} else {
			require.Nil(t, cand["initial_flow_m3_s"])
			require.NotEmpty(t, cand["reasons"].(map[string]any)["initial_flow_m3_s"])
		}
		require.Nil(t, cand["cavity_max_m3"])
	})
}

func TestSummaryIsTheSameEachTime(t *testing.T) {
	first, _ := summary(t, two(), measures)
	for range 20 {
		again, _ := summary(t, two(), measures)
		require.Equal(t, first, again)
	}
}

func TestHistory(t *testing.T) {
	var buf bytes.Buffer
	o := &two().Scenarios[0].Outcomes[0]
	require.NoError(t, History(&buf, o, 0))
	require.True(t, strings.HasPrefix(buf.String(), "time s,velocity m/s,opening,pressure downstream Pa\n0,2.53,1,520000\n"), buf.String())
	rows, err := csv.NewReader(&buf).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+len(o.Time))
	require.Equal(t, "", rows[2][3], "not finite")
	for i, row := range rows[1:] {
		x, err := strconv.ParseFloat(row[0], 64)
		require.NoError(t, err)
		require.InDelta(t, o.Time[i], x, 1e-4)
	}
	o.History[0].Values = nil
	require.ErrorIs(t, History(io.Discard, o, 0), ErrSeries)
}

// Of a reduced history the first and the last row remain, every row stands in the full one, and in each bin the columns that the reduction follows have the
// extremes that they have in full.
func TestReducedHistory(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 400).Draw(t, "rows")
		step := rapid.Float64Range(2e-5, 3e-3).Draw(t, "step")
		column := func(name string) []float64 {
			return rapid.SliceOfN(rapid.OneOf(rapid.Float64Range(-1e6, 1e6), rapid.SampledFrom([]float64{0, 1, math.NaN()})), n, n).Draw(t, name)
		}
		o := &choice.Outcome{History: []choice.Series{
			{Key: "velocity", Label: "velocity", Dimension: quantity.Velocity, Values: column("velocity")},
			{Key: "pressure_down", Label: "pressure", Dimension: quantity.Pressure, Values: column("pressure")},
			{Key: "opening", Label: "opening", Dimension: quantity.Fraction, Values: column("opening")},
		}}
		for i := range n {
			o.Time = append(o.Time, float64(i)*step)
		}
		read := func(bin float64) [][]string {
			var buf bytes.Buffer
			require.NoError(t, History(&buf, o, bin))
			rows, err := csv.NewReader(&buf).ReadAll()
			require.NoError(t, err)
			return rows[1:]
		}
		full, short := read(0), read(Bin)
		require.Len(t, full, n)
		require.Equal(t, full[0], short[0])
		require.Equal(t, full[n-1], short[len(short)-1])

		where := map[string]int{} // rows of the full history by their time
		for i, row := range full {
			where[row[0]] = i
			x, err := strconv.ParseFloat(row[0], 64)
			require.NoError(t, err)
			require.InDelta(t, o.Time[i], x, 1e-3*step)
		}
		require.Len(t, where, n, "times are told apart")
		bin := func(i int) int { return int(math.Floor(o.Time[i] / Bin)) }
		extremes := func(rows [][]string, col int) map[int][2]float64 {
			out := map[int][2]float64{}
			for _, row := range rows {
				x, err := strconv.ParseFloat(row[col], 64)
				if err != nil {
					continue // an empty cell
				}
				b := bin(where[row[0]])
				e, ok := out[b]
				if !ok {
					e = [2]float64{x, x}
				}
				out[b] = [2]float64{min(e[0], x), max(e[1], x)}
			}
			return out
		}
		last := -1
		for _, row := range short {
			i, ok := where[row[0]]
			require.True(t, ok)
			require.Equal(t, full[i], row)
			require.Greater(t, i, last)
			last = i
		}
		require.Equal(t, extremes(full, 1), extremes(short, 1))
		require.Equal(t, extremes(full, 2), extremes(short, 2))
		require.LessOrEqual(t, len(short), 6*(bin(n-1)+1))
	})
}

// Seven significant digits.
func TestHistoryDigits(t *testing.T) {
	var buf bytes.Buffer
	o := &choice.Outcome{Time: []float64{0, 1.0 / 16384}, History: []choice.Series{{Key: "flow", Label: "flow", Dimension: quantity.Flow, Values: []float64{1.0 / 3, 1234567.89}}}}
	require.NoError(t, History(&buf, o, Bin))
	require.Equal(t, "time s,flow m3/s\n0,0.3333333\n6.104e-05,1.234568e+06\n", buf.String())
}

// pushed is an outcome with two straight runs.
func pushed() *choice.Outcome {
	o := &two().Scenarios[0].Outcomes[0]
	o.AnchorForce = choice.Value{SI: 46.4e3}
	o.Spots = map[string]choice.Spot{anchorMeasure: {Place: "main, 0 m to 12.5 m", Time: 0.1}}
	o.Runs = []choice.StraightRun{
		{Pipe: "main", From: 0, To: 12.5, Behind: "header", Ahead: "tower", Forward: choice.Push{Force: 12}, Reverse: choice.Push{Force: 46.4e3, Time: 0.1, Impulse: 700},
			Force: []float64{1e-11, -46.4e3, 12}},
		{Pipe: "branch of lift, unit 2", From: 1, To: 4, Behind: "valve outlet", Ahead: "header", Forward: choice.Push{Force: 1234.56789, Time: 1.0 / 3, Impulse: 5},
			Force: []float64{0, 0, 1234.56789}}}
	return o
}

// What is less than a millionth of the greatest force is rounding.
func TestForces(t *testing.T) {
	var buf bytes.Buffer
	require.NoError(t, Forces(&buf, pushed(), Bin))
	require.Equal(t, "time s,main from 0 m to 12.5 m N,\"branch of lift, unit 2 from 1 m to 4 m N\"\n0,0,0\n0.1,-46400,0\n0.3333,12,1234.57\n", buf.String())
	o := pushed()
	o.Runs[1].Force = nil
	require.ErrorIs(t, Forces(io.Discard, o, 0), ErrSeries)
	require.ErrorContains(t, Forces(io.Discard, o, 0), "forces of plain-swing")
	o = pushed()
	o.Runs[0].Force[1], o.Runs[0].Reverse.Force = math.Inf(-1), math.Inf(1)
	buf.Reset()
	require.NoError(t, Forces(&buf, o, 0))
	require.Contains(t, buf.String(), "\n0.1,,0\n")
}

// Place and direction of the greatest force follow it, and every straight run has its own; without any there is a reason, and no list.
func TestSummaryOfForces(t *testing.T) {
	ms := []choice.Measure{{Key: anchorMeasure, Get: func(o *choice.Outcome) choice.Value { return o.AnchorForce }}}
	c := two()
	c.Scenarios[0].Outcomes[0] = *pushed()
	c.Scenarios[0].Outcomes[1].AnchorForce.Reason = "no bends are given"
	_, m := summary(t, c, ms)
	all := m["scenarios"].([]any)[0].(map[string]any)["candidates"].([]any)
	swing, spring := all[0].(map[string]any), all[1].(map[string]any)
	require.Equal(t, 46.4e3, swing["max_anchor_force_n"])
	require.Equal(t, "main, 0 m to 12.5 m", swing["anchor_place"])
	require.Equal(t, "header", swing["anchor_towards"])
	runs := swing["straight_runs"].([]any)
	require.Len(t, runs, 2)
	first := runs[0].(map[string]any)
	require.Equal(t, []any{"main", 0.0, 12.5}, []any{first["pipe"], first["from_m"], first["to_m"]})
	require.Equal(t, map[string]any{"towards": "header", "max_force_n": 46.4e3, "time_s": 0.1, "impulse_n_s": 700.0}, first["reverse"])
	still := runs[1].(map[string]any)["reverse"].(map[string]any)
	require.Equal(t, 0.0, still["max_force_n"])
	require.Nil(t, still["time_s"])
	require.Nil(t, spring["anchor_place"])
	require.NotContains(t, spring, "straight_runs")
	require.Equal(t, "no bends are given", spring["reasons"].(map[string]any)["anchor_towards"])
	require.Contains(t, m["history_rows"], "or of every force")
}

// A table of forces is among the files of an outcome with straight runs, and among the names of a case with bends.
func TestForceFiles(t *testing.T) {
	c := two()
	c.Scenarios[1].Outcomes[0] = *pushed()
	files, err := Files(c, Bin)
	require.NoError(t, err)
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
	}
	require.Contains(t, names, "force-all-trip-plain-swing.csv")
	require.NotContains(t, names, "force-plain-swing.csv")

	n := &network.Network{Pipes: []network.Pipe{{Profile: []network.Point{{}, {Chainage: 9}}}}}
	c.Case.Scenarios = []choice.Scenario{{Name: "base", Network: n}}
	known, err := Names(c.Case)
	require.NoError(t, err)
	require.NotContains(t, known, "force-spring-disc.csv")
	n.Pipes[0].Bends = []float64{3}
	known, err = Names(c.Case)
	require.NoError(t, err)
	require.Contains(t, known, "force-spring-disc.csv")
}

func TestEnvelope(t *testing.T) {
	var buf bytes.Buffer
	o := &two().Scenarios[0].Outcomes[0]
	o.Route[1].Pipe = `main, "new"`
	require.NoError(t, Envelope(&buf, o))
	rows, err := csv.NewReader(&buf).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"pipe", "chainage m", "elevation m", "steady head m", "lowest head m", "highest head m", "largest cavity m3"}, rows[0])
	require.Len(t, rows, 6)
	require.Equal(t, []string{`main, "new"`, "306", "110", "153", "120", "190", "0.002"}, rows[4])
	o.Route[0].Lowest = nil
	require.ErrorIs(t, Envelope(io.Discard, o), ErrSeries)
}

func TestFiles(t *testing.T) {
	files, err := Files(two(), Bin)
	require.NoError(t, err)
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
		require.NoError(t, f.Write(io.Discard))
		require.ErrorIs(t, f.Write(broken{}), errBroken)
	}
	require.Equal(t, []string{"history-plain-swing.csv", "envelope-plain-swing.csv", "history-spring-disc.csv", "envelope-spring-disc.csv",
		"history-all-trip-plain-swing.csv", "envelope-all-trip-plain-swing.csv", "worst.csv"}, names)
}

// The names are known before anything is run.
func TestNames(t *testing.T) {
	c := two()
	in := &choice.Case{Candidates: []valve.Spec{{Name: "plain-swing"}, {Name: "spring-disc"}}, Scenarios: []choice.Scenario{{Name: "base"}, {Name: "all-trip"}}}
	all, err := Names(in)
	require.NoError(t, err)
	require.Len(t, all, 9)
	files, err := Files(c, Bin)
	require.NoError(t, err)
	for _, f := range files {
		require.Contains(t, all, f.Name)
	}
	in.Candidates[1].Name = "all-trip-plain-swing"
	_, err = Names(in)
	require.ErrorIs(t, err, ErrName)
}

func TestFilesRefusesNames(t *testing.T) {
	for _, name := range []string{"../up", "a/b", "", "con.", "Spring-Disc", "all-trip-plain-swing"} {
		c := two()
		c.Scenarios[0].Outcomes[0].Candidate = name
		_, err := Files(c, Bin)
		require.ErrorIs(t, err, ErrName, name)
	}
}

func TestCharacteristic(t *testing.T) {
	c := Curve{Valve: valve.Valve{Name: "plain-swing", Type: "swing", Bore: 0.25, FullOpenVelocity: 2}, Points: []characteristic.Point{
		{Deceleration: 0.5, ForwardVelocity: 0.2, InitialVelocity: 2.4, Time: 4.4, SeatSpeed: 0.3},
		{Deceleration: 6.8, ReverseVelocity: 0.6, InitialVelocity: 2.4, Time: 0.44, SeatSpeed: 2},
		{Deceleration: 50, Outcome: characteristic.NeverSeats, ReverseVelocity: 20, InitialVelocity: 2.4, Time: 1},
	}, Band: []characteristic.Range{{Low: 0, High: 0.1}, {Low: 0.5, High: 0.7, Open: true}, {Low: math.Inf(1), Open: true}}}
	var buf bytes.Buffer
	require.NoError(t, CharacteristicCSV(&buf, CurveSet{}, c))
	require.Equal(t, `deceleration m/s2,outcome,reverse velocity m/s,forward velocity m/s,initial velocity m/s,time s,seat impact speed m/s,deceleration number 1,reverse velocity over full-open velocity 1,least reverse velocity m/s,greatest reverse velocity m/s
0.5,seats,0,0.2,2.4,4.4,0.3,0.03125,0,0,0.1
6.8,seats,0.6,0,2.4,0.44,2,0.425,0.3,0.5,
50,never seats,,,2.4,,,3.125,,,
`, buf.String())
	buf.Reset()
	require.NoError(t, CharacteristicJSON(&buf, CurveSet{Case: "lift", Example: true, Curves: []Curve{c}, Own: choice.Value{Reason: "no event"}}, About{Program: "seatwise test"}))
	var m map[string]any
	require.NoError(t, json.Unmarshal(buf.Bytes(), &m))
	require.Equal(t, []any{"lift", true, []any{}}, []any{m["case"], m["example"], m["files"]})
	require.Equal(t, "no event", m["reasons"].(map[string]any)["own_deceleration_m_s2"])
	points := m["valves"].([]any)[0].(map[string]any)["points"].([]any)
	require.Equal(t, 0.6, points[1].(map[string]any)["reverse_velocity_m_s"])
	require.Nil(t, points[2].(map[string]any)["reverse_velocity_m_s"])
	require.ErrorIs(t, CharacteristicJSON(broken{}, CurveSet{}, About{}), errBroken)
	require.ErrorIs(t, CharacteristicCSV(broken{}, CurveSet{}, c), errBroken)
}

// Every dimension of a measure or series has its SI unit in a heading.
func TestUnits(t *testing.T) {
	for d, want := range map[quantity.Dimension]string{quantity.Pressure: "Pa", quantity.Velocity: "m/s", quantity.Flow: "m3/s", quantity.Rotation: "rad/s",
		quantity.Length: "m", quantity.Volume: "m3", quantity.Time: "s", quantity.Acceleration: "m/s2", quantity.Fraction: "", quantity.Number: "", quantity.Power: "W",
		quantity.PressureDifference: "Pa", quantity.Torque: "N·m", quantity.Force: "N", quantity.Impulse: "N·s", quantity.Angle: "rad", quantity.Temperature: "K"} {
		require.Equal(t, want, siUnit(d), d.String())
	}
}

var errBroken = fmt.Errorf("disc full")

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errBroken }

func BenchmarkHistory(b *testing.B) {
	o := &two().Scenarios[0].Outcomes[0]
	o.Time = make([]float64, 20000)
	for i := range o.Time {
		o.Time[i] = float64(i) * 5e-4
	}
	for i := range o.History {
		o.History[i].Values = o.Time
	}
	for b.Loop() {
		if err := History(io.Discard, o, 0); err != nil {
			b.Fatal(err)
		}
	}
}

// The table of the liquid service makes every key that the format promises, in that order, and agrees with the units in them.
func TestServiceTable(t *testing.T) {
	table := choice.Measures(choice.LiquidPump)
	_, m := summary(t, two(), table)
	cand := m["scenarios"].([]any)[0].(map[string]any)["candidates"].([]any)[0].(map[string]any)
	for _, key := range promised {
		require.Contains(t, cand, key)
	}
	for _, x := range table {
		require.Equal(t, x.InKey(12.5), inKey(x.Key, 12.5), x.Key)
	}
	text, _ := summary(t, two(), table)
	at := 0
	for _, key := range promised {
		i := strings.Index(text[at:], `"`+key+`":`)
		require.GreaterOrEqual(t, i, 0, key)
		at += i
	}
}

// TestTextsAreNoFormulas: a spreadsheet evaluates no name of a case or candidate.
func TestTextsAreNoFormulas(t *testing.T) {
	var b bytes.Buffer
	w := newTable(&b)
	for _, s := range []string{"=1+1", "+1", "-1", "@a", "a=1", ""} {
		w.text(s)
	}
	w.number(-1)
	w.end()
	require.NoError(t, w.close("texts"))
	require.Equal(t, "'=1+1,'+1,'-1,'@a,a=1,,-1\n", b.String())
}
