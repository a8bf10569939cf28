// Package cost is what a check valve costs over its life: purchase, the energy of its pressure drop, upkeep and the damage of slam. Amounts are in
// one currency, whichever it is; the package knows none.
package cost

import "math"

const (
	gravity     = 9.80665 // m/s2
	wattPerKilo = 1000
	hour        = 3600 // s
)

// Terms are what the money of an installation is reckoned by.
type Terms struct {
	Currency    string
	Years       float64
	Rate        float64 // discount rate a year, fraction
	EnergyPrice float64 // per kWh
	Efficiency  float64 // of pump and motor together, fraction
	SwingPrice  float64 // of a plain swing valve of the same size; 0: not given
	Duty        []Run   // flow through one valve over a year; none: no energy is reckoned
	Trips       float64 // a year
	Damage      []Slam  // by rising reverse velocity; none: slam costs nothing
}

// Run is a flow through one valve, m3/s, and for how long of a year, s.
type Run struct{ Flow, Time float64 }

// Slam is what one slam costs from a reverse velocity upwards, m/s.
type Slam struct{ Velocity, Amount float64 }

// Annuity is the present value of one unit of money at the end of each of n years, a = (1 - (1+i)^-n)/i, and n where the discount rate i is zero.
// Textbook formula of the uniform-series present worth; each year's amount falls due at the end of that year, and prices do not rise.
func Annuity(i, n float64) float64 {
	if i == 0 {
		return n
	}
	return -math.Expm1(-n*math.Log1p(i)) / i
}

// Annuity is the present value of one unit of money a year over the years of the terms.
func (t Terms) Annuity() float64 { return Annuity(t.Rate, t.Years) }

// EnergyCost is C_E = rho g Q h_v t c_e/(1000 eta) for the head loss h_v, m, of a flow Q, m3/s, of density rho, kg/m3, over t hours, at the price c_e
// per kWh and the efficiency eta of pump and motor. The pump's duty point is taken as the same with every valve.
func EnergyCost(rho, q, h, t, c, eta float64) float64 {
	return rho * gravity * q * h * t * c / (wattPerKilo * eta)
}

// OneSlam is the damage of one slam at a reverse velocity, m/s: that of the highest class reached.
func (t Terms) OneSlam(v float64) float64 {
	var amount float64
	for _, s := range t.Damage {
		if v >= s.Velocity {
			amount = s.Amount
		}
	}
	return amount
}

// Cost is what one valve costs: the purchase once, the rest a year, and all of it as present value.
type Cost struct {
	Purchase             float64
	Energy, Upkeep, Slam float64 // a year
	Present              float64 // of all, over the years
}

// Of puts together the cost of a valve: its price, its upkeep as a fraction of the price a year, the head loss at a flow, m, of a liquid of density
// rho, kg/m3, and the greatest reverse velocity, m/s.
func (t Terms) Of(price, upkeep, rho float64, loss func(q float64) float64, reverse float64) Cost {
	c := Cost{Purchase: price, Upkeep: price * upkeep, Slam: t.Trips * t.OneSlam(reverse)}
	for _, d := range t.Duty {
		if d.Flow > 0 {
			c.Energy += EnergyCost(rho, d.Flow, loss(d.Flow), d.Time/hour, t.EnergyPrice, t.Efficiency)
		}
	}
	c.Present = c.Purchase + t.Annuity()*(c.Energy+c.Upkeep+c.Slam)
	return c
}

// SlamAtPar is the damage of one slam of valve a from which valve b, at its own cost, is the cheaper one. It is false where a has no slam to pay for
// or b is cheaper whatever the damage.
func (t Terms) SlamAtPar(a, b Cost) (float64, bool) {
	if t.Trips <= 0 {
		return 0, false
	}
	f := t.Annuity()
	x := (b.Present - (a.Present - f*a.Slam)) / (f * t.Trips)
	return x, x > 0 && !math.IsInf(x, 0)
}

// EnergyAtPar is the price of energy per kWh at which a and b cost the same. It is false where no positive price does that.
func (t Terms) EnergyAtPar(a, b Cost) (float64, bool) {
	if t.EnergyPrice <= 0 || a.Energy == b.Energy {
		return 0, false
	}
	f := t.Annuity()
	rest := (a.Present - f*a.Energy) - (b.Present - f*b.Energy)
	x := rest / (f * (b.Energy - a.Energy) / t.EnergyPrice)
	return x, x > 0 && !math.IsInf(x, 0)
}

// Range is the least and greatest present value of a valve whose price, and with it its upkeep, may be a fraction s lower or higher.
func (t Terms) Range(c Cost, s float64) (low, high float64) {
	d := s * (c.Purchase + t.Annuity()*c.Upkeep)
	return c.Present - d, c.Present + d
}

// PriceAtPar is the purchase of valve b at which a and b cost the same, its upkeep being the same share of the price. It is false where b costs more
// than a at any price, or has no price to vary.
func (t Terms) PriceAtPar(a, b Cost) (float64, bool) {
	f := t.Annuity()
	byPrice := b.Purchase + f*b.Upkeep
	if byPrice <= 0 {
		return 0, false
	}
	x := b.Purchase * (a.Present - (b.Present - byPrice)) / byPrice
	return x, x > 0 && !math.IsInf(x, 0)
}
