package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"seatwise/network/quantity"
)

const repliesOfTest = `format: 1
title: Replies
currency: EUR
offers:
  A: {maker: "=Fennimore", reference: Q-1, type: nozzle, size: DN150, price amount: 8000, moving mass: 1.6 kg, travel: 28 mm, full-open velocity: 1.5 m/s, cracking pressure: 15 mbar, pressure class: 16}
  B: {maker: Oxbow, type: swing, size: DN150, price amount: 2000}
`

// evaluated runs the command offers on the case of tests.
func evaluated(t *testing.T, replies string, args ...string) (code int, dir, stdout, stderr string) {
	t.Helper()
	in := filepath.Join(t.TempDir(), "replies.yaml")
	require.NoError(t, os.WriteFile(in, []byte(replies), 0o600))
	dir = filepath.Join(t.TempDir(), "out")
	var out, errs bytes.Buffer
	code = run(t.Context(), append([]string{"offers", filepath.Join("testdata", "case", "tiny.yaml"), in, "--out", dir, "--set", "limits={design pressure: 9 bar, reverse velocity: 0.3 m/s}"}, args...), strings.NewReader(""), &out, &errs)
	return code, dir, out.String(), errs.String()
}

// TestOffersFiles compares screen, JSON and workbook of an evaluation in either units.
func TestOffersFiles(t *testing.T) {
	for _, units := range []quantity.System{quantity.SI, quantity.US} {
		code, dir, stdout, stderr := evaluated(t, repliesOfTest, "--units", units.String())
		require.Equal(t, exitDone, code, stderr)
		raw, err := os.ReadFile(filepath.Join(dir, offersFile))
		require.NoError(t, err)
		var e struct {
			Offers []struct {
				Name, Maker, Answer string
				Price               float64
				Questions           []string
				Limits              []struct {
					Limit, Measure, Answer string
					Value, Bound           *float64
				}
				Gaps []struct {
					Datum string
					Used  *float64
					Unit  string
				}
			}
			Advice, Files []string
		}
		require.NoError(t, json.Unmarshal(raw, &e))
		require.Equal(t, []string{offersWorkbook}, e.Files)
		require.Len(t, e.Offers, 2)
		f, err := excelize.OpenFile(filepath.Join(dir, offersWorkbook))
		require.NoError(t, err)
		defer f.Close()
		compliance, gaps, questions := cellsOf(t, f, "Compliance"), cellsOf(t, f, "Gaps"), cellsOf(t, f, "Questions")
		plain := strings.Join(strings.Fields(stdout), " ")
		numbers := 0
		for _, o := range e.Offers {
			for _, l := range o.Limits {
				i := slices.IndexFunc(compliance, func(r []string) bool {
					return r[0] == o.Name && r[2] == l.Limit && slices.Contains(r, l.Answer) && (l.Value == nil || len(r) > 5 && r[4] != "not known")
				})
				require.GreaterOrEqual(t, i, 0, "%s: %s", o.Name, l.Limit)
				if l.Value == nil {
					continue
				}
				d := quantity.Pressure
				if strings.Contains(l.Measure, "velocity") {
					d = quantity.Velocity
				}
				for _, r := range compliance {
					if r[0] == o.Name && r[2] == l.Limit && measureOf(l.Measure) == r[3] {
						require.InEpsilon(t, units.Unit(d).From(*l.Value), cellNumber(t, r[4]), 1e-9)
						require.InEpsilon(t, units.Unit(d).From(*l.Bound), cellNumber(t, r[5]), 1e-9)
						numbers++
					}
				}
			}
			for _, q := range o.Questions {
				require.True(t, slices.ContainsFunc(questions, func(r []string) bool { return slices.Contains(r, q) }), q)
				require.Contains(t, plain, q)
			}
			missing := 0
			for _, r := range gaps {
				if r[0] == o.Name {
					missing++
				}
			}
			require.Equal(t, len(o.Gaps), missing)
		}
		require.GreaterOrEqual(t, numbers, 6)
		for _, a := range e.Advice {
			require.Contains(t, plain, a)
		}
		formula, err := f.GetCellFormula("Compliance", "B2")
		require.NoError(t, err)
		require.Empty(t, formula)
		if units == quantity.US {
			workbookHasNoSI(t, f)
			said, _, _ := strings.Cut(plain, "Warnings")
			require.NotRegexp(t, regexp.MustCompile(`\d (m|mm|m/s|bar|kg|m3/h)[ .,;)]`), said)
		}
	}
}

// measureOf is the label of a measure of the test.
func measureOf(key string) string {
	return map[string]string{"peak_pressure_pa": "highest pressure", "steady_pressure_pa": "highest steady pressure", "max_reverse_velocity_m_s": "reverse velocity",
		"later_reverse_velocity_m_s": "later reverse velocity", "pressure_class_pa": "pressure class"}[key]
}

// TestOffersBadInput: exit 2, the place in the file of offers, nothing written.
func TestOffersBadInput(t *testing.T) {
	for _, x := range []struct{ old, fresh, want string }{
		{"type: swing", "type: swong", "replies.yaml:6:"},
		{"1.6 kg", "1.6", "has no unit"},
		{"maker: Oxbow, ", "", "maker is missing"},
		{"offers:", "candidates:", "offers is missing"},
		{"currency: EUR", "stations: {}", "is a case"},
	} {
		code, dir, stdout, stderr := evaluated(t, strings.Replace(repliesOfTest, x.old, x.fresh, 1))
		require.Equal(t, exitInput, code, x.fresh)
		require.Contains(t, stderr, x.want)
		require.Empty(t, stdout)
		require.NoDirExists(t, dir)
	}
	var out, errs bytes.Buffer
	require.Equal(t, exitInput, run(t.Context(), []string{"offers"}, strings.NewReader(""), &out, &errs))
	require.Contains(t, errs.String(), "no file of offers is named")
	require.Equal(t, exitInput, run(t.Context(), []string{"offers", "nowhere.yaml", "--no-files"}, strings.NewReader(""), &out, &errs))
}
