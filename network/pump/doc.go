// Package pump gives the head and shaft torque of a centrifugal pump for any
// flow and any speed, forwards, stopped or backwards, and an estimate of the
// inertia of its rotor.
//
// # Four-quadrant data
//
// With the rated flow Q_R (m3/s), head H_R (m), speed w_R (rad/s) and shaft
// torque T_R (N m), the reduced flow, speed, head and torque are
//
//	v = Q/Q_R   alpha = w/w_R   h = H/H_R   beta = T/T_R
//	T_R = rho g Q_R H_R/(eta_R w_R)
//
// Homologous pumps of one specific speed share two curves of one angle x (rad):
//
//	x = pi + atan2(v, alpha)
//	h    = (alpha^2 + v^2) WH(x)
//	beta = (alpha^2 + v^2) WB(x)
//
// x = pi is zero flow, x = 5 pi/4 the rated point (WH = WB = 1/2), x = 3 pi/2
// zero speed with forward flow, x = pi/2 zero speed with reverse flow. WH and WB
// are linear between the nodes of the table. Specific speed is
// N sqrt(Q)/H^(3/4) in rpm, m3/s, m; of the sets 25, 35, 147, 261 the one with
// the least difference is taken.
//
// # Joining the pump's own curve
//
// For alpha > 0 and 0 <= v/alpha <= v_E, with v_E the last point of the curve,
// the affinity laws hold:
//
//	H = alpha^2 H_C(Q/alpha)
//	T = T_R r(v/alpha) (alpha^2 + v^2) WB(x)
//
// A curve that starts above zero flow is continued to it by the data, moved to
// its first point. H_C is the monotone C1 cubic of Fritsch and Butland through the points. r is
// the torque that the efficiency points ask for over the torque of the data,
//
//	r = (rho g Q H_C/(eta w_R)) / (T_R (1 + v^2) WB)   at a point with efficiency,
//
// again a monotone cubic, constant before the first and after the last such
// point. Efficiency says nothing about the torque at zero flow, where both it
// and the flow vanish; the data do, so the zero-flow torque is that of the data
// times r of the nearest point. With the rated efficiency alone r = 1.
//
// Beyond the curve the data are joined to it by a factor f and an offset o,
//
//	h = (alpha^2 + v^2) (f WH + o)      f -> 1, o -> 0
//
// both linear in x from zero flow (x = pi) to x = pi/2 and from the end of the
// curve (x_E) to x = 3 pi/2. As a rule o = 0 and f is curve over data. Where that
// quotient leaves 1/2..2 (a pump unlike its set, or data near their zero) f = 1 and
// o closes the difference, with a warning: a quotient near a zero has no meaning.
// Torque is joined in the same way. Head and torque are thus continuous
// everywhere; their slopes have kinks at the nodes and at the joints.
//
// # Assumptions
//
// Steady curves hold at every instant (no lag of the flow in the impeller).
// Reverse-speed, forward-flow data (x > 3 pi/2) are the least reliable part of
// every set; a pump trip does not go there.
//
// Sources: Donsky, Complete pump characteristics and the effects of specific
// speeds on hydraulic transients, J. Basic Eng. 83 (1961) 685-699; Wylie, Streeter
// and Suo, Fluid Transients in Systems, 1993; Chaudhry, Applied Hydraulic
// Transients, 3rd ed. 2014; Fritsch and Butland, A method for constructing local
// monotone piecewise cubic interpolants, SIAM J. Sci. Stat. Comput. 5 (1984)
// 300-304; Thorley, Fluid Transients in Pipeline Systems, 2nd ed. 2004. The tables
// in data are from memory of the reprints and were not re-read.
package pump
