package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"seatwise/network/quantity"
	"seatwise/plots/report"
	"seatwise/valve/choice"
	"seatwise/valve/requirement"
)

// required runs the command on the short case and returns what is on screen, the numbers of requirement.json, and the folder.
func required(t *testing.T, args ...string) (screen string, numbers map[string]any, dir string) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "out")
	var stdout, stderr bytes.Buffer
	code := run(t.Context(), append([]string{"requirement", filepath.Join("testdata", "case", "tiny.yaml"), "--out", dir}, args...), strings.NewReader(""), &stdout, &stderr)
	require.Equal(t, exitDone, code, stderr.String())
	raw, err := os.ReadFile(filepath.Join(dir, requirementFile))
	require.NoError(t, err)
	var j struct {
		Required map[string]any
		Files    []string
	}
	require.NoError(t, json.Unmarshal(raw, &j))
	require.Equal(t, []string{requirementPDF, requirementBook}, j.Files)
	return stdout.String(), j.Required, dir
}

// TestRequirementAgreesWithItsJSON holds every number of the screen, of the document and of the workbook against requirement.json. They may differ by their rounding only.
func TestRequirementAgreesWithItsJSON(t *testing.T) {
	in, err := (&options{}).read([]string{filepath.Join("testdata", "case", "tiny.yaml")}, nil)
	require.NoError(t, err)
	r, err := requirement.Find(t.Context(), in.Case, choice.Settings{})
	require.NoError(t, err)
	for name, system := range map[string]quantity.System{"si": quantity.SI, "us": quantity.US} {
		screen, numbers, dir := required(t, "--units", name)
		f, err := excelize.OpenFile(filepath.Join(dir, requirementBook))
		require.NoError(t, err)
		book, err := f.GetRows("Requirement", excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		var document [][]string
		for _, s := range report.Requirement(r, report.Input{Units: system}).Sections {
			for _, b := range s.Blocks {
				table, ok := b.(*report.Table)
				if !ok {
					continue
				}
				for _, row := range table.Rows {
					document = append(document, []string{row.Cells[0].Text, row.Cells[1].Text})
				}
			}
		}
		compared := 0
		for _, g := range r.Sheet(system) {
			for _, i := range g.Items {
				want, ok := numbers[i.Key].(float64)
				if !ok {
					require.Contains(t, numbers, i.Key)
					continue
				}
				u := i.Unit(system)
				shown := quantity.FormatIn(want, u)
				require.Regexp(t, i.Label+` +`+shown+`\n`, screen)
				require.Contains(t, document, []string{i.Label, shown})
				found := false
				for _, row := range book {
					if row = append(row, "", "", ""); row[0] == i.Label {
						got, err := strconv.ParseFloat(row[1], 64)
						require.NoError(t, err, i.Label)
						require.InDelta(t, u.From(want), got, 1e-12*math.Abs(got))
						require.Equal(t, u.Symbol, row[2])
						found = true
					}
				}
				require.True(t, found, i.Key)
				compared++
			}
		}
		require.Greater(t, compared, 18)
		require.Equal(t, 0.15, numbers["reverse_velocity_m_s"])
		raw, err := os.ReadFile(filepath.Join(dir, requirementPDF))
		require.NoError(t, err)
		require.True(t, bytes.HasPrefix(raw, []byte("%PDF-")))
	}
}

// TestRequirementRefuses looks at faults of the input: they exit 2 and leave no folder behind.
func TestRequirementRefuses(t *testing.T) {
	for _, args := range [][]string{
		{"--set", "limits.design pressure=8"},
		{"--set", "candidates={}"},
		{"--units", "cubits"},
		{"--no-files", "--force"},
		{"another.yaml"},
	} {
		dir := filepath.Join(t.TempDir(), "out")
		var stdout, stderr bytes.Buffer
		code := run(t.Context(), append([]string{"requirement", filepath.Join("testdata", "case", "tiny.yaml"), "--out", dir}, args...), strings.NewReader(""), &stdout, &stderr)
		require.Equal(t, exitInput, code, "%v: %s", args, stderr.String())
		require.NoDirExists(t, dir)
		require.Empty(t, stdout.String())
	}
}
