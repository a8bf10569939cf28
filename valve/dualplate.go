package valve

import (
	"fmt"
	"math"
)

// DualPlate is two half discs on a hinge pin across the bore, closed by torsion springs; y_i is the angle of a plate from the seat. Each plate
// is a Law of its own in a Pair. With R = D_d/2 the radius of the plates, for each of them:
//
//	A_h = pi R^2/2, L = 4R/(3 pi)      area and arm of its centroid
//	M = (m + m_l) R^2/4                half disc about its straight edge; m_l liquid
//	sweep = A_h L/A = 2 R^3/(3 A)      seat moment = dp A_h L
//	gap area ratio = 2 R^2 y/A         mean lift times rim: the integral of R sin(f) y R over the half circle 0 < f < pi
//	closing moment = T_0 + k y + m g (1 - rho/rho_s) L [sin(phi) cos(y) -+ sin(psi) cos(phi) sin(y)]
//	C = C_open + (zeta - zeta_open),   zeta: EdgeJet
//
// Sweep: the wedge between seat and plate grows by A_h L per rad at every angle, so that a slow motion does as much work on the plate as it takes
// from the liquid. A is the area of the bore, and the plates share it: with both at the same angle each has half the
// conductance and half the flow, so that on the bore velocity the loss coefficient of one half is 4 zeta.
//
// Weight: the pipe rises by phi in the direction of flow, the hinge pin is turned by psi from the vertical plane through the pipe. The
// centroid of a shut plate lies L across the pin, at height +-L sin(psi) cos(phi), that of an open one downstream, at L sin(phi); the
// moment is the slope of the height in y. With the pin upright the weight has no moment in a level pipe and closes both plates in upflow; with
// the pin level in a level pipe it opens the upper plate, which is the first, and closes the lower. In downflow it opens both.
//
// Load: C_open is on velocity head and area of the bore and the same at all angles; the drop across the gap is added (GapLoad). An upper bound is
// the momentum of the flow along the pipe: if the plates alone bore the pressure drop, evenly, kappa would be 1/cos(y). A load table
// replaces it.
//
// Liquid: a full disc about its diameter has the added inertia 16/45 rho R^5 in unbounded liquid (H. Lamb, Hydrodynamics, from
// memory); half of it is each plate's, ±50 %: two plates that close together push the same liquid, two halves of one disc do not.
//
// Assumptions: the passage beyond the rim is wider than the gap; the plates feel each other through the pressure drop alone.
type DualPlate struct {
	Body
	DiscDiameter float64 // D_d, m: of the two plates together
	DiscDensity  float64 // rho_s, kg/m3
	Travel       float64 // rad
	PinAngle     float64 // psi, rad: 0 upright, pi/2 level
	LoadOpen     float64 // C_open, on velocity head and area of the bore
	Plates       [2]HalfPlate
}

// HalfPlate is one of the plates.
type HalfPlate struct {
	Mass       float64 // m, kg
	LiquidMass float64 // m_l, kg: liquid that moves with the plate, spread as its metal is
	Preload    float64 // T_0, N·m
	SpringRate float64 // k, N·m/rad
}

// HalfPlateLiquidMass is m_l, kg, of a plate of diameter d, m, of the whole disc, in liquid of density rho: half of 16/45 rho R^5 is m_l R^2/4.
func HalfPlateLiquidMass(rho, d float64) float64 { return 32. / 45 * rho * d * d * d / 8 }

// HalfArea is A_h, m2.
func (d DualPlate) HalfArea() float64 { return math.Pi / 8 * d.DiscDiameter * d.DiscDiameter }

// Arm is L, m.
func (d DualPlate) Arm() float64 { return 2 / (3 * math.Pi) * d.DiscDiameter }

// Weight is the closing moment, N·m, of the weight of plate i, 0 or 1.
func (d DualPlate) Weight(i int) Sine {
	sin, cos := math.Sincos(d.Slope)
	across := -math.Sin(d.PinAngle) * cos
	if i == 1 {
		across = -across
	}
	return Sine{
		Amplitude: d.Plates[i].Mass * d.Gravity * d.submerged(d.DiscDensity) * d.Arm() * math.Hypot(sin, across),
		Phase:     math.Atan2(sin, across),
	}
}

