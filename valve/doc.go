// Package valve holds the law of motion of a check valve's disc and the families of valves that obey it.
//
// Every disc has one degree of freedom y, an angle (rad) or a lift (m), 0 on the seat and Travel on the stop:
//
//	M y'' = load - preload - spring - weight - damper - friction + contact
//	load  = kappa(y) dp A L                              N·m or N
//	phi(v_rel) = g(y)^2 2 dp/rho,   v_rel = v - sweep(y) y'
//	phi(x) = x sqrt(x^2 + v_lam^2)
//
//	M      inertia with the liquid that moves with the disc, kg·m2 or kg
//	kappa  load per pressure drop over that of a shut disc; 1 on the seat
//	dp     pressure drop, upstream less downstream at equal height, Pa
//	A, L   seat area, m2, and arm, m (1 for a lift)
//	v      velocity on the bore, m/s, positive forward; rho density, kg/m3
//	g      conductance 1/sqrt(zeta), zeta the loss coefficient on the bore velocity; g(0) = 0
//	sweep  volume displaced per unit of y over the bore area, m or 1
//	v_lam  velocity, m/s, below which the loss turns linear; relative error (v_lam/v)^2/2 above it
//
// The load coefficient on the velocity head of the bore is C = kappa zeta. There is one pressure drop: it moves the disc and
// drives the flow. Near the seat g vanishes, so that v follows sweep y': the column carries the disc, and the slam is the stop of
// that motion.
//
// The last tenth of the travel is part of the closing, not an end of it: the gap closes as y while the column goes on to be slowed down or
// speeded up, so that the flow at seating is not that at 90 % closed. Behind the built-in pumping station a swing disc of DN250 passes 0.61 m/s
// back at a tenth of its travel and seats at 0.69, a nozzle valve 0.12 and 0.25, and two plates seat at 0.2 in reverse from a flow that is
// still forward there. The spike of pressure as the gap shuts is Joukowsky's of the velocity at seating, rho a V_r, and the rise from a tenth of the
// travel on is that and what the column's course would have done without the gap, 1 to 20 % in those runs; one over the other says nothing that V_r
// does not. Sub-steps resolve the motion down to a thousandth of the travel. Not resolved are the squeeze film in the last tenth of a millimetre, which takes
// speed from the disc but no flow from the column, and the give of seat and body, which spreads the jump over the time of flight of a wave through
// the valve.
//
// A step of h seconds is the trapezoidal rule, second order and without numerical damping:
//
//	y1 = y0 + h/2 (w0 + w1),   M (w1 - w0)/h = (F0 + F1)/2
//
// and backward Euler, y1 = y0 + h w1, M (w1 - w0)/h = F1, for the first step after a start or an impact. F0 of a disc that rests is 0.
// Seat and stop are complementarity conditions: a resting disc leaves when the net force points away from its contact, and
// the opening branch begins with zero rate at exactly that pressure drop.
//
// Assumptions: steady coefficients of loss and load also serve in transients and in reverse flow (published comparisons find that
// this closes the disc early: results are not conservative); M does not depend on y; the liquid above v_lam is turbulent.
//
// Sources: the split into load, loss and swept flow is the relative-velocity form of the swing-disc literature (G. A. Pool,
// A. J. Porwit, J. L. Carlton, 1962, from memory; G. Li, J. C. P. Liou, ASME J. Fluids Eng., 2003, abstract read). The added mass of
// a disc is potential theory (H. Lamb, Hydrodynamics, from memory). The loss curve is the sudden expansion behind a contracted jet.
package valve
