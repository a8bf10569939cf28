// Package verify compares the program with published and closed-form values.
//
// A case is a small installation or formula with its known answer; it gives one check per quantity. With expected value e and
// obtained value x the deviation is
//
//	d = x - e        absolute, in the unit of the quantity
//	d = x/e - 1      relative
//
// and the check passes when |d| <= tolerance. Tolerances are those of the source's digits or of the grid, fixed before the run. A gate must
// pass; a comparison, with values that are themselves uncertain, is reported and fails nothing.
//
// Layers, from the bottom: formula (a closed form in code), disc (the law of motion of a valve alone), solver (one device or one
// kernel against its exact answer), system (a whole run of package moc through its public functions).
//
// Installations here are frictionless (Darcy factor 1e-300) unless the case says otherwise, on a uniform grid at Courant number 1, where
// the method of characteristics is exact: what happens at time t is in the first step that ends after t. Flows are read at meters, open
// check valves of negligible loss (1e-12 velocity heads).
package verify
