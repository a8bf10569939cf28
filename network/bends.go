package network

import (
	"fmt"
	"slices"
)

// Runs are the straight runs, from and to in m, of a pipe of some length with bends at some chainages. A bend is where the pipe changes its direction:
// there, and at the ends of the pipe, the liquid thrusts on the pipe along its axis. A pipe of which no bend is told has no runs; a straight one is told by a
// bend at 0. Chainages outside of the pipe are passed over.
//
// An anchor within a straight run is no bend: the liquid does not push on it, it holds what pushes at the ends of the run. Where a straight run goes
// on in the next pipe, the forces on both parts add up.
func Runs(length float64, bends []float64) [][2]float64 {
	if len(bends) == 0 {
		return nil
	}
	marks := []float64{0, length}
	for _, x := range bends {
		if x > 0 && x < length {
			marks = append(marks, x)
		}
	}
	slices.Sort(marks)
	var runs [][2]float64
	for i, x := range marks[1:] {
		if x > marks[i] {
			runs = append(runs, [2]float64{marks[i], x})
		}
	}
	return runs
}

// Runs is the number of straight runs in all pipes and in the branches of all units; none in no network.
func (n *Network) Runs() int {
	if n == nil {
		return 0
	}
	count := 0
	for i := range n.Pipes {
		if p := &n.Pipes[i]; len(p.Profile) > 0 {
			count += len(Runs(p.Length(), p.Bends))
		}
	}
	for _, s := range n.Stations {
		if s.Branch != nil {
			count += s.Units * len(Runs(s.Branch.Length, s.Branch.Bends))
		}
	}
	return count
}

// maxRuns bounds the straight runs of an installation: each has a force at every step.
const maxRuns = 1000

// bends checks the chainages of the bends of a pipe of some length, m, which stands at the path end; 0 where it is not known.
func (c *checker) bends(at, end string, length float64, bends []float64) {
	at += ".bends"
	for i, x := range bends {
		one := fmt.Sprintf("%s[%d]", at, i+1)
		switch {
		case !c.finite(one, "chainage", x):
			return
		case x < 0 || length > 0 && x > length*(1+1e-9):
			c.fault(one, "chainage is the distance from where the pipe begins, "+c.show(end, length, "m")+" at its end", "the bend is outside of the pipe: chainage %s", c.show(one, x, "m"))
		case i > 0 && x <= bends[i-1]:
			c.fault(one, "sort the bends by chainage and give each once", "chainage does not increase: %s follows %s", c.show(one, x, "m"), c.show(fmt.Sprintf("%s[%d]", at, i), bends[i-1], "m"))
		}
	}
}

// runs checks the number of straight runs.
func (c *checker) runs(n *Network) {
	if count := n.Runs(); count > maxRuns {
		c.fault("pipes", fmt.Sprintf("give the bends of the pipes that matter; at most %d runs", maxRuns), "the bends make %d straight runs", count)
	}
}
