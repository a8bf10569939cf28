// Package choice compares check valves in one installation: every candidate in every scenario, judged against the limits of the line,
// with a recommendation that gives its reasons.
//
// # Definitions
//
// Velocities v, m/s, are at the watched valve on its own bore, positive forward. The candidate may stand in
// several places, of which one is watched: the one whose max reverse velocity is the greatest, or that the run leaves open though it has to close. Of
// valves that do the same, as those of like units, it is the one whose unit trips first, and of those the first in the network. The story of a valve begins
// with the trip of its unit, or with the first event where that does not trip. Times t, s, count from the start of the run. A gauge pressure p, Pa, follows
// from the piezometric head H, m, and the elevation z, m:
//
//	p = rho g (H - z)                 rho density, kg/m3; g gravity, m/s2
//
//	deceleration            -dv/dt by least squares over max(50 ms, 4 L/a, four steps) before v = 0; L, m, and a, m/s, of the branch
//	max reverse velocity    greatest -v from the first event up to the first seating of that story, 0 when the disc seats in forward flow
//	later reverse velocity  greatest -v after the first seating
//	reverse volume          integral of the reverse flow over the whole run, m3
//	closing start           the disc is 1 % of its travel below its steady opening
//	seat impact speed       speed of the fastest point of the disc at the first seating
//	slam pressure rise      rho g times the jump of H at the downstream face at the first seating
//	peak, minimum           over all nodes of all pipes and the whole run, the steady state included; the columns on the pump side are left out
//	time above              that in which the pressure is above the design pressure from the first event on, at the worst of the same nodes (see [Rule])
//	vapour margin           least (p + p_atm - p_v)/(rho g) at the same nodes, not below 0; p_atm and p_v, Pa, the atmosphere and the vapour pressure
//	slam class              by the greatest reverse velocity, first or later (see [SlamBounds])
//	steady pressure         highest in steady flow at the same nodes and at the upstream faces of the check valves
//	anchor force            greatest push of the liquid along a straight run of pipe (see [StraightRun]), over the whole run
//	anchor impulse          that of the pulse that holds it
//	largest cavity          at one node of a pipe; of gas, one has formed where it has grown to ten times its volume at atmospheric pressure
//
// A run that ends before the disc of the tripped unit seats has none of them but deceleration, closing start and minimum: what was seen until then is
// no measure of the valve.
//
// The jump follows from the velocity V_R, m/s, that is stopped (N. Joukowsky, 1898, from memory): dp = rho a V_R (D_v/D_p)^2 with the bores
// D_v of the valve and D_p of the pipe that it closes on.
//
// The installation's own deceleration is taken once per scenario with an ideal valve held open, the same whatever the candidates are (see [Own]).
//
// A limit is met when its value is on the good side of the bound, with the margin to spare that the case asks for, a fraction of the bound: x <= (1 - m) b, or for a
// least value x >= b + m |b|. It is met narrowly when 0.4 times the share that the valve's data decide (the reverse velocity; of an extreme pressure the slam pressure
// rise; of an anchor force after the seating the slam pressure rise on the bore, at most all of it) is more than the margin. It is broken late when that happens more than four periods 4 L/a of the longest pipe after the first seating.
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
// nearer than e. The later reverse velocity has the target max(5 %, 5 mm/s), the anchor force max(5 %, 10 Pa on the bore). Then
//
//	q = log2(|f(h) - f(h/2)| / |f(h/2) - f(h/4)|)
//	e = 1.25 |f(h/2) - f(h/4)|               q >= 1
//	e = 2 |f(h/2) - f(h/4)| / (2^q - 1)      0.5 <= q < 1
//	e = 2 |f(h/2) - f(h/4)|                  otherwise: slower still, or differences of unlike sign
//
// What stays beyond its target is a warning. The factor 1.25 is the one usual in grid refinement where the order is known (P. J. Roache, "Perspective: a method
// for uniform reporting of grid refinement studies", J. Fluids Eng. 116, 1994, from memory); 2, where it is below 1 or not seen, is a choice of this
// package.
//
// Where gas cavities formed, the last run is repeated with ten times the free gas, 1e-6 of the volume at atmospheric pressure, and the difference that this makes is
// added to e.
//
// # What would help
//
// [Advise] takes, of the candidates that miss a limit, the one whose worst shortfall (b-x)/|b| is the least, and tries single steps from its case: preload and rate of
// its spring times 1.5; the next nominal size down and up; pump and motor of the stations that trip with twice their moment of inertia; a plain swing disc of its size in a
// bypass around them; a small air vessel where they deliver, with gas for 2 s of the rated flow of the running units in twice the volume; and an ideal valve of its
// loss that closes at zero velocity, which no valve surpasses. The steps and their sizes are a choice of this package. They run at the default time step only, so that
// what is within twice the error estimate of the comparison counts as no difference.
//
// It is the error of the numbers, not of the data: generic valve data are known to ±40 % (common practice), and published comparisons find
// that static coefficients under-predict the closing time.
package choice
