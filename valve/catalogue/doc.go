// Package catalogue completes a valve from generic data by family and size.
//
// The data are those of similar valves of nominal bore D, m, in the classes PN 10 to 16: masses grow as D^3 (plates of 0.06-0.07 D) and below
// DN100 as D^2.5 (least thickness), arms and travels as D. The losses of the swing valve and the nozzle valve are interpolated in log D
// between DN100, DN300 and DN600 and held outside. Spread ±40 % (common practice): they serve a comparison before a
// maker's data are at hand, and each datum says so.
//
// The full-open velocity V of a family holds in a level pipe for its plain disc: V = 1.22 C/sqrt(rho), C = 60, for the swing
// disc (valve.MinimumVelocity), V proportional to 1/sqrt(rho) for the others. It fixes the load on the open disc. A spring,
// a counterweight or a slope then changes the full-open velocity of a swing valve; a lifting disc gets the spring that its
// full-open velocity asks for.
package catalogue
