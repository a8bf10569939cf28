// Package plots draws the figures of a comparison of check valves: report quality on white paper, 16 cm wide, PNG at 200 dpi and SVG.
//
//	peak-surge        greatest gauge pressure of each candidate, with its numerical error, against the limits
//	pressure-history  gauge pressure at the downstream face of the check valve against time
//	disc-motion       bore velocity, opening and gauge pressure on one time axis, over the closing
//	envelope          profile of the route with the steady, highest and lowest hydraulic gradient lines; a short branch has a scale of its own
//	anchor-force      axial force on the hardest loaded straight run of pipe against time, where bends are given
//	cost-make-up      present value of each candidate's life-cycle cost by its parts, where the case has economics
//	characteristic    reverse velocity against deceleration for a set of valves, with the installation's own deceleration
//
// Everything arrives in SI and is converted at the edge, one unit for a whole figure. A gauge pressure p, Pa, becomes a head line by
//
//	H = z + p/(rho g)
//
// with z the elevation, m, rho the density, kg/m3, and g gravity, m/s2, so that a limit of pressure follows the profile.
//
// A candidate keeps its colour and its dash pattern in every figure; nothing is told by colour alone. A value that does not exist is left
// out and named, with its reason, in a line under the figure; so is a limit too far from the heads to be drawn with them. The first line under
// a figure names the case and says whether valve data are generic, ±40 % (common practice). Long series are reduced to the first, least,
// greatest and last value of each pixel column, which keeps every peak. The same comparison gives the same bytes.
//
// The palette is that of Okabe and Ito, "Color universal design: how to make figures and presentations that are friendly to colorblind
// people", 2008, with wine and olive from P. Tol, "Colour schemes", technical note SRON/EPS/TN/09-002, 2021 (from memory); sizes, weights and layout are common practice.
package plots
