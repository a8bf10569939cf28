package valve

import "math"

// MinimumVelocity is the least velocity, m/s, that holds a disc on its stop, V = C sqrt(v) with V in ft/s and the specific volume v in
// ft3/lb, for a density rho in kg/m3. C is 35 for Y-pattern lift discs, 60 for bolted-cap swing discs, 100 for the listed type
// (handbook practice, from memory). The factor converts ft/s and ft3/lb exactly.
func MinimumVelocity(c, rho float64) float64 {
	const foot, pound = 0.3048, 0.45359237
	return c * foot * math.Sqrt(pound/(foot*foot*foot)) / math.Sqrt(rho)
}

// ZetaFromKv is the loss coefficient on a bore of d m of a valve that passes kv m3/h of water of 1000 kg/m3 at 1 bar.
func ZetaFromKv(d, kv float64) float64 {
	v := kv / 3600 / (math.Pi / 4 * d * d)
	return 1e5 / (1000 * v * v / 2)
}

// KvFromZeta is the flow, m3/h, of water of 1000 kg/m3 at 1 bar through a bore of d m with loss coefficient zeta.
func KvFromZeta(d, zeta float64) float64 {
	return 3600 * math.Pi / 4 * d * d * math.Sqrt(2*1e5/1000/zeta)
}
