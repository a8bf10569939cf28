// Package fluid gives the properties of a liquid that a transient needs: density
// rho (kg/m3), isentropic bulk modulus K (Pa), dynamic viscosity mu (Pa s) and
// vapour pressure p_v (Pa absolute), at temperature T (K) and absolute pressure
// p (Pa).
//
// # Water
//
// Density and sound speed w (m/s) follow from the dimensionless Gibbs energy of
// region 1 of the industrial formulation IF97, with pi = p/16.53 MPa,
// tau = 1386 K/T and R = 461.526 J/(kg K); subscripts are derivatives:
//
//	gamma = sum n_i (7.1 - pi)^I_i (tau - 1.222)^J_i
//	1/rho = (R T/p) pi gamma_pi
//	w^2   = R T gamma_pi^2 / ( (gamma_pi - tau gamma_pitau)^2/(tau^2 gamma_tautau) - gamma_pipi )
//	K     = rho w^2
//
// A pressure wave is isentropic, hence K and not the isothermal modulus. Vapour
// pressure is the saturation line (region 4). Viscosity is the 2008 formulation
// without its critical enhancement, which the release allows outside the
// neighbourhood of the critical point:
//
//	mu = 1e-6 Pa s mu_0(T/647.096 K) mu_1(T/647.096 K, rho/(322 kg/m3))
//
// Range: 273.15 K to 623.15 K, from saturation to 100 MPa. Against a table of
// measured properties from 0 to 100 degC at atmospheric pressure the density is
// within 0.01 %, the sound speed within 0.2 % (above it from 30 degC on), the
// vapour pressure within 0.1 % and the viscosity within 1.5 %.
//
// Sources: IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation
// 1997 for the Thermodynamic Properties of Water and Steam; IAPWS R12-08, Release
// on the IAPWS Formulation 2008 for the Viscosity of Ordinary Water Substance.
package fluid
