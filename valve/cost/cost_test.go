package cost

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Uniform-series present worth factors of the tables of engineering economy (from memory): 10 % over 10 years, 6 % over 20 years.
func TestAnnuity(t *testing.T) {
	require.InDelta(t, 6.1446, Annuity(0.10, 10), 5e-5)
	require.InDelta(t, 11.4699, Annuity(0.06, 20), 5e-5)
	require.InDelta(t, 1/1.07, Annuity(0.07, 1), 1e-12)
	require.Equal(t, 15.0, Annuity(0, 15))
	require.InDelta(t, 15, Annuity(1e-9, 15), 1e-6, "no jump near zero")
}

// Two air-conditioning units over ten years at 8 %, by future cost: Engineering Fundamentals, An Introduction to Engineering, 4th ed. 2010, ch. 20 (by
// S. Moaveni, the author from memory), pages 672 and 674 as read. A costs 100 000, then 2500 + 1000 a year, and is sold for 10 000; B 85 000, 3400 + 1200 and
// 5000. The book's future costs are 256 595.46 and 245 146.81, its (P/A, 8 %, 4) is 3.31212684. What is got back at the end is no cost of a valve and is
// taken off here.
func TestTextbookAlternatives(t *testing.T) {
	require.InDelta(t, 3.31212684, Annuity(0.08, 4), 1e-8)
	terms := Terms{Years: 10, Rate: 0.08}
	for _, x := range []struct{ first, yearly, salvage, future float64 }{{100000, 3500, 10000, 256595.46}, {85000, 4600, 5000, 245146.81}} {
		c := terms.Of(x.first, x.yearly/x.first, 1000, nil, 0)
		require.InDelta(t, x.future, c.Present*math.Pow(1.08, 10)-x.salvage, 0.01)
	}
}

// Reckoned anew at the ends of the band, and at the price of par, the costs are those that were foretold.
func TestRange(t *testing.T) {
	s := terms()
	of := func(price, zeta float64) Cost {
		return s.Of(price, 0.02, 1000, func(q float64) float64 { return zeta * q * q }, 0.2)
	}
	b := of(9000, 90)
	low, high := s.Range(b, 0.4)
	require.InDelta(t, of(0.6*9000, 90).Present, low, 1e-6)
	require.InDelta(t, of(1.4*9000, 90).Present, high, 1e-6)
	a := of(12000, 50)
	x, ok := s.PriceAtPar(a, b)
	require.True(t, ok)
	require.InDelta(t, a.Present, of(x, 90).Present, 1e-6)
	_, ok = s.PriceAtPar(of(100, 10), of(9000, 9000))
	require.False(t, ok, "its energy alone costs more")
	_, ok = s.PriceAtPar(a, Cost{})
	require.False(t, ok, "it has no price")
}

// 0.1 m3/s of water, 1 m of head, 8000 h, 75 %, 0.10 per kWh: 1000 x 9.81 x 0.1 x 1 x 8000 x 0.1/750 = 1046.4 a year, by g = 9.81.
func TestEnergyCost(t *testing.T) {
	require.InDelta(t, 1046.4*gravity/9.81, EnergyCost(1000, 0.1, 1, 8000, 0.10, 0.75), 1e-9)
}

func terms() Terms {
	return Terms{Years: 20, Rate: 0.06, EnergyPrice: 0.1, Efficiency: 0.75, Trips: 6, Damage: []Slam{{0.15, 500}, {0.3, 4000}},
		Duty: []Run{{0.1, 6000 * hour}, {0.05, 2000 * hour}}}
}

func TestSlamClasses(t *testing.T) {
	for v, want := range map[float64]float64{0: 0, 0.149: 0, 0.15: 500, 0.29: 500, 0.3: 4000, 2: 4000} {
		require.Equal(t, want, terms().OneSlam(v), v)
	}
}

// The parts by hand: h = 100 Q2, that is 1 m at 0.1 m3/s and 0.25 m at 0.05 m3/s.
func TestMakeUp(t *testing.T) {
	c := terms().Of(4000, 0.025, 1000, func(q float64) float64 { return 100 * q * q }, 0.2)
	energy := gravity * (0.1*1*6000 + 0.05*0.25*2000) * 0.1 / 0.75
	require.InDelta(t, energy, c.Energy, 1e-9)
	require.InDelta(t, 100, c.Upkeep, 1e-9)
	require.Equal(t, 3000.0, c.Slam)
	require.InDelta(t, 4000+Annuity(0.06, 20)*(energy+3100), c.Present, 1e-9)
}

// At the price of par both cost the same when they are reckoned anew; where there is none it is said.
func TestPar(t *testing.T) {
	s := terms()
	of := func(s Terms, price, zeta, v float64) Cost {
		return s.Of(price, 0.02, 1000, func(q float64) float64 { return zeta * q * q }, v)
	}
	a, b := of(s, 4000, 50, 0.2), of(s, 9000, 90, 0.1)
	x, ok := s.SlamAtPar(a, b)
	require.True(t, ok)
	at := s
	at.Damage = []Slam{{0.15, x}}
	require.InDelta(t, of(at, 9000, 90, 0.1).Present, of(at, 4000, 50, 0.2).Present, 1e-6)

	x, ok = s.EnergyAtPar(a, b)
	require.True(t, ok)
	at = s
	at.EnergyPrice = x
	require.InDelta(t, of(at, 9000, 90, 0.1).Present, of(at, 4000, 50, 0.2).Present, 1e-6)

	_, ok = s.SlamAtPar(b, of(s, 100, 10, 0))
	require.False(t, ok, "the other one is cheaper without any slam")
	_, ok = s.EnergyAtPar(a, of(s, 9000, 50, 0.2))
	require.False(t, ok, "the same energy")
	_, ok = s.EnergyAtPar(a, of(s, 9000, 90, 0.2))
	require.False(t, ok, "dearer in everything")
	s.Trips = 0
	_, ok = s.SlamAtPar(a, b)
	require.False(t, ok)
}
