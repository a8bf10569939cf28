package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"seatwise/network/quantity"
	"seatwise/plots/export"
	"seatwise/plots/sheets"
	"seatwise/valve/choice"
)

// booked compares the candidates of a case and writes the workbook twice, and the tables and the summary beside it, but no figures, which take longer.
func booked(t *testing.T, units quantity.System, set ...string) (dir string, f *excelize.File) {
	t.Helper()
	p := &program{options: options{set: set}}
	in, err := p.read([]string{filepath.Join("testdata", "case", "tiny.yaml")}, nil)
	require.NoError(t, err)
	c, err := choice.Run(t.Context(), in.Case, choice.Settings{Units: units})
	require.NoError(t, err)
	tables, err := export.Files(c, 1e-3)
	require.NoError(t, err)
	var files []artefact
	for _, table := range tables {
		files = append(files, artefact{table.Name, table.Write})
	}
	const date = "2025-11-25"
	files = append(files, artefact{workbookFile, sheets.Comparison(c, reportInput(c, in, units, date), day(date)).Write},
		artefact{"again.xlsx", sheets.Comparison(c, reportInput(c, in, units, date), day(date)).Write})
	r, err := newResults(c, in.block, 1e-3, files)
	require.NoError(t, err)
	dir = t.TempDir()
	for _, a := range r.files {
		require.NoError(t, a.create(filepath.Join(dir, a.name)))
	}
	f, err = excelize.OpenFile(filepath.Join(dir, workbookFile))
	require.NoError(t, err)
	t.Cleanup(func() { f.Close() })
	return dir, f
}

// cellsOf are the cells of a sheet as they are stored, numbers unrounded.
func cellsOf(t *testing.T, f *excelize.File, sheet string) [][]string {
	t.Helper()
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	require.NoError(t, err)
	return rows
}

// under is the value in the row of a table that begins with these texts, under a head; false when there is none.
func under(rows [][]string, head string, begins ...string) (float64, bool) {
	column := -1
	for _, r := range rows {
		if i := slices.Index(r, head); i >= 0 {
			column = i
		}
		if column >= 0 && column < len(r) && len(r) >= len(begins) && slices.Equal(r[:len(begins)], begins) {
			v, err := strconv.ParseFloat(r[column], 64)
			return v, err == nil
		}
	}
	return 0, false
}

// economicsOfTest makes the sheet of costs appear.
const economicsOfTest = "economics={currency: EUR, years: 20, discount rate: 6 %, energy price: 0.12, efficiency: 75 %, price of a swing valve: 4000}"

// TestWorkbook looks at the workbooks of a case that has all sheets, in either units.
func TestWorkbook(t *testing.T) {
	set := []string{"title='=1+1'", economicsOfTest, "duty={flow table: [[50 m3/h, 6000 h]], minimum flow: 90 m3/h}", "pipes.main.bends=[50 m]", "limits={design pressure: 4 bar, minimum pressure: 0 bar, reverse velocity: 0.2 m/s}"}
	dir, f := booked(t, quantity.SI, set...)
	usual, us := booked(t, quantity.US, set...)
	t.Run("same bytes", func(t *testing.T) { sameWorkbook(t, dir, f) })
	t.Run("numbers", func(t *testing.T) {
		workbookAgrees(t, quantity.SI, dir, f)
		workbookAgrees(t, quantity.US, usual, us)
	})
	t.Run("extremes", func(t *testing.T) { workbookKeepsExtremes(t, dir, f) })
	t.Run("US units", func(t *testing.T) { workbookHasNoSI(t, us) })
}

