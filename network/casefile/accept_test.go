package casefile_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seatwise/valve/choice"
)

// same compares cases that differ in nothing but the bytes of their files.
func same(t require.TestingT, want, got *choice.Case) {
	a, b := *want, *got
	a.InputSHA256, b.InputSHA256 = "", ""
	require.Equal(t, a, b)
}

// What word processors and other systems put into a file changes nothing.
func TestAcceptedSpellings(t *testing.T) {
	text := lift(t)
	for name, other := range map[string]string{
		"byte order mark":     "\uFEFF" + text,
		"CRLF":                strings.ReplaceAll(text, "\n", "\r\n"),
		"both":                "\uFEFF" + strings.ReplaceAll(text, "\n", "\r\n"),
		"no line end at last": strings.TrimRight(text, "\n"),
		"U+2212 minus":        strings.Replace(text, "-0.5 bar", "\u22120.5 bar", 1),
		"no-break space":      strings.Replace(text, "700 mm", "700\u00A0mm", 1),
		"thin space":          strings.Replace(text, "700 mm", "700\u2009mm", 1),
		"narrow no-break":     strings.Replace(text, "700 mm", "700\u202Fmm", 1),
		"no space":            strings.Replace(text, "700 mm", "700mm", 1),
		"no-break indent":     strings.Replace(text, "    bore: 700", "\u00A0\u00A0\u00A0\u00A0bore: 700", 1),
		"document start":      "---\n" + text,
		"document end":        text + "...\n",
		"quoted":              strings.Replace(text, "bore: 700 mm", `bore: "700 mm"`, 1),
		"single quotes":       strings.Replace(text, "title: Ostermere lift station", "title: 'Ostermere lift station'", 1),
		"tab in a comment":    strings.Replace(text, "# valve centre line", "#\tvalve\tcentre line", 1),
		"comment alone":       "# a case\n\n" + text,
		"superscript":         strings.Replace(text, "kg·m2", "kg·m²", 1),
		"plain unit":          strings.Replace(text, "kg·m2", "kg m2", 1),
		"star in a unit":      strings.Replace(text, "kg·m2", "kg*m2", 1),
		"point in a unit":     strings.Replace(text, "kg·m2", "kg.m2", 1),
		"degC":                strings.Replace(text, "15 °C", "15 degC", 1),
		"percent":             strings.Replace(text, "81 %", "81 percent", 1),
		"percent, no space":   strings.Replace(text, "81 %", "81%", 1),
		"length":              strings.Replace(text, "size: DN250", "size: 250 mm", 1),
		"space in DN":         strings.Replace(text, "size: DN250", "size: DN 250", 1),
		"block for braces":    strings.Replace(text, "  sump:  {level: 101.5 m}", "  sump:\n    level: 101.5 m", 1),
		"candidate by name":   strings.Replace(text, "    to: header\n", "    to: header\n    check valve: candidate\n", 1),
		"absolute pressure":   strings.Replace(text, "minimum pressure: -0.5 bar", "minimum pressure: 0.513 bar abs", 1),
	} {
		t.Run(name, func(t *testing.T) {
			require.NotEqual(t, text, other)
			want, got := read(t, text), read(t, other)
			if name == "absolute pressure" {
				// 0.513 bar abs - 1.013 bar in binary
				require.InDelta(t, *want.Limits.MinimumPressure, *got.Limits.MinimumPressure, 1e-9)
				got.Limits.MinimumPressure = want.Limits.MinimumPressure
			}
			same(t, want, got)
		})
	}
}

// A title that YAML would take for something else stays a text.
func TestTexts(t *testing.T) {
	for given, want := range map[string]string{
		`"Ostermere: lift station"`: "Ostermere: lift station",
		"12":                        "12",
		"1e3":                       "1e3",
		"yes":                       "yes",
		"012":                       "012",
		"1_000":                     "1_000",
		"12:30":                     "12:30",
		"2026-11-25":                "2026-11-25",
		"'it''s'":                   "it's",
		"a # comment":               "a",
		"a#b":                       "a#b",
		"Pumps, three of them":      "Pumps, three of them",
		`"100 % \u00b0"`:            "100 % °",
		"one\n  line":               "one line",
	} {
		require.Equal(t, want, read(t, replaced(t, "title: Ostermere lift station", "title: "+given)).Title, given)
	}
}

// The order of keys means nothing; the order of things that the user names (pipes, candidates) is theirs and stays.
func TestOrderOfKeys(t *testing.T) {
	text := lift(t)
	want := read(t, text)
	rapid.Check(t, func(rt *rapid.T) {
		same(rt, want, read(t, shuffled(rt, text)))
	})
}

// shuffled is a case with the keys of the top level, of every section in braces and of the things in pipes and stations in another order.
func shuffled(t *rapid.T, text string) string {
	return blocks(t, text, "")
}

// blocks shuffles the keys at one indentation together with what is indented below them.
func blocks(t *rapid.T, text, path string) string {
	var parts []string
	for line := range strings.Lines(text) {
		line, _, _ = strings.Cut(line, " #")
		if strings.TrimSpace(line) == "" {
			continue
		}
		line = strings.TrimRight(line, " \n") + "\n"
		if len(parts) == 0 || indentOf(line) == indentOf(parts[0]) {
			parts = append(parts, line)
		} else {
			parts[len(parts)-1] += line
		}
	}
	if len(parts) > 0 && strings.HasPrefix(strings.TrimSpace(parts[0]), "- ") {
		return text
	}
	for i, part := range parts {
		head, below, _ := strings.Cut(part, "\n")
		key, _, _ := strings.Cut(strings.TrimSpace(head), ":")
		if below != "" {
			parts[i] = head + "\n" + blocks(t, below, path+"."+key)
		} else {
			parts[i] = braces(t, head) + "\n"
		}
	}
	switch path {
	case ".reservoirs", ".stations", ".pipes", ".candidates":
		return strings.Join(parts, "")
	}
	return strings.Join(rapid.Permutation(parts).Draw(t, "order"+path), "")
}

func indentOf(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

// braces shuffles the keys of the innermost braces of a line.
func braces(t *rapid.T, line string) string {
	from := strings.LastIndex(line, "{")
	if from < 0 {
		return line
	}
	to := from + strings.Index(line[from:], "}")
	keys := strings.Split(line[from+1:to], ", ")
	return line[:from+1] + strings.Join(rapid.Permutation(keys).Draw(t, "keys"), ", ") + line[to:]
}

// The hinge pin of a dual plate stands in words or as an angle.
func TestHingePin(t *testing.T) {
	for text, angle := range map[string]float64{"vertical": 0, "horizontal": math.Pi / 2, "30 deg": math.Pi / 6, "90 deg": math.Pi / 2} {
		c := read(t, replaced(t, "{type: swing, size: DN250}", "{type: dual plate, size: DN250, hinge pin: "+text+"}"))
		require.InDelta(t, angle, c.Candidates[0].Set["hinge pin"], 1e-15, text)
	}
}
