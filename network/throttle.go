package network

import (
	"fmt"
	"math"
)

// Throttle is a throttling valve with an opening that may change by schedule. How much it takes when fully open is given by one of Loss, Kv,
// KvTable and LossTable.
type Throttle struct {
	Name, From, To string
	Bore           float64    // m
	Elevation      float64    // m
	Loss           float64    // loss coefficient on the bore's velocity head when fully open; 0 without any of the other three: none
	Kv             float64    // flow of cold water, m3/h, at 1 bar when fully open (IEC 60534-1); 0: not given
	Inherent       Inherent   // of Loss or Kv over the opening
	KvTable        []Capacity // Kv over the opening
	LossTable      []Capacity // loss coefficient over the opening
	// Schedule is the opening against time, linear between points, constant outside; empty means open. 0 is shut.
	Schedule []Opening
}

// Inherent is the form in which the capacity of a throttling valve goes with its opening at the same pressure drop, see moc/device.
type Inherent uint8

// The inherent characteristics.
const (
	Linear          Inherent = iota // the opening is the effective area over that when open
	Quadratic                       // its square is
	EqualPercentage                 // equal steps of the opening change the capacity by equal ratios
)

var inherentWords = [...]string{"linear", "quadratic", "equal percentage"}

// String is the word for the form in a case file.
func (i Inherent) String() string {
	if int(i) < len(inherentWords) {
		return inherentWords[i]
	}
	return "unknown characteristic"
}

// Inherents are all inherent characteristics, in order.
func Inherents() []Inherent { return []Inherent{Linear, Quadratic, EqualPercentage} }

// Capacity is a row of a table over the opening.
type Capacity struct {
	Opening float64 // fraction of the travel
	Value   float64 // Kv or loss coefficient
}

// Opening is a point of a throttling valve's schedule.
type Opening struct {
	Time     float64 // s from the start of the run
	Fraction float64 // 0 shut to 1 open; of a linear characteristic the effective area over that when open
}

// UnitKv is the Kv of a valve with a loss coefficient of 1 on the velocity head of a bore, m. By the definition of Kv, a flow Q of cold water in
// m3/h at a drop of 1 bar (IEC 60534-1), with rho0 = 1000 kg/m3 and A the bore's area, m2,
//
//	1e5 Pa = K rho0/2 (Kv/(3600 A))^2,   so   Kv = 3600 A sqrt(2e5/(rho0 K))
func UnitKv(bore float64) float64 {
	const density = 1000
	return 3600 * math.Pi / 4 * bore * bore * math.Sqrt(2e5/density)
}

// LossWhenOpen is the loss coefficient on the bore's velocity head when fully open, in whatever form it is given.
func (t *Throttle) LossWhenOpen() float64 {
	kv := t.Kv
	switch n := len(t.KvTable); {
	case len(t.LossTable) > 0:
		return t.LossTable[len(t.LossTable)-1].Value
	case n > 0:
		kv = t.KvTable[n-1].Value
	case kv == 0:
		return t.Loss
	}
	r := UnitKv(t.Bore) / kv
	return r * r
}

// lossless tells whether it takes no head when open.
func (t *Throttle) lossless() bool {
	return t.Loss == 0 && t.Kv == 0 && len(t.KvTable) == 0 && len(t.LossTable) == 0
}

// Bounds of the loss coefficient of an open valve that is given by Kv or a table.
const (
	leastOpenLoss = 1e-4
	mostOpenLoss  = 1e9
)

