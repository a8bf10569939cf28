// Package fit makes the data of a disc from a data sheet and from tests of the valve.
//
// A data sheet gives what can be measured from outside. From it follow, by the catalogue (valve/catalogue), the coefficients of the law:
//
//	kv                   loss when open     zeta = 2 dp/(rho (Kv/A)^2), dp 1 bar, rho 1000 kg/m3
//	cracking pressure    preload            F_0 = p A_s L - weight(0) - friction
//	full-open velocity   hinged disc: load coefficient of the open disc, C = 2 (weight + F_0 + k y + friction)/(rho V^2 A L) on the stop
//	                     lifting disc: spring rate, k = (C_F rho/2 V^2 A - weight - F_0)/s, or with the rate given too the force coefficient C_F
//
// p Pa is the pressure drop that opens the shut valve, A_s m2 its seat area, L m its arm (1 for a lift), A m2 the bore, V m/s the least velocity
// that holds the disc on its stop, s m the travel.
//
// What is then missing is fitted to test points (a_i, V_i), deceleration m/s2 and reverse velocity m/s: with p the data in question, the sum
//
//	S(p) = sum r_i^2,   r_i = V(a_i, p) - V_i
//
// is least, V(a, p) the reverse velocity on the bench of package characteristic. A disc that seats in forward flow has a negative V; where the
// test says 0, r_i counts above 0 alone. Each datum is searched for within a factor of five of the generic one,
//
//	ln p = c + b tanh u
//
// over all u, by Newton's method with the Hessian 2 J^T J + |grad S| I (Gauss and Newton, damped so that a far step stays short), from the best of a
// coarse grid.
//
// The spread of the data is that of the linear model at the solution, in ln p: covariance sigma^2 (J^T J)^-1, sigma^2 = S/(n - m) for n points
// and m data, half-width of the 95 % interval by Student's t with n - m degrees of freedom. It is the scatter of the tests alone: the error of
// the law, and of what was assumed, comes on top; an interval of more than about a third is an order of magnitude, for V(p) is not linear. (Regression textbooks; G. A. F. Seber, C. J. Wild, Nonlinear Regression, 1989, from memory.)
//
// Data that the points cannot tell apart are not fitted: one is taken only when its column of J has a part of 1 cm/s per unit of ln p or more,
// root mean square over the points, that the columns of those before it do not explain. That is about what a test resolves (common practice).
package fit
