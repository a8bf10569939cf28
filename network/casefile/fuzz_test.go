package casefile_test

import (
	"errors"
	"io/fs"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network/casefile"
)

// FuzzRead: whatever the bytes, there is a case or there are errors, each with a message and a place inside its file.
func FuzzRead(f *testing.F) {
	names, err := fs.Glob(examples.Files, "*.yaml")
	require.NoError(f, err)
	for _, name := range names {
		raw, err := examples.Files.ReadFile(name)
		require.NoError(f, err)
		f.Add(raw)
	}
	text := lift(f)
	for _, broken := range []string{
		"", "\n", "a", "- - - a", "a: [", "a: {b: c", "a: 'x", "? a\n: b", "a: |\n b", "---\n---", "\uFEFFformat: 1", "a: &b *b", "<<: {}", ": a", "a: b: c", "{}", "[]", "{a}: b", "\xFF\xFE",
		text[:len(text)/2], strings.ReplaceAll(text, ": ", ":"), strings.ReplaceAll(text, " m", ""), strings.ReplaceAll(text, "}", ""), strings.ReplaceAll(text, "  ", " "),
		strings.ReplaceAll(text, "0", "-1"), strings.ReplaceAll(text, "header", "Header"), strings.ReplaceAll(text, "sump", "tower"),
		strings.Replace(text, "limits:", "scenarios: {a: {set: {pipes.rising-main.bore: 0 m}}}\nlimits:", 1),
		strings.Replace(text, "limits:", "scenarios: {a: {set: {\"pipes.rising-main.boré\": 0 m, fluid.temperature: 20 °C}}}\nlimits:", 1),
		strings.Replace(text, "level: 101.5 m", "level: [[0 s, 101.5 m], [10 s, 99 m]]", 1),
		strings.Replace(text, "level: 101.5 m", "level: {columns: [level m, time s], rows: [[1, 1], [2, 0]]}", 1),
		strings.Replace(text, "pipes:\n  rising-main:\n    from: header\n", lone, 1),
		strings.Replace(text, "pipes:\n", "throttling valves: {gate: {from: header, to: tower, bore: 0.5 m, elevation: 1 m, kv table: [[40 %, 9], [100 %, 90]], opening: 50 %}}\npipes:\n", 1),
		strings.Replace(text, "pipes:\n", "throttling valves: {gate: {from: header, to: tower, bore: 0.5 m, elevation: 1 m, loss: 0, opening: 50 %}}\npipes:\n", 1),
		strings.Replace(text, "      inertia: 2.2", "      ratchet: yes\n      inertia: 1e-12", 1),
		strings.Replace(text, "    bore: 700 mm\n    wall: 9.5 mm\n", "    size: NPS 28 SDT\n", 1),
		strings.Replace(text, "liquid: water", "liquid: glycol", 1),
		strings.Replace(text, "{type: swing, size: DN250}", "{type: measured, size: DN250, kv: 2000 m3/h, full-open velocity: 2 m/s, test points: [[2 m/s2, 0 m/s], [5 m/s2, 0.3 m/s]]}", 1),
		strings.Replace(text, "{type: swing, size: DN250}", "{type: nozzle, size: DN250, cracking pressure: 9 mbar, test points: {columns: [deceleration m/s2, reverse velocity m/s], rows: [[2, 0]]}}", 1),
		strings.Replace(text, "    bore: 700 mm\n", "    bore: 700 mm\n    bends: [0 m, 133 m, 600 m]\n", 1) + "  anchor force: 40 kN\n",
		strings.Replace(text, "branch: {", "branch: {bends: [1,5 m, {}, -1 m, 7 ft], ", 1) + "  anchor force: 40 kN\n",
		strings.Replace(text, "limits:", "duty: {minimum flow: 1 m3/h, normal flow: 2 m3/h, maximum flow: 3 m3/h, flow fluctuation: 5 %, fluctuation frequency: 2 Hz, starts: 9, flow table: [[1 m3/h, 2 h]]}\nlimits:", 1),
		strings.Replace(text, "limits:", "duty: {minimum flow: 9 m3/s, maximum flow: 1e-300 m3/s, flow fluctuation: 100 %, fluctuation frequency: 1e-9 Hz}\nlimits:", 1),
		strings.Replace(text, "    elevation: 102.0 m", "    upstream: {fitting: bend, distance: 1e9 m}\n    elevation: 102.0 m", 1),
		equipped(f), strings.ReplaceAll(equipped(f), "lift", "gate"), strings.ReplaceAll(equipped(f), " 4 m3", " 9 m3"), strings.ReplaceAll(equipped(f), "over:", "units:"),
		strings.Replace(equipped(f), "candidates:", "scenarios: {a: {set: {air vessels.after.at: tower, stations.lift.running: 9}}}\ncandidates:", 1),
	} {
		f.Add([]byte(broken))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		if len(raw) > 1<<16 {
			return
		}
		d, err := casefile.Read("case.yaml", raw, examples.Files.ReadFile)
		if err == nil {
			_ = d.Origins()
			c, wrong := d.Case()
			if err = wrong; err == nil {
				require.NotEmpty(t, c.Scenarios)
				require.NotEmpty(t, c.Candidates)
				require.NotEmpty(t, c.InputSHA256)
				for _, s := range c.Scenarios {
					require.False(t, math.IsNaN(s.Network.Fluid.Density))
					for _, f := range s.Network.Validate() {
						require.True(t, f.Warning, "%v", f)
					}
				}
			}
		}
		if err == nil {
			return
		}
		told(t, err, "case.yaml", raw)
	})
}

