package valve

import (
	"fmt"
	"math"
)

// hinged is a disc that turns about a pin; y is its angle from the seat.
//
//	closing moment = weight sin(y + phase) + T_0 + k y
//	seat moment = dp A_s L,   sweep = A_s L/A,   gap area ratio = gap y
//	C = C_form(y) + (zeta - zeta_open),   C_form: Plate;   zeta: EdgeJet
//
// A_s L is the first moment about the pin of the area that bears the pressure drop, and so the volume that the disc displaces
// per radian: a slow motion does as much work on the disc, dp A_s L dy, as it takes from the liquid, dp A sweep dy; A is the area of the
// bore. C_form on the stop is on velocity head and area of the bore and the arm L.
type hinged struct {
	Body
	inertia    float64 // M, kg·m2
	seat       float64 // A_s/A
	arm        float64 // L, m
	gap        float64 // gap area over bore area per rad
	travel     float64 // rad
	lean       float64 // rad: of the shut disc from the perpendicular, for the shape of C_form
	weight     Sine    // N·m
	preload    float64 // T_0, N·m
	springRate float64 // k, N·m/rad
	load       float64 // C_form on the stop
	drag       float64 // N·m·s2/rad2
}

// closing is the moment on the stop, N·m.
func (h hinged) closing() float64 {
	w, _ := h.weight.At(h.travel)
	return w + h.preload + h.springRate*h.travel
}

// loadAt is the coefficient with which a rising flow brings the disc to its stop at v m/s, against friction too.
func (h hinged) loadAt(v float64) float64 {
	return 2 * (h.closing() + h.Friction) / (h.Density * v * v * h.area() * h.arm)
}

// law is the law of motion of a disc with this name.
func (h hinged) law(name string) (*Law, error) {
	if err := h.check(); err != nil {
		return nil, err
	}
	if !(h.travel > 0 && h.travel+h.lean < 89*math.Pi/180) {
		return nil, fmt.Errorf("%w: travel of a %s = %.1f° must be between 0 and %.0f°", ErrLaw, name, h.travel*180/math.Pi, 89-h.lean*180/math.Pi)
	}
	conductance, err := h.conductance(NewEdgeJet(h.LossOpen, h.Contraction, h.gap, h.travel), h.travel)
	if err != nil {
		return nil, err
	}
	load, err := h.Body.load(Plate{AtStop: h.load / h.seat, Stop: h.travel, Lean: h.lean}, conductance, h.travel, h.seat)
	if err != nil {
		return nil, err
	}
	l := &Law{
		Travel:      h.travel,
		Inertia:     h.inertia,
		Area:        h.seat * h.area(),
		Arm:         h.arm,
		Density:     h.Density,
		Conductance: conductance,
		Load:        load,
		Sweep:       Constant(h.seat * h.arm),
		Weight:      h.weight,
		Preload:     h.preload,
		SpringRate:  h.springRate,
		Damper:      h.Damper,
		Drag:        h.drag,
		Friction:    h.Friction,
		Leak:        h.Leak,
		Restitution: h.Restitution,
	}
	if err := l.Check(); err != nil {
		if h.Slope < 0 {
			return nil, fmt.Errorf("%w; the pipe falls in the direction of flow: a %s needs a level or rising pipe, or a spring", err, name)
		}
		return nil, err
	}
	return l, nil
}
