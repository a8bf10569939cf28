package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// reported runs the command report on a case and returns the page and the summary beside it.
func reported(t *testing.T, args ...string) (page string, summary []byte) {
	t.Helper()
	dir := t.TempDir()
	var stdout, stderr bytes.Buffer
	code := run(t.Context(), append([]string{"report", filepath.Join("testdata", "case", "tiny.yaml"), "--quiet", "--out", dir}, args...), strings.NewReader(""), &stdout, &stderr)
	require.Equal(t, exitDone, code, stderr.String())
	raw, err := os.ReadFile(filepath.Join(dir, reportFile))
	require.NoError(t, err)
	summary, err = os.ReadFile(filepath.Join(dir, summaryFile))
	require.NoError(t, err)
	require.Less(t, len(raw), 3<<20)
	return string(raw), summary
}

var (
	tableRow = regexp.MustCompile(`(?s)<tr[^>]*>(.*?)</tr>`)
	tableTD  = regexp.MustCompile(`(?s)<t[dh][^>]*>(.*?)</t[dh]>`)
)

// rowsOf are the cells of every row of every table.
func rowsOf(page string) [][]string {
	var out [][]string
	for _, r := range tableRow.FindAllStringSubmatch(page, -1) {
		var cells []string
		for _, c := range tableTD.FindAllStringSubmatch(r[1], -1) {
			cells = append(cells, html.UnescapeString(c[1]))
		}
		out = append(out, cells)
	}
	return out
}

// TestReportAgreesWithSummary compares every number in the table of results with summary.json: they may differ by their rounding only.
func TestReportAgreesWithSummary(t *testing.T) {
	for _, units := range []string{"si", "us"} {
		page, raw := reported(t, "--units", units)
		var s struct {
			Files     []string
			Scenarios []struct{ Candidates []map[string]any }
		}
		require.NoError(t, json.Unmarshal(raw, &s))
		require.Contains(t, s.Files, reportFile)
		candidates := s.Scenarios[0].Candidates
		rows := rowsOf(page)
		compared := 0
		for _, m := range choice.Measures(choice.LiquidPump) {
			for k, c := range candidates {
				want, ok := c[m.Key].(float64)
				if !ok {
					continue
				}
				for _, r := range rows {
					label, symbol, _ := strings.Cut(r[0], m.Label)
					symbol = strings.TrimPrefix(symbol, ", ")
					if label != "" || len(r) != len(candidates)+2 || strings.Contains(symbol, "numerical error") {
						continue
					}
					got, err := strconv.ParseFloat(r[k+1], 64)
					if err != nil {
						continue
					}
					u, err := quantity.ParseUnit(symbol, m.Dimension)
					require.NoError(t, err, r[0])
					si := want
					if m.Dimension == quantity.Rotation {
						si = want * math.Pi / 30
					}
					_, decimals, _ := strings.Cut(r[k+1], ".")
					require.InDelta(t, u.From(si), got, 0.5001*math.Pow10(-len(decimals)), "%s of %v", m.Key, c["name"])
					compared++
				}
			}
		}
		require.Greater(t, compared, 15*len(candidates))
	}
}

// costly are a duty and economics for the case of the report's tests.
var costly = []string{"--set", "duty={flow table: [[200 m3/h, 6000 h], [120 m3/h, 1500 h]], trips: 6}",
	"--set", "economics={currency: EUR, energy price: 0.12, price of a swing valve: 4000, slam damage: [[0.1 m/s, 50], [0.3 m/s, 4000]]}"}

// TestReportedCosts compares every number in the table of costs with summary.json and cost.csv: they may differ by their rounding only, and the parts add
// up to the present value.
func TestReportedCosts(t *testing.T) {
	page, raw := reported(t, costly...)
	var s struct {
		Costs struct {
			Annuity    float64 `json:"annuity_factor"`
			Candidates []map[string]any
			Remarks    []string
		}
		Files []string
	}
	require.NoError(t, json.Unmarshal(raw, &s))
	require.Subset(t, s.Files, []string{"cost.csv", "cost-make-up.png", "cost-make-up.svg"})
	require.Contains(t, page, "Life-cycle cost</h2>")
	for _, text := range s.Costs.Remarks {
		require.Contains(t, html.UnescapeString(page), text)
	}
	rows := rowsOf(page)
	number := func(c map[string]any, key string) float64 { return c[key].(float64) }
	a := s.Costs.Annuity
	require.InDelta(t, (1-math.Pow(1.06, -20))/0.06, a, 1e-9)
	compared := 0
	for k, c := range s.Costs.Candidates {
		sum := number(c, "purchase") + a*(number(c, "energy_per_year")+number(c, "upkeep_per_year")+number(c, "slam_per_year"))
		require.InDelta(t, number(c, "present_value"), sum, 1e-6)
		for label, want := range map[string]float64{"purchase, EUR": number(c, "purchase"), "energy, EUR": a * number(c, "energy_per_year"), "upkeep, EUR": a * number(c, "upkeep_per_year"),
			"slam, EUR": a * number(c, "slam_per_year"), "sum, EUR": sum} {
			for _, r := range rows {
				if r[0] != label {
					continue
				}
				got, err := strconv.ParseFloat(strings.ReplaceAll(r[k+1], "\u00a0", ""), 64)
				require.NoError(t, err)
				require.InDelta(t, want, got, 0.5001, "%s of %v", label, c["name"])
				compared++
			}
		}
	}
	require.Equal(t, 5*len(s.Costs.Candidates), compared)
	require.Greater(t, number(s.Costs.Candidates[0], "slam_per_year"), 0.0)
}

