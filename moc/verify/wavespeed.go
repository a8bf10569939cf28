package verify

import (
	"context"
	"fmt"

	"seatwise/network/pipe"
)

// wall is a pipe wall and the wave speeds expected for its three restraints: anchored upstream, anchored throughout, expansion joints.
type wall struct {
	id, material                   string
	density, bore, wall, young, mu float64
	thin, thick                    [3]float64
	measured                       float64 // m/s; 0: not measured
	laboratory                     string
}

func waveSpeeds() []Case {
	const source = "closed form, derived: E. B. Wylie, V. L. Streeter, L. Suo, Fluid Transients in Systems, 1993, ch. 1, restraint factors (recalculated)"
	var cases []Case
	for _, w := range []wall{
		{id: "W1", material: "steel", density: 998.2, bore: 0.6, wall: 0.006, young: 207e9, mu: 0.30,
			thin: [3]float64{1074.8, 1057.3, 1032.5}, thick: [3]float64{1069.6, 1052.4, 1028.3}},
		{id: "W2", material: "ductile iron", density: 998.2, bore: 0.3, wall: 0.0072, young: 170e9, mu: 0.28,
			thin: [3]float64{1225.2, 1211.5, 1194.8}, thick: [3]float64{1216.0, 1203.0, 1187.0}},
		{id: "W3", material: "PVC", density: 998.2, bore: 0.1808, wall: 0.0096, young: 3e9, mu: 0.45,
			thin: [3]float64{433.9, 428.2, 385.7}, thick: [3]float64{407.2, 402.7, 368.3}},
		{id: "W4", material: "HDPE SDR 11", density: 998.2, bore: 0.1636, wall: 0.0182, young: 0.9e9, mu: 0.46,
			thin: [3]float64{350.7, 346.8, 309.7}, thick: [3]float64{307.1, 304.7, 281.0}},
		{id: "W5", material: "concrete", density: 998.2, bore: 1.2, wall: 0.12, young: 30e9, mu: 0.15,
			thin: [3]float64{1144.4, 1131.5, 1126.1}, thick: [3]float64{1109.7, 1099.0, 1094.5}},
		{id: "W6", material: "copper", density: 999.1, bore: 0.0221, wall: 0.00163, young: 120e9, mu: 0.34,
			thin: [3]float64{1348.5, 1341.1, 1325.6}, thick: [3]float64{1329.5, 1322.8, 1308.9},
			measured: 1319, laboratory: "A. Bergant, A. R. Simpson, J. Vitkovsky 2001"},
		{id: "W7", material: "copper", density: 997.7, bore: 0.016, wall: 0.001, young: 120e9, mu: 0.34,
			thin: [3]float64{1329.2, 1320.8, 1303.4}, thick: [3]float64{1311.1, 1303.5, 1287.7},
			measured: 1298, laboratory: "A. Adamkowski, M. Lewandowski 2006"},
	} {
		cases = append(cases, Case{w.id, Formula, source, w.checks})
	}
	return cases
}

func (w wall) checks(context.Context) ([]Check, error) {
	const gate = 5e-4
	f := liquid(w.density, 2.19e9)
	var checks []Check
	for i, r := range []pipe.Restraint{pipe.AnchoredUpstream, pipe.AnchoredThroughout, pipe.ExpansionJoints} {
		thin := pipe.WallWaveSpeed(f, w.bore, w.wall, w.young, r.ThinWall(w.mu), pipe.GasContent{})
		thick := pipe.WallWaveSpeed(f, w.bore, w.wall, w.young, r.ThickWall(w.mu, w.bore, w.wall), pipe.GasContent{})
		say := func(form string) string { return fmt.Sprintf("wave speed, %s, %s wall, %s", w.material, form, r) }
		checks = append(checks, ratio(say("thin"), "m/s", w.thin[i], thin, gate), ratio(say("thick"), "m/s", w.thick[i], thick, gate))
		if w.measured > 0 && r == pipe.AnchoredThroughout {
			checks = append(checks, compared(ratio("measured wave speed, "+w.laboratory+" (from memory)", "m/s", w.measured, thick, 9e-3)))
		}
	}
	return checks, nil
}
