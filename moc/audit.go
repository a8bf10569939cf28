package moc

import (
	"math"

	"seatwise/moc/kernel"
	"seatwise/network/quantity"
)

// audit keeps the books of a run.
//
//   - Volume in the pipes: the trapezoidal storage of each line with the retarded strain of its wall, less its gas, must change by the trapezoidal integral of its end flows.
//   - Volume at the nodes: what continuity leaves over in each accepted sub-step.
//   - Volume in vessels, tanks and air pockets: what each keeps must change by the trapezoidal integral of the flow into it.
//   - Every head finite; none below vapour head outside a cavity.
//
// The residual is the sum of the first three relative to the volume passed.
type audit struct {
	stored float64 // at the start, m3
	in     float64 // integral of the end flows, m3
	passed float64 // integral of the greatest flow, m3
	lastIn float64
	most   float64 // greatest flow of a pipe at the last step, m3/s
	defect float64 // carried over from before a rebase, m3
}

// volumeBound is the greatest volume residual of a run, relative to the volume passed.
const volumeBound = 1e-9

func (a *audit) begin(r *run) {
	*a = audit{}
	a.stored = storage(r.lines)
	a.lastIn, a.most = ends(r.lines)
}

func storage(lines []*kernel.Line) float64 {
	s := 0.0
	for _, l := range lines {
		s += l.Storage()
	}
	return s
}

func ends(lines []*kernel.Line) (in, most float64) {
	for _, l := range lines {
		in += l.Left.Q - l.Right.Q
		most = math.Max(most, math.Max(math.Abs(l.Left.Q), math.Abs(l.Right.Q)))
	}
	return in, most
}

func (a *audit) step(r *run) {
	in, most := ends(r.lines)
	a.in += r.grid.dt / 2 * (a.lastIn + in)
	a.passed += r.grid.dt / 2 * (a.most + most)
	a.lastIn, a.most = in, most
}

// rebase starts the storage anew after a change of kernel.
func (a *audit) rebase(r *run) {
	a.defect += math.Abs(storage(r.kept.lines) - a.stored - a.in)
	a.stored, a.in = storage(r.lines), 0
}

// residual is the volume lost or made, relative to the volume passed.
func (a *audit) residual(r *run) float64 {
	lost := a.defect + math.Abs(storage(r.lines)-a.stored-a.in)
	for _, c := range r.clusters {
		lost += c.defect + math.Abs(c.unbooked)
	}
	// A network at rest passes nothing: relative to a thousandth of the liquid in its pipes.
	least := 0.0
	for _, c := range r.m.pipes {
		least += 1e-3 * c.area * c.length
	}
	return lost / math.Max(a.passed, least)
}

// check fails the run when a book does not balance.
func (a *audit) check(r *run) error {
	t := float64(r.step) * r.grid.dt
	for i, h := range r.heads {
		if math.IsNaN(h) || math.IsInf(h, 0) {
			return &PlaceError{ErrAudit, inWords(r.m.nodes[i].name), t, quantity.Say("the head is not a number")}
		}
		if n := &r.m.nodes[i]; !r.s.Liquid && !n.fixed && h < n.elevation+r.m.hvap-1e-6 {
			return &PlaceError{ErrAudit, inWords(n.name), t, quantity.Say("the head of %v is below vapour head (%v) where no cavity can form; give the pump a water length or a branch", quantity.Level(h), quantity.Level(n.elevation+r.m.hvap))}
		}
	}
	if v := a.residual(r); !(v < volumeBound) {
		return &PlaceError{ErrAudit, "the network", t, quantity.Say("the volume is out of balance by %.2g of the volume passed (bound %.0g)", v, volumeBound)}
	}
	return nil
}