// told requires an error to be faults in words, those in a file of these bytes each with a place inside it.
func told(t *testing.T, err error, file string, raw []byte) {
	var all casefile.Errors
	require.True(t, errors.As(err, &all))
	require.NotEmpty(t, all)
	require.NotEmpty(t, all.Error())
	lines := strings.Split(strings.ReplaceAll(strings.TrimPrefix(string(raw), "\uFEFF"), "\r\n", "\n"), "\n")
	for _, e := range all {
		require.NotEmpty(t, e.Msg)
		if e.File != file || e.Line == 0 {
			continue
		}
		require.GreaterOrEqual(t, e.Line, 1)
		require.LessOrEqual(t, e.Line, len(lines), e.Error())
		require.GreaterOrEqual(t, e.Column, 1)
		require.LessOrEqual(t, e.Column, utf8.RuneCountInString(lines[e.Line-1])+1, e.Error())
	}
}

// FuzzTable: whatever stands in a file beside the case, there is a case or there are errors, each with a place inside its file.
func FuzzTable(f *testing.F) {
	text := replaced(f, curveLine, "      curve: pump.csv\n")
	for _, table := range []string{"", "flow m3/h, head m\n0, 66\n430, 52\n", "head ft, flow gpm\n66, 9\n52, 8\n", "flow m3/h, head m, efficiency %\n0, -1, 120\n", "\"flow\n m3/h\", head m\n1, 2", "flow;head", "flow m3/h;head m\n0;66,5\n430;52\n", "\uFEFFflow [m3/h];head (m);;\r\n0;\"66,5\";;\r\n;;;\r\n", "flow m3/h,head m,\n0,66,\n,,\n4,5,6,7\n", "#\n\n,"} {
		f.Add([]byte(table))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		if len(raw) > 1<<14 {
			return
		}
		d, err := casefile.Read("case.yaml", []byte(text), func(string) ([]byte, error) { return raw, nil })
		require.NoError(t, err)
		_, err = d.Case()
		if err == nil {
			return
		}
		told(t, err, "pump.csv", raw)
	})
}

// FuzzWith: whatever the path and the value, there is a document or there are errors.
func FuzzWith(f *testing.F) {
	f.Add("pipes.rising-main.bore", "600 mm")
	f.Add("events[1].units", "3")
	f.Add("pipes.rising-main.profile[2][1]", "[1 m]")
	f.Add("a[", "b")
	f.Add("limits.design presure", "9 bar")
	f.Add("pipes. rising-main", "{bore: 3,\n wall: 2 mm}")
	f.Add("\x1b\xff.b", "[")
	f.Add("..", "{a: b}")
	f.Add("candidates", "{}")
	base := document(f, lift(f))
	f.Fuzz(func(t *testing.T, path, value string) {
		d, err := base.With(path, value)
		if err == nil {
			_, err = d.Case()
		}
		var all casefile.Errors
		if err != nil {
			require.True(t, errors.As(err, &all))
			require.NotEmpty(t, all.Error())
		}
	})
}