// Law is the law of motion of the two plates.
func (d DualPlate) Law() (*Pair, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	if !(d.Travel > 0 && d.Travel < 89*math.Pi/180) {
		return nil, fmt.Errorf("%w: travel of a plate = %.1f° must be between 0 and 89°", ErrLaw, d.Travel*180/math.Pi)
	}
	if !(d.DiscDiameter > 0) || !(d.DiscDensity > 0) || !(d.LoadOpen > 0) {
		return nil, fmt.Errorf("%w: plate diameter %g m, density %g kg/m3 and load coefficient %g must be above zero", ErrLaw, d.DiscDiameter, d.DiscDensity, d.LoadOpen)
	}
	if ratio := d.DiscDiameter / d.Bore; ratio < 0.5 || ratio > 2 {
		return nil, fmt.Errorf("%w: two plates of %.4g mm do not fit a bore of %.4g mm: their diameter is 0.5 to 2 times the bore", ErrLaw, 1000*d.DiscDiameter, 1000*d.Bore)
	}
	p := &Pair{}
	for i := range p.Halves {
		l, err := d.half(i)
		if err != nil {
			return nil, err
		}
		if err := d.closes(i, l); err != nil {
			return nil, err
		}
		p.Halves[i] = l
	}
	return p, p.Check()
}

// half is the law of motion of plate i. On the flow of its own the coefficients of loss and load are those of the valve, times four on the
// velocity of the bore.
func (d DualPlate) half(i int) (*Law, error) {
	b := d.Body
	b.LossOpen *= 4
	b.LossTable, b.LoadTable = fourfold(b.LossTable), fourfold(b.LoadTable)
	seat := d.DiscDiameter * d.DiscDiameter / (d.Bore * d.Bore)
	conductance, err := b.conductance(NewEdgeJet(b.LossOpen, d.Contraction, 2/math.Pi*seat, d.Travel), d.Travel)
	if err != nil {
		return nil, err
	}
	load, err := b.load(Constant(4*d.LoadOpen/seat), conductance, d.Travel, seat)
	if err != nil {
		return nil, err
	}
	plate := d.Plates[i]
	return &Law{
		Travel:      d.Travel,
		Inertia:     (plate.Mass + plate.LiquidMass) * d.DiscDiameter * d.DiscDiameter / 16,
		Area:        d.HalfArea(),
		Arm:         d.Arm(),
		Density:     d.Density,
		Conductance: conductance,
		Load:        load,
		Sweep:       Constant(d.HalfArea() * d.Arm() / d.area()),
		Weight:      d.Weight(i),
		Preload:     plate.Preload,
		SpringRate:  plate.SpringRate,
		Damper:      d.Damper,
		Friction:    d.Friction,
		Leak:        d.Leak / 2,
		Restitution: d.Restitution,
	}, nil
}

func fourfold(p Points) Points {
	value := make([]float64, len(p.Value))
	for i, v := range p.Value {
		value[i] = 4 * v
	}
	return Points{Opening: p.Opening, Value: value}
}

// closes refuses a plate that its weight opens against its spring, and says why and what would do.
func (d DualPlate) closes(i int, l *Law) error {
	opening, r := l.weakest()
	if !(r < 0) {
		return nil
	}
	more := 0.0
	for k := range checked + 1 {
		at, _ := l.resist(float64(k) / checked * d.Travel)
		more = math.Max(more, -at)
	}
	why := "the hinge pin is not vertical, so that the weight of the upper plate opens it"
	switch {
	case d.DiscDensity < d.Density:
		why = "the plates float in the fluid, which opens them"
	case d.Slope < 0:
		why = "the pipe falls in the direction of flow, so that the weight of the plates opens them"
	case i == 1 || d.PinAngle == 0:
		why = "the springs open the plate"
	}
	return fmt.Errorf("%w: %s: the %s plate does not close by itself from %.0f %% opening; it needs a preload above %.3g N·m instead of %.3g N·m",
		ErrLaw, why, ordinal(i), 100*opening, l.Preload+more, l.Preload)
}
