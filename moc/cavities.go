package moc

import (
	"fmt"

	"seatwise/moc/kernel"
)

// Cavities is how the liquid parts where the pressure falls to that of vapour.
type Cavities uint8

const (
	GasCavity    Cavities = iota // in cavities that hold a little free gas
	VapourCavity                 // in cavities of vapour alone, which open and close at once
)

var cavityWords = [...]string{"gas", "vapour"}

// String is the word for the form in a case file.
func (c Cavities) String() string { return cavityWords[c] }

// CavityForms are all forms, in order.
func CavityForms() []Cavities { return []Cavities{GasCavity, VapourCavity} }

// usualGas is the free gas of a gas cavity at atmospheric pressure, as a fraction of the volume.
const usualGas = 1e-7

// part gives pipe i cavities from its present state on.
func (r *run) part(i int) {
	l, hv := r.lines[i], r.vapour[i]
	if r.s.Cavities == VapourCavity {
		l.Vapour(hv)
		return
	}
	alpha := r.s.GasFraction
	if alpha == 0 {
		alpha = usualGas
	}
	c := &r.m.pipes[i]
	l.Gas(alpha*c.area*c.a*r.grid.dt*r.m.net.Atmosphere/r.m.gamma, hv)
}

// low tells whether a pipe without cavities came near vapour head.
func (r *run) low() bool {
	for _, l := range r.lines {
		if l.Low && !l.HasCavities() {
			return true
		}
	}
	return false
}

// cavitate lets cavities into the pipes that came near vapour head, from the last checkpoint on.
func (r *run) cavitate() {
	var which []int
	for i, l := range r.lines {
		if l.Low && !l.HasCavities() {
			which = append(which, i)
		}
	}
	r.restore()
	for _, i := range which {
		r.part(i)
	}
	if r.cavityAt < 0 {
		r.cavityAt = float64(r.step) * r.grid.dt
	}
	r.audit.rebase(r)
	r.keep()
}

// kernelName says in words which kernels ran.
func (r *run) kernelName() string {
	if r.cavityAt < 0 {
		return "liquid (" + kernel.Name() + ")"
	}
	n, of := 0, len(r.lines)
	for _, l := range r.lines {
		if l.HasCavities() {
			n++
		}
	}
	return fmt.Sprintf("liquid ("+kernel.Name()+"); from %.3g s %s cavities in %d of %d pipes", r.cavityAt, r.s.Cavities, n, of)
}
