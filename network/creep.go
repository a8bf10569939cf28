package network

import "fmt"

// Creep is how the wall of a plastic pipe goes on stretching under load, beyond the elastic strain that sets the wave speed: Kelvin's and Voigt's
// elements in series, J(t) = J_0 + sum of J_k (1 - exp(-t/tau_k)), J_0 = 1/E. The zero value is an elastic wall.
type Creep struct {
	Elements []CreepElement // at most [MaxCreep], by rising time
	Stretch  float64        // c1 D/e of the wall: the bore area grows by the fraction Stretch J p under the pressure p
}

// CreepElement is one of them.
type CreepElement struct {
	Compliance float64 // J_k, 1/Pa
	Time       float64 // retardation time tau_k, s
}

// Bounds of what is taken for creep.
const (
	MaxCreep        = 5    // elements
	maxCompliance   = 1e-6 // 1/Pa, that of rubber; more is a slip of the unit
	leastRetarding  = 1e-4 // s; what is faster is elastic for every wave of a pipe
	greatestStretch = 1e4  // bore over wall
)

func (c *checker) creep(at string, k *Creep) {
	if len(k.Elements) == 0 {
		return
	}
	at += ".creep"
	if n := len(k.Elements); n > MaxCreep {
		c.fault(at, "more elements say nothing that was measured: join those of like retardation time", "the creep has %d elements, at most %d are taken", n, MaxCreep)
	}
	if !(k.Stretch > 0 && k.Stretch < greatestStretch) {
		c.fault(at, "give bore and wall", "the ratio of bore to wall, with its factor of restraint, is %.4g", k.Stretch)
	}
	for i, e := range k.Elements {
		row := fmt.Sprintf("%s[%d]", at, i+1)
		if c.positive(row+"[1]", "compliance", "1/Pa", e.Compliance) && e.Compliance > maxCompliance {
			c.fault(row+"[1]", "a plastic has some 0.01 to 1 1/GPa", "compliance is %s", c.show(row+"[1]", e.Compliance, "1/Pa"))
		}
		if !c.positive(row+"[2]", "retardation time", "s", e.Time) {
			continue
		}
		if e.Time < leastRetarding {
			c.fault(row+"[2]", "what creeps so fast is elastic: leave the row out and give modulus as 1/(1/E + compliance)", "retardation time is %s", c.show(row+"[2]", e.Time, "s"))
		}
		if i > 0 && !(e.Time > k.Elements[i-1].Time) {
			c.fault(row+"[2]", "sort the rows by retardation time and give each once", "retardation time does not increase: %s follows %s",
				c.show(row+"[2]", e.Time, "s"), c.show(fmt.Sprintf("%s[%d][2]", at, i), k.Elements[i-1].Time, "s"))
		}
	}
}
