// Package moc runs a network of elastic pipes, pumps and check valves through a disturbance by the method of characteristics.
//
// # Pipes
//
// The equations of a pipe and their integration along the characteristics are those of package kernel: H the piezometric head, m, Q the
// flow, m3/s, one time step dt, s, for the whole network, whole reaches a dt in every pipe, Courant number 1. The Darcy factor of a pipe is
// that of its steady Reynolds number, spread with the minor losses along its length, so the steady head loss does not depend on the grid.
// The pressure at elevation z, Pa gauge, is p = rho g (H - z); the head of vapour pressure there is z + (pv - patm)/(rho g).
//
// A plastic wall creeps (network.Creep): the kernel carries its retarded strain at every node, at the ends too, beside any form of friction and in
// the cavity kernels; a cluster sees it only in C and Z. The strain counts from the steady state, in which the wall has come to rest.
//
// # Clusters
//
// Nodes joined by devices without pipe between them (pump, check valve, throttling valve) form a cluster. With H the heads of its nodes and q
// the flows of its devices, each step solves
//
//	sum over pipe ends (C - H)/Z + sum over devices (+-q) = demand         at each node
//	r(q, Ha, Hb) = 0                                                       for each device
//
// by Newton's method with analytic derivatives; C is the wave arriving at a pipe end and Z = B + R|Q|/2 its impedance. Disc position and
// rotor speed are functions of q, Ha and Hb at the end of the step (package device), so disc and flow are solved together. A disc near its seat cuts the
// step into parts, between whose ends C goes linearly; its arrival at seat or stop is located within the step, and there the cluster
// is solved once more with the disc at rest, which gives the slam: for one pipe a V_r/g of head, exactly.
//
// # Vapour
//
// When a node comes within 1 m of vapour head the run goes back to its last checkpoint, and from there that pipe can part in cavities at any node: of a
// little free gas, or of vapour alone ([Settings.Cavities]; package kernel has the equations of both, how they fit the grid, and what a
// spike of a step or two means). At the ends of pipes the cavity is one of the cluster's unknowns: files cluster.go and pocket.go.
//
// # Books
//
// Every run audits its volume, that all heads are finite, and that none is below vapour head where no cavity can form; a failed audit is an
// error with place and time. What a pipe stores is, beside the compression of the liquid and the elastic strain, the retarded strain of a creeping wall
// (kernel.Line.Storage), so that creep gives and takes back no volume unseen. Steady flow is the solution of the same equations with d/dt = 0 (file steady.go) and stays steady to rounding.
//
// Assumptions: one-dimensional flow, wall without inertia, elastic but for the creep that is given, friction as the settings say, valve and pump quasi-steady in their loss and head. Sources:
// E. B. Wylie, V. L. Streeter, L. Suo, Fluid Transients in Systems, 1993; M. H. Chaudhry, Applied Hydraulic Transients, 3rd ed. 2014.
package moc
