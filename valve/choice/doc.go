// Package choice compares check valves in one installation: every candidate in every scenario, judged against the limits of the line,
// with a recommendation that gives its reasons.
//
// # Definitions
//
// Velocities v, m/s, are at the watched valve on its own bore, positive forward. The watched valve is the candidate on the unit that trips
// first; without a trip, the first candidate in the network. Times t, s, count from the start of the run. A gauge pressure p, Pa, follows
// from the piezometric head H, m, and the elevation z, m:
//
//	p = rho g (H - z)                 rho density, kg/m3; g gravity, m/s2
//
//	deceleration            -dv/dt by least squares over max(50 ms, 4 L/a, four steps) before v = 0; L, m, and a, m/s, of the branch
//	max reverse velocity    greatest -v up to the first seating, 0 when the disc seats in forward flow
//	later reverse velocity  greatest -v after the first seating
//	reverse volume          integral of the reverse flow over the whole run, m3
//	closing start           the disc is 1 % of its travel below its steady opening
//	seat impact speed       speed of the fastest point of the disc at the first seating
//	slam pressure rise      rho g times the jump of H at the downstream face at the first seating
//	peak, minimum           over all nodes of all pipes and the whole run, the steady state included
//
// The jump follows from the velocity V_R, m/s, that is stopped (N. Joukowsky, 1898, from memory): dp = rho a V_R (D_v/D_p)^2 with the bores
// D_v of the valve and D_p of the pipe that it closes on.
//
// The installation's own deceleration is taken once per scenario with the candidate of least loss held open.
//
// # Error estimate
//
// Every candidate runs at the default time step h and at h/2, and the finer result is reported. The numerical error of a figure f is
// estimated as
//
//	e = 1.25 |f(h) - f(h/2)|
//
// which assumes convergence of first order at least, since two results show no order. A third run, at h/4, is made when e is beyond its
// target (1 % of the rise above the steady pressure for the peak, 10 Pa at least; max(1 %, 5 mm/s) for the reverse velocity; max(1 %, 2 ms) for the seating), when
// the number of reopenings by more than 1 % of the travel differs, when the disc seats or the flow reverses at one step only, or when a limit is
// nearer than e. Then
//
//	q = log2(|f(h) - f(h/2)| / |f(h/2) - f(h/4)|)
//	e = 1.25 |f(h/2) - f(h/4)| max(1, 1/(2^q - 1))   0.5 <= q <= 2.5 and both differences of one sign
//	e = 1.25 |f(h/2) - f(h/4)|                       otherwise
//
// What stays beyond its target is a warning. The target for the peak holds for the first one, within 50 ms + 2 L/a of the first seating; later peaks,
// in which many reflections meet, come with their estimate alone. The factor is the one usual in grid refinement (P. J. Roache, "Perspective: a method for uniform
// reporting of grid refinement studies", J. Fluids Eng. 116, 1994, from memory).
//
// It is the error of the numbers, not of the data: generic valve data are known to ±40 % (common practice), and published comparisons find
// that static coefficients under-predict the closing time.
package choice
