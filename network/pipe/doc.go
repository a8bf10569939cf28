// Package pipe gives the properties of a pipe that the transient needs: bore and
// wall of standard sizes, elastic constants and roughness of materials, the wave
// speed and the friction factor.
//
// # Wave speed
//
// With the bulk modulus K (Pa) and density rho (kg/m3) of the liquid, bore D (m),
// wall e (m), Young's modulus E (Pa) and Poisson's ratio mu of the wall, the wave
// speed a (m/s) is
//
//	a = sqrt(K/rho) / sqrt(1 + (K/E)(D/e) c1)
//
// where c1 expresses the axial restraint, for a thin wall and, below D/e = 25,
// for a thick one:
//
//	                       thin        thick
//	anchored throughout    1 - mu^2    (2e/D)(1+mu) + D(1 - mu^2)/(D+e)
//	anchored upstream      1 - mu/2    (2e/D)(1+mu) + D(1 - mu/2)/(D+e)
//	expansion joints       1           (2e/D)(1+mu) + D/(D+e)
//
// At D/e = 25 the thick form is lower by 0.7 % for steel and 5 % for a plastic;
// neither is wrong, and the spread of E between makers is as large. A volume fraction phi of free gas at
// absolute pressure p (Pa), isothermal and evenly spread, replaces K and rho by
//
//	1/K_m = (1-phi)/K + phi/p    rho_m = (1-phi) rho
//
// A plastic wall creeps: under a stress that stays its strain goes on growing, as the compliance
//
//	J(t) = 1/E + sum of J_k (1 - exp(-t/tau_k))
//
// with the compliances J_k, 1/Pa, and retardation times tau_k, s, of Kelvin's and Voigt's elements. E, for sudden load,
// sets the wave speed; the rest damps the waves and makes them longer. The growth of the bore area under a
// pressure p is (c1 D/e) J p (see [Stretch]). Poisson's ratio is taken as constant.
//
// Sources: Wylie, Streeter and Suo, Fluid Transients in Systems, 1993, ch. 1-2;
// Chaudhry, Applied Hydraulic Transients, 3rd ed. 2014, ch. 1 (both from memory);
// on the thick wall Tijsseling, Water hammer with fluid-structure interaction in
// thick-walled pipes, Computers and Structures 85 (2007) 844-851.
//
// # Friction
//
// The head lost over a length L is f (L/D) V|V|/(2g), with the Darcy factor f
// (dimensionless) of the Reynolds number Re = |V| D/nu and the roughness k (m):
//
//	laminar, Re <= 2000     f = 64/Re
//	turbulent, Re >= 4000   1/sqrt(f) = -2 log10( (k/D)/3.7 + 2.51/(Re sqrt(f)) )
//	between                 f = (1-w) f_laminar + w f_turbulent
//	                        w = s^2 (3 - 2s), s = (Re - 2000)/2000
//
// The blend joins both laws with continuous slope and keeps the lost head rising
// with the flow; it is a convention, as flow between them is not steady. Source:
// Colebrook, Turbulent flow in pipes, J. Inst. Civ. Eng. 11 (1939) 133-156 (from
// memory).
package pipe