// TestReportInUSUnits scans the text of the report for SI units: outside the case file, which stands as it was read, there are none.
func TestReportInUSUnits(t *testing.T) {
	page, _ := reported(t, "--units", "us")
	page, _, _ = strings.Cut(page, "Case file</h2>")
	_, page, _ = strings.Cut(page, "</style>")
	page = regexp.MustCompile(`(?s)<section[^>]*>\s*<h2>[^/]*\d+  Assumptions.*?</section>`).ReplaceAllString(page, "") // in the words of the case
	text := strings.ReplaceAll(html.UnescapeString(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(page, " ")), "\u00a0", " ")
	for _, unit := range []string{"m", "mm", "m/s", "m/s2", "bar", "kPa", "kg", "kg·m2", "kW", "N", "kN", "N·m", "kg/m3", "l", "m3", "°C"} {
		found := regexp.MustCompile(fmt.Sprintf(`.{0,50}\d %s[ .,;)<\n].{0,20}`, regexp.QuoteMeta(unit))).FindString(text)
		require.Empty(t, found, "%q is left", unit)
	}
}

// TestReportEscapes guards against texts of the case that would be read as markup or style.
func TestReportEscapes(t *testing.T) {
	const evil = `</style><script>alert(1)</script>" <b>`
	page, _ := reported(t, "--set", `title='`+evil+`'`, "--set", `report={project: "<i>P & Q</i>", date: 2026-11-25}`)
	require.NotContains(t, page, "<script")
	require.NotContains(t, page, "<b>")
	require.NotContains(t, page, "<i>")
	require.Contains(t, page, "&lt;i&gt;P &amp; Q&lt;/i&gt;")
	require.Equal(t, 1, strings.Count(page, "</style>"))
}

func TestReportIsComplete(t *testing.T) {
	t.Setenv("SOURCE_DATE_EPOCH", "1764028800")
	page, _ := reported(t)
	again, _ := reported(t)
	require.Equal(t, page, again)
	require.Contains(t, page, "2025-11-25")
	for _, heading := range []string{"Summary", "Results", "Figures", "Screening before the runs", "Checks by hand", "Installation", "Data of the candidates", "Assumptions", "Method", "Numerical errors and audits", "Warnings and cautions", "Case file"} {
		require.Contains(t, page, heading+"</h2>")
	}
	for _, caution := range choice.Cautions() {
		require.Contains(t, html.UnescapeString(page), caution)
	}
	require.NotContains(t, page, "NaN")
}

// TestReportPDF looks at what can be seen from outside: the numbers are those of the same document as the page's.
func TestReportPDF(t *testing.T) {
	made := func(args ...string) (raw, book []byte) {
		dir := t.TempDir()
		var stdout, stderr bytes.Buffer
		args = append([]string{"report", filepath.Join("testdata", "case", "tiny.yaml"), "--quiet", "--out", dir}, args...)
		require.Equal(t, exitDone, run(t.Context(), args, strings.NewReader(""), &stdout, &stderr), stderr.String())
		raw, err := os.ReadFile(filepath.Join(dir, reportPDF))
		require.NoError(t, err)
		book, err = os.ReadFile(filepath.Join(dir, workbookFile))
		require.NoError(t, err)
		return raw, book
	}
	raw, book := made("--set", "title=Ω 漢 😀 "+strings.Repeat("long", 60))
	require.True(t, bytes.HasPrefix(raw, []byte("%PDF-")))
	require.Less(t, len(raw), 2<<20)
	require.Greater(t, bytes.Count(raw, []byte("/Type /Page\n")), 5)
	require.Equal(t, 6, bytes.Count(raw, []byte("/Subtype /Image")), "figures")
	again, other := made("--set", "title=Ω 漢 😀 "+strings.Repeat("long", 60))
	require.True(t, bytes.Equal(raw, again), "the bytes differ from run to run")
	require.True(t, bytes.Equal(book, other), "the bytes of the workbook differ from run to run")
}

func TestSourceDate(t *testing.T) {
	for epoch, want := range map[string]string{"": "", "0": "1970-01-01", "1764028800": "2025-11-25"} {
		got, err := sourceDate(epoch)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	for _, bad := range []string{"yesterday", "-1", "1e9", "999999999999999"} {
		_, err := sourceDate(bad)
		require.Error(t, err)
	}
}
