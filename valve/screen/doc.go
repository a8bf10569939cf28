// Package screen tells before any simulation how demanding an installation is for a check valve, and which types are worth simulating.
//
// # The deceleration
//
// After a trip the head of a unit falls with its rotor, while the header holds its head, so that the column of liquid between them is stopped and turned.
// With Q the flow of one unit, m3/s, positive forwards, w the speed of its rotor, rad/s, and all valves held open until their flow turns:
//
//	I dw/dt = -T(Q, w)                                              rotor; T shaft torque, N m, I inertia, kg m2
//	(sum of L_i/(g A_i)) dQ/dt = H_s + H_p(Q, w) - k Q|Q| - H_h     column of pump, suction and branch
//
// H_p, m, and T are those of the pump in all four quadrants (package network/pump), H_s and H_h, m, the heads of the nodes from which and to which the
// station pumps, k, s2/m5, the steady loss of valve and branch. Units that run on have the same equation at rated speed. At zero flow the loss is gone, and on the bore of the
// valve, of area A,
//
//	a = -dV/dt = g (H_h - H_p(0, w) - H_s)/L,   L = A (sum of L_i/A_i)
//
// It is not g dH/L with a header that keeps its steady head: the header falls as the unit takes its flow back. A pipe that ends there answers with its
// impedance B = c/(gA) (c wave speed, m/s) until its own waves come back,
//
//	H = C - B Q_end,   C(t) = H'(t - l/c) + B Q'(t - l/c) - R Q'|Q'|       ' at its other end; R friction, s2/m5
//
// with Q_end out of the pipe and Q' into it, and C = H_0 + B Q_0 at first. Several pipes at a node act in parallel, H = (sum of C/B + inflow)/(sum of 1/B). So the same equations hold before the wave is back after 2l/c, when the main
// is its impedance, and long after it, when it moves as one rigid column; Reversal.Main says which it is. (Textbook: E. B. Wylie, V. L. Streeter, L. Suo, Fluid Transients in Systems, 1993, from memory.)
//
// Pipes are cut into parts for friction and creep. A creeping wall takes up liquid at the nodes between the parts, V -> rho g (c1 D/e) J_k A l dH with the
// retardation time of each element. The elasticity of the branches is halved between their ends, and the half at the header counts. Vessels and surge tanks
// keep their heads. A throttle, an orifice or an open check valve in the line loses what it does in steady flow. Where the head at a node or summit falls to vapour head, at an air valve to its
// elevation, at a one-way tank to its level, it stays there until what has left is back.
//
// # What is taken of it
//
// A run takes the deceleration as the mean slope over the last 50 ms (or 4L/c of the branch) before zero velocity. The estimate takes the greatest slope in that
// time (Reversal.Bound), which no mean over it exceeds. Against full runs with the valves held open, over all built-in examples and scenarios, it is 1.00 to 1.22 times
// theirs, but for one: where both units of high-point trip, the liquid parts at the summit before the flow turns, and the estimate is 2.9 times that of the run (1.44 against
// 0.50 m/s2; the run itself gives 0.5 to 2.7 by the form of its cavities). There it is rough, and says so.
//
// # The pressure
//
// From then on the valve is shut, without any slam, and the header is followed until the waves have come and gone twice through the pipes: the highest head there
// (Reversal.Highest) is what the installation does to itself with a valve that shuts at once. Its rise is within 3 % of that of full runs with such a valve, in the examples where there is one.
// What a limit on the pressure leaves above it is the room for the slam, on the safe side where the slam comes before that head. Other places of the line, the lowest pressure, anchor forces and
// events other than trips are not looked at.
//
// # The valves
//
// The reverse velocity V_r is that of package valve/characteristic at this deceleration, held constant, with the band of its generic data. A real column yields to the closing
// disc: runs of the examples have 0.41 to 1.02 times that value. The pressure rise is that of Joukowsky, rho c V_r A/A_branch.
// The demand words and the rules of package valve/service are common practice.
package screen
