package main

import (
	"context"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestImpossibleDevices: a device whose data are sound by themselves, but not with the steady flow, is told at its place in the case, in words with a hint.
func TestImpossibleDevices(t *testing.T) {
	raw, err := os.ReadFile("testdata/case/tiny.yaml")
	require.NoError(t, err)
	for _, c := range []struct{ name, section, mark, says, hint string }{
		{"relief valve below the working pressure", "relief valves:\n  relief: {at: header, elevation: 0 m, set pressure: 3 bar, area: 10 cm2}", "3 bar",
			"relief: in steady flow the pressure at the valve is 4.197 bar, above the 3 bar at which it opens", "set it above the working pressure"},
		{"rupture disc below the working pressure", "rupture discs:\n  disc: {at: header, elevation: 0 m, burst pressure: 3 bar, area: 10 cm2}", "3 bar",
			"disc: in steady flow the pressure at the disc is 4.197 bar, not below the 3 bar at which it bursts", "let it burst above the working pressure"},
		{"air valve above the gradient line", "air valves:\n  vent: {at: header, elevation: 44 m, inflow area: 10 cm2, outflow area: 1 cm2}", "44 m",
			"is below the valve at 44.00 m: it lets air in all the time", "put it below the gradient line of the steady flow"},
		{"vessel above its gas", "air vessels:\n  vessel: {at: header, level: 54 m, volume: 2 m3, gas volume: 1 m3, connection bore: 100 mm}", "54 m",
			"is too far below the level of 54.00 m: the gas would have -", "lower the vessel, or check its level against the elevations of the line"},
		{"surge tank that spills", "surge tanks:\n  tank: {at: header, plan area: 2 m2, bottom level: 0 m, overflow level: 40 m, connection bore: 100 mm}", "40 m",
			"is above the overflow level of 40.00 m: the tank spills all the time", "let it reach above the head in steady flow"},
		{"surge tank that is empty", "surge tanks:\n  tank: {at: header, plan area: 2 m2, bottom level: 45 m, overflow level: 60 m, connection bore: 100 mm}", "45 m",
			"is below the bottom level of 45.00 m: the tank is empty", "let it reach below the head in steady flow"},
		{"one-way tank above the line", "one-way tanks:\n  feed: {at: header, plan area: 2 m2, bottom level: 40 m, level: 60 m, connection bore: 100 mm}", "60 m",
			"is below the level of 60.00 m: the tank feeds the line all the time", "give a level below the head in steady flow"},
		{"demand behind a shut valve", "demands:\n  far: {flow: 10 m3/h}\nthrottling valves:\n  gate: {from: header, to: far, bore: 100 mm, elevation: 0 m, loss: 1, opening: 0 %}", "gate",
			"nothing feeds the demand of 10 m3/h at node far: valve gate is shut", "let something pass there in steady flow"},
		{"demand behind a check valve", "demands:\n  far: {flow: 10 m3/h}\ncheck valves:\n  back: {from: far, to: header, elevation: 0 m}", "back",
			"nothing feeds the demand of 10 m3/h at node far: check valve back lets nothing flow back", "a check valve passes flow from its from to its to"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := string(raw) + c.section + "\n"
			var out, errs strings.Builder
			require.Equal(t, exitFailed, run(context.Background(), []string{"steady", "-", "--candidate", "spring-disc"}, strings.NewReader(text), &out, &errs))
			t.Log(errs.String())
			require.Empty(t, out.String())
			lines := strings.Split(errs.String(), "\n")
			require.Len(t, lines, 5)
			require.Regexp(t, `^seatwise: standard input:\d+:\d+: spring-disc in scenario base: no steady state: `, lines[0])
			require.Contains(t, lines[0], c.says)
			require.Contains(t, c.section, strings.TrimSuffix(lines[1][strings.Index(lines[1], "|")+2:], "..."), "the line of the device is shown")
			from := strings.Index(lines[2], "^")
			require.Equal(t, c.mark, lines[1][from:from+strings.Count(lines[2], "^")])
			require.Contains(t, lines[3], "    hint: ")
			require.Contains(t, lines[3], c.hint)
		})
	}
}