// workbookAgrees compares every number of summary.json with the cell that has it: no rounding is allowed, only another unit.
func workbookAgrees(t *testing.T, units quantity.System, dir string, f *excelize.File) {
	raw, err := os.ReadFile(filepath.Join(dir, summaryFile))
	require.NoError(t, err)
	var s struct {
		Files     []string
		Scenarios []struct {
			Name       string
			Candidates []map[string]any
		}
		Costs   struct{ Candidates []map[string]any }
		Staying struct {
			Candidates []struct {
				Name  string
				Flows []map[string]any
			}
		} `json:"staying_open"`
		Numerics struct {
			TimeStep float64 `json:"time_step_s"`
		}
		Reasons, Warnings, Assumptions, Cautions []string
		InputSHA256                              string `json:"input_sha256"`
	}
	require.NoError(t, json.Unmarshal(raw, &s))
	require.Contains(t, s.Files, workbookFile)
	measures := choice.Measures(choice.LiquidPump)
	side, verdicts := cellsOf(t, f, "Comparison"), cellsOf(t, f, "Verdicts")
	for _, c := range s.Scenarios[0].Candidates {
		name, numbers := c["name"].(string), 0
		for _, m := range measures {
			want, ok := c[m.Key].(float64)
			if !ok {
				continue
			}
			unit := choice.NewScale(m.Dimension, units).Unit
			if m.Key == "reverse_volume_m3" || m.Key == "cavity_max_m3" {
				unit = volumeUnit(side, m, unit)
			}
			got, ok := under(side, name, slices.DeleteFunc([]string{m.Label, unit.Symbol}, func(x string) bool { return x == "" })...)
			require.True(t, ok, "%s of %s is not in the workbook", m.Key, name)
			require.InDelta(t, unit.From(inSI(m, want)), got, 1e-12*math.Abs(unit.From(inSI(m, want)))+1e-15, "%s of %s", m.Key, name)
			numbers++
		}
		require.Greater(t, numbers, 15)
		for _, x := range c["verdicts"].([]any) {
			v := x.(map[string]any)
			m := measures[slices.IndexFunc(measures, func(m choice.Measure) bool { return m.Key == v["measure"] })]
			unit := units.Unit(m.Dimension)
			i := slices.IndexFunc(verdicts, func(r []string) bool {
				return r[0] == name && r[1] == s.Scenarios[0].Name && r[2] == v["limit"] && slices.Contains(r, m.Label)
			})
			require.GreaterOrEqual(t, i, 0, v)
			for head, want := range map[string]float64{"value": unit.From(v["value"].(float64)), "bound": unit.From(v["bound"].(float64)), "margin": unit.From(v["margin"].(float64)) - unit.From(0)} {
				got := cellNumber(t, verdicts[i][slices.Index(verdicts[0], head)])
				require.InDelta(t, want, got, 1e-12*math.Abs(want)+1e-15, "%s of %v", head, v)
			}
		}
	}
	costs := cellsOf(t, f, "Cost")
	require.NotEmpty(t, s.Costs.Candidates)
	for _, c := range s.Costs.Candidates {
		for head, key := range map[string]string{"present value, EUR": "present_value", "purchase, EUR": "purchase", "energy a year, EUR": "energy_per_year", "upkeep a year, EUR": "upkeep_per_year", "lowest present value, EUR": "present_value_low", "highest present value, EUR": "present_value_high"} {
			got, ok := under(costs, head, c["name"].(string))
			require.True(t, ok, head)
			require.InDelta(t, c[key], got, 1e-9*math.Abs(got))
		}
	}
	open := cellsOf(t, f, "Staying open")
	require.NotEmpty(t, s.Staying.Candidates)
	for _, c := range s.Staying.Candidates {
		require.Len(t, c.Flows, 2)
		for _, flow := range c.Flows {
			for key, x := range map[string]struct {
				label string
				d     quantity.Dimension
			}{"flow_m3_s": {"flow", quantity.Flow}, "velocity_m_s": {"velocity", quantity.Velocity}, "opening_fraction": {"opening", quantity.Fraction}, "head_loss_m": {"head loss", quantity.Length}} {
				u := units.Unit(x.d)
				got, ok := under(open, x.label+", "+u.Symbol, c.Name, flow["at"].(string))
				require.True(t, ok, "%s at %v", x.label, flow["at"])
				require.InEpsilon(t, u.From(flow[key].(float64)), got, 1e-9)
			}
		}
	}
	forces, pushes := cellsOf(t, f, "Anchor forces"), 0
	for _, c := range s.Scenarios[0].Candidates {
		for _, x := range c["straight_runs"].([]any) {
			for _, way := range []string{"forward", "reverse"} {
				push := x.(map[string]any)[way].(map[string]any)
				want := units.Unit(quantity.Force).From(push["max_force_n"].(float64))
				require.True(t, slices.ContainsFunc(forces, func(r []string) bool {
					if r[0] != c["name"] || r[5] != push["towards"] {
						return false
					}
					return math.Abs(cellNumber(t, r[6])-want) <= 1e-9*math.Abs(want)
				}), "%v", push)
				pushes++
			}
		}
	}
	require.Equal(t, 8, pushes)
	step, ok := under(cellsOf(t, f, "Numerics"), "time step, ms", s.Scenarios[0].Candidates[0]["name"].(string))
	require.True(t, ok)
	require.InDelta(t, 1000*s.Numerics.TimeStep, step, 1e-9)
	for sheet, sentences := range map[string][]string{"Summary": slices.Clone(s.Reasons), "Warnings": slices.Concat(s.Warnings, s.Cautions), "Assumptions": s.Assumptions, "Input": {s.InputSHA256}} {
		text := fmt.Sprint(cellsOf(t, f, sheet))
		for _, x := range sentences {
			require.Contains(t, text, x, sheet)
		}
	}
}

// volumeUnit is the unit of the row of a volume, which a table in litres has where it is small.
func volumeUnit(rows [][]string, m choice.Measure, usual quantity.Unit) quantity.Unit {
	for _, r := range rows {
		if len(r) > 1 && r[0] == m.Label {
			if u, err := quantity.ParseUnit(r[1], m.Dimension); err == nil {
				return u
			}
		}
	}
	return usual
}