func (c *checker) throttle(t *Throttle) {
	at := "throttling valves." + t.Name
	sound := c.positive(at+".bore", "bore", "m", t.Bore)
	c.finite(at+".elevation", "elevation", t.Elevation)
	sound = c.notNegative(at+".loss", "loss", "", t.Loss) && sound
	sound = c.notNegative(at+".kv", "kv", "", t.Kv) && sound
	sound = c.capacities(at+".kv table", t.KvTable, "kv", 1) && sound
	sound = c.capacities(at+".loss table", t.LossTable, "loss", -1) && sound
	if sound {
		c.given(at, t)
	}
	for i, o := range t.Schedule {
		row := fmt.Sprintf("%s.opening[%d]", at, i+1)
		c.finite(row+"[1]", "time", o.Time)
		if !(o.Fraction >= 0 && o.Fraction <= 1) {
			c.fault(row+"[2]", "give 0 % to 100 %", "opening is %s", c.show(row+"[2]", 100*o.Fraction, "%"))
		}
		if i > 0 && !(o.Time > t.Schedule[i-1].Time) {
			c.fault(row+"[1]", "sort the rows by time", "time does not increase: %s", c.follows(at+".opening", i, o.Time, t.Schedule[i-1].Time, "s"))
		}
	}
}

// given checks that the capacity is given once, and of a size that a valve of this bore can have.
func (c *checker) given(at string, t *Throttle) {
	var keys []string
	for _, k := range []struct {
		key string
		is  bool
	}{{"loss", t.Loss > 0}, {"kv", t.Kv > 0}, {"kv table", len(t.KvTable) > 0}, {"loss table", len(t.LossTable) > 0}} {
		if k.is {
			keys = append(keys, k.key)
		}
	}
	if len(keys) > 1 {
		c.fault(at+"."+keys[1], "give one of loss, kv, kv table and loss table", "the loss is given twice, by %s and by %s", keys[0], keys[1])
		return
	}
	if len(t.KvTable)+len(t.LossTable) > 0 && t.Inherent != Linear {
		c.fault(at+".inherent characteristic", "leave it out", "the table is the characteristic")
	}
	if k := t.LossWhenOpen(); len(keys) == 1 && keys[0] != "loss" && !(k >= leastOpenLoss && k <= mostOpenLoss) {
		c.fault(at+"."+keys[0], "on the velocity head of the bore, an open valve has 0.0001 to 1e9; kv is in m3/h of cold water at 1 bar",
			"the loss coefficient of the open valve would be %.3g", k)
	}
}

// capacities checks a table over the opening: rows that rise to 100 %, values above zero that rise (way 1) or fall (way -1) with the opening.
func (c *checker) capacities(at string, rows []Capacity, what string, way float64) bool {
	before := len(c.findings)
	goes := map[bool]string{true: "falls", false: "rises"}[way > 0]
	for i, r := range rows {
		row := fmt.Sprintf("%s[%d]", at, i+1)
		var last Capacity
		if i > 0 {
			last = rows[i-1]
		}
		switch {
		case !(r.Opening >= 0 && r.Opening <= 1):
			c.fault(row+"[1]", "give 0 % to 100 %", "opening is %s", c.show(row+"[1]", 100*r.Opening, "%"))
		case i > 0 && !(r.Opening > last.Opening):
			c.fault(row+"[1]", "sort the rows by opening and give each opening once", "opening does not increase: %s", c.follows(at, i, 100*r.Opening, 100*last.Opening, "%"))
		case r.Opening == 0 && way > 0 && r.Value == 0:
		case r.Opening == 0:
			c.fault(row+"[2]", "leave the row out", "the valve is shut at 0 %%, and the %s there is %s", what, c.show(row+"[2]", r.Value, ""))
		case !c.positive(row+"[2]", what, "", r.Value):
		case last.Opening > 0 && way*(r.Value-last.Value) < 0:
			c.fault(row+"[2]", "a valve that opens passes more", "the %s %s while the valve opens: %s follows %s", what, goes, c.show(row+"[2]", r.Value, ""),
				c.show(fmt.Sprintf("%s[%d][2]", at, i), last.Value, ""))
		}
	}
	if n := len(rows); n > 0 && len(c.findings) == before && rows[n-1].Opening != 1 {
		c.fault(fmt.Sprintf("%s[%d][1]", at, n), "give the row of the open valve, 100 %", "the last row is at %s", c.show(fmt.Sprintf("%s[%d][1]", at, n), 100*rows[n-1].Opening, "%"))
	}
	return len(c.findings) == before
}
