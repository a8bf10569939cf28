package report

// method is the equations in brief, with their sources and how they were read.
func (b *builder) method() Section {
	return Section{Heading: "Method", Blocks: []Block{
		Paragraph("Symbols: H head, Q flow, V velocity, a wave speed, A area, g gravity, f Darcy friction factor, D bore, ρ density, ω speed of the rotor, I its inertia, T torque, y position of the disc, ζ loss coefficient, p pressure."),
		List{
			"Pipes: one-dimensional flow of an elastic liquid, (g A/a²) ∂H/∂t + ∂Q/∂x = 0 and ∂Q/∂t + g A ∂H/∂x + f Q|Q|/(2 D A) = 0, by the method of characteristics at Courant number 1, so that a wave is neither smeared nor damped by the grid. " +
				"Source: E. B. Wylie, V. L. Streeter, L. Suo, Fluid Transients in Systems, 1993, ch. 3.",
			"A sudden stop of the velocity ΔV raises the pressure by Δp = ρ a ΔV, the formula of Joukowsky; the grid keeps it exactly.",
			"Discs: one degree of freedom, M(y) y'' = load − preload − spring − weight − damper − friction, with load = C(y) ρ/2 v|v| A arm and the pressure drop Δp = ζ(y) ρ/2 v|v|, both of the velocity relative to the disc, v = V − sweep(y) y'. " +
				"M includes the liquid that moves with the disc. Flow and disc are solved together. The form is worked out in the program's documentation; coefficients are listed with the data of each candidate.",
			"Pumps: the given curve by the affinity laws where it holds, beyond it four-quadrant data of the nearest specific speed, joined to the curve. Source: Wylie, Streeter and Suo, 1993; M. H. Chaudhry, Applied Hydraulic Transients, 3rd ed. 2014. Rotor: I dω/dt = −T.",
			"Vapour: where the pressure falls to that of vapour, cavities form at the nodes of the grid. Source: E. B. Wylie, Simulation of vaporous and gaseous cavitation, J. Fluids Eng. 106 (1984) 307-311, from memory.",
			"Water: IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997. Friction in steady flow: S. E. Haaland, J. Fluids Eng. 105 (1983) 89-90, and laminar flow.",
			"Price ratios and generic valve data: common practice, ±40 %.",
		},
		Paragraph("\"From memory\" marks a source that was recalled and not read again for this program. The command seatwise verify runs the checks of the program against published and closed-form values."),
	}}
}