// inSI is a value of summary.json in SI.
func inSI(m choice.Measure, v float64) float64 {
	if m.Dimension == quantity.Rotation {
		return v * math.Pi / 30
	}
	return v
}

func cellNumber(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// workbookKeepsExtremes holds the greatest and least numbers of the reduced histories and envelopes against those of the tables that keep all.
func workbookKeepsExtremes(t *testing.T, dir string, f *excelize.File) {
	compared := 0
	for _, x := range []struct{ sheet, file, head, column string }{
		{"Histories", "history-%s.csv", "pressure downstream of the valve, bar", "pressure downstream of the valve Pa"},
		{"Histories", "history-%s.csv", "velocity at the valve, m/s", "velocity at the valve m/s"},
		{"Envelopes", "envelope-%s.csv", "highest head, m", "highest head m"},
		{"Envelopes", "envelope-%s.csv", "lowest head, m", "lowest head m"},
	} {
		rows := cellsOf(t, f, x.sheet)
		for at, name := range rows[0] {
			if name == "" || at > 0 && rows[0][at-1] != "" || !isFile(filepath.Join(dir, fmt.Sprintf(x.file, name))) {
				continue
			}
			column := at + slices.Index(rows[1][at:], x.head)
			least, most := math.Inf(1), math.Inf(-1)
			for _, r := range rows[2:] {
				if column < len(r) && r[column] != "" {
					least, most = math.Min(least, cellNumber(t, r[column])), math.Max(most, cellNumber(t, r[column]))
				}
			}
			low, high := extremesOf(t, filepath.Join(dir, fmt.Sprintf(x.file, name)), x.column)
			scale := 1.0
			if strings.HasSuffix(x.column, "Pa") {
				scale = 1e-5
			}
			require.InEpsilon(t, 1+scale*low, 1+least, 1e-6, x)
			require.InEpsilon(t, 1+scale*high, 1+most, 1e-6, x)
			compared++
		}
	}
	require.Equal(t, 8, compared)
}

func isFile(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// extremesOf are the least and the greatest number of a column of a table.
func extremesOf(t *testing.T, path, head string) (least, most float64) {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(raw)), "\n")
	column := slices.Index(strings.Split(lines[0], ","), head)
	require.GreaterOrEqual(t, column, 0, lines[0])
	least, most = math.Inf(1), math.Inf(-1)
	for _, l := range lines[1:] {
		v := cellNumber(t, strings.Split(l, ",")[column])
		least, most = math.Min(least, v), math.Max(most, v)
	}
	return least, most
}

// workbookHasNoSI scans every sheet for SI units. The case file itself and the assumptions, which are in its words, keep theirs.
func workbookHasNoSI(t *testing.T, f *excelize.File) {
	var units []string
	for _, u := range []string{"m", "mm", "m/s", "m/s2", "bar", "mbar", "Pa", "kPa", "kg", "kg·m2", "kW", "N", "kN", "kN·s", "N·m", "N/m", "kg/m3", "l", "m3", "m3/h", "J", "°C"} {
		units = append(units, regexp.QuoteMeta(u))
	}
	si := regexp.MustCompile(`(^|[\d,] |\()(` + strings.Join(units, "|") + `)($|[ .,;)])`)
	for _, sheet := range f.GetSheetList() {
		if sheet == "Input" || sheet == "Assumptions" {
			continue
		}
		for _, row := range cellsOf(t, f, sheet) {
			for _, cell := range row {
				if _, err := strconv.ParseFloat(cell, 64); err != nil {
					require.Empty(t, si.FindString(cell), "%s: %q", sheet, cell)
				}
			}
		}
	}
}

// sameWorkbook compares the bytes of two books of one comparison, and looks for formulas and for a date that is the clock's.
func sameWorkbook(t *testing.T, dir string, f *excelize.File) {
	a, err := os.ReadFile(filepath.Join(dir, workbookFile))
	require.NoError(t, err)
	b, err := os.ReadFile(filepath.Join(dir, "again.xlsx"))
	require.NoError(t, err)
	require.True(t, bytes.Equal(a, b))
	p, err := f.GetDocProps()
	require.NoError(t, err)
	require.Equal(t, "2025-11-25T00:00:00Z", p.Created)
	for _, sheet := range f.GetSheetList() {
		for i, row := range cellsOf(t, f, sheet) {
			for k := range row {
				at, err := excelize.CoordinatesToCellName(k+1, i+1)
				require.NoError(t, err)
				formula, err := f.GetCellFormula(sheet, at)
				require.NoError(t, err)
				require.Empty(t, formula)
			}
			if i > 60 {
				break
			}
		}
	}
}
