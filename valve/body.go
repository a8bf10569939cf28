package valve

import (
	"fmt"
	"math"
)

// Body is what all families with a disc have in common.
type Body struct {
	Bore     float64 // D, m
	Density  float64 // of the fluid, kg/m3
	Gravity  float64 // m/s2
	Slope    float64 // of the pipe, rad, positive where it rises in the direction of flow; pi/2 is vertical upflow
	LossOpen float64 // zeta on the stop, on the bore velocity

	Contraction float64 // Cc of the jet through the gap
	LossTable   Points  // zeta over opening, in place of the loss curve
	LoadTable   Points  // C over opening, in place of the load curve

	Damper      Damper
	Friction    float64
	Leak        float64
	Restitution float64
}

// open is the loss on the stop: the last row of the loss table when there is one.
func (b Body) open() float64 {
	if n := len(b.LossTable.Value); n > 0 {
		return b.LossTable.Value[n-1]
	}
	return b.LossOpen
}

func (b Body) area() float64 { return math.Pi / 4 * b.Bore * b.Bore }

// submerged is the share of the weight of a solid of the given density that the fluid does not carry.
func (b Body) submerged(solid float64) float64 { return 1 - b.Density/solid }

// check reports what all families need.
func (b Body) check() error {
	for name, t := range map[string]Points{"loss table": b.LossTable, "load table": b.LoadTable} {
		if len(t.Opening) != len(t.Value) {
			return fmt.Errorf("%w: %s: as many openings as values", ErrTable, name)
		}
	}
	for _, d := range []struct {
		name  string
		value float64
	}{{"bore", b.Bore}, {"density", b.Density}, {"gravity", b.Gravity}, {"loss when open", b.open()}, {"contraction", b.Contraction}} {
		if !(d.value > 0) || math.IsInf(d.value, 0) {
			return fmt.Errorf("%w: %s = %g must be above zero", ErrLaw, d.name, d.value)
		}
	}
	if !(math.Abs(b.Slope) <= math.Pi/2) {
		return fmt.Errorf("%w: slope = %g rad is beyond the vertical", ErrLaw, b.Slope)
	}
	return nil
}

// conductance is the loss table when given, otherwise the generic one.
func (b Body) conductance(generic Func, travel float64) (Func, error) {
	if len(b.LossTable.Opening) == 0 {
		return generic, nil
	}
	y, g := []float64{0}, []float64{0}
	for i, opening := range b.LossTable.Opening {
		zeta := b.LossTable.Value[i]
		if !(zeta > 0) {
			return nil, fmt.Errorf("%w: loss table, row %d: loss coefficient %g must be above zero", ErrTable, i+1, zeta)
		}
		if !(opening > 0 && opening <= 1) {
			return nil, fmt.Errorf("%w: loss table, row %d: opening %g must be above 0 and at most 1", ErrTable, i+1, opening)
		}
		if g[i] > 1/math.Sqrt(zeta) {
			return nil, fmt.Errorf("%w: loss table, row %d: the loss grows with the opening", ErrTable, i+1)
		}
		y, g = append(y, opening*travel), append(g, 1/math.Sqrt(zeta))
	}
	return NewTable(y, g)
}

// load is the load table when given, otherwise the form coefficient with the drop across the gap. Rows give C on the velocity head
// and area of the bore; seat is the seat area over that of the bore: kappa = C g^2/seat, and 1 on the seat. The form coefficient is on the seat area.
func (b Body) load(form, conductance Func, travel, seat float64) (Func, error) {
	if len(b.LoadTable.Opening) == 0 {
		return GapLoad{Form: form, Open: b.open(), Conductance: conductance}, nil
	}
	y, kappa := []float64{0}, []float64{1}
	for i, opening := range b.LoadTable.Opening {
		c := b.LoadTable.Value[i]
		if !(c > 0) {
			return nil, fmt.Errorf("%w: load table, row %d: load coefficient %g must be above zero", ErrTable, i+1, c)
		}
		if !(opening > 0 && opening <= 1) {
			return nil, fmt.Errorf("%w: load table, row %d: opening %g must be above 0 and at most 1", ErrTable, i+1, opening)
		}
		g, _ := conductance.At(opening * travel)
		y, kappa = append(y, opening*travel), append(kappa, c*g*g/seat)
	}
	return NewTable(y, kappa)
}
