package casefile_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/network/casefile"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// A data sheet is a file with candidates and nothing else; a whole case serves as well.
func TestValves(t *testing.T) {
	sheet := "format: 1\ncandidates:\n  disc: {type: nozzle, size: DN200, cracking pressure: 15 mbar, test points: [[5 m/s2, 0.1 m/s]]}\nvalves:\n  other: {type: swing, size: DN300}\n"
	specs, in, err := document(t, sheet).Valves()
	require.NoError(t, err)
	require.Len(t, specs, 2)
	require.Equal(t, []valve.TestPoint{{Deceleration: 5, ReverseVelocity: 0.1}}, specs[0].Tests)
	require.InDelta(t, 998.2, in.Density, 0.1)
	require.Zero(t, in.Slope)

	specs, in, err = document(t, lift(t)).Valves()
	require.NoError(t, err)
	require.Len(t, specs, 2)
	require.InDelta(t, 999.1, in.Density, 0.1)

	for text, words := range map[string]string{
		"format: 1\nlimits: {}\n":                     "candidates is missing",
		"format: 1\ncandidates: {a: {type: swing}}\n": "case.yaml:2:14: candidates.a: size is missing",
		"format: 1\ncandidates: {a: {type: swing, size: DN200, test points: [[5 m/s2, 1 m]]}}\n": `"1 m" is a length, a velocity is wanted`,
	} {
		_, _, err := document(t, text).Valves()
		var all casefile.Errors
		require.ErrorAs(t, err, &all)
		require.ErrorContains(t, err, words)
	}
}

// What is written is read back to six digits.
func TestCandidateIsReadBack(t *testing.T) {
	for _, f := range catalogue.Families() {
		t.Run(f.Name, rapid.MakeCheck(func(t *rapid.T) {
			spec := valve.Spec{Name: "disc-1", Type: f.Name, Size: rapid.Float64Range(0.06, 0.8).Draw(t, "size"), Set: map[string]float64{}, Tables: map[string]valve.Points{}}
			for _, k := range f.Keys {
				if rapid.Bool().Draw(t, k.Name) {
					if k.Named() {
						spec.Set[k.Name] = rapid.SampledFrom(k.Words()).Draw(t, "word").Value
						continue
					}
					spec.Set[k.Name] = k.Min + (k.Max-k.Min)*rapid.Float64Range(1e-6, 0.999).Draw(t, "value")
				}
			}
			for _, table := range f.Tables {
				if table == catalogue.TestPoints {
					spec.Tests = []valve.TestPoint{{Deceleration: 3, ReverseVelocity: 0.25}, {Deceleration: 5.25, ReverseVelocity: 1}}
				} else {
					spec.Tables[table] = valve.Points{Opening: []float64{0.125, 1}, Value: []float64{20, 1.5}}
				}
			}
			doc, err := casefile.Read("sheet.yaml", []byte("format: 1\ncandidates:\n"+casefile.Candidate(spec, "fitted to 5 test points")), nil)
			require.NoError(t, err)
			read, _, err := doc.Valves()
			require.NoError(t, err)
			require.Len(t, read, 1)
			require.InEpsilon(t, spec.Size, read[0].Size, 1e-5)
			require.Equal(t, len(spec.Set), len(read[0].Set))
			for k, x := range spec.Set {
				require.InDelta(t, x, read[0].Set[k], 1e-5*max(x, -x)+1e-12, k)
			}
			require.Equal(t, spec.Tables, read[0].Tables)
			require.Equal(t, spec.Tests, read[0].Tests)
		}))
	}
}
