package casefile_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network"
	"seatwise/valve/cost"
)

const money = `duty: {flow table: [[430 m3/h, 6000 h], [300 m3/h, 2000 h]], trips: 6}
economics: {currency: EUR, years: 15, discount rate: 5 %, energy price: 0.12, efficiency: 70 %, price of a swing valve: 4000, slam damage: [[0.15 m/s, 500], [30 cm/s, 4000]]}
limits:
`

func TestEconomics(t *testing.T) {
	require.Nil(t, read(t, lift(t)).Economics)
	c := read(t, replaced(t, "limits:\n", money, "{type: swing, size: DN250}", "{type: swing, size: DN250, price amount: 3900, upkeep: 2 %}"))
	e := c.Economics
	require.Equal(t, cost.Terms{Currency: "EUR", Years: 15, Rate: 0.05, EnergyPrice: 0.12, Efficiency: 0.7, SwingPrice: 4000, Trips: 6,
		Duty:   []cost.Run{{Flow: 430. / 3600, Time: 6000 * 3600}, {Flow: 300. / 3600, Time: 2000 * 3600}},
		Damage: []cost.Slam{{Velocity: 0.15, Amount: 500}, {Velocity: 0.3, Amount: 4000}}}, e.Terms)
	require.Len(t, e.Offers, 1)
	require.Equal(t, []float64{3900, 0.02}, []float64{*e.Offers["plain-swing"].Price, *e.Offers["plain-swing"].Upkeep})

	c = read(t, replaced(t, "limits:\n", "economics: {energy price: 0.1, slam damage: [[0.1 m/s, 10]]}\nlimits:\n"))
	require.Equal(t, []float64{20, 0.06, 0.75}, []float64{c.Economics.Years, c.Economics.Rate, c.Economics.Efficiency})
	require.Contains(t, c.Assumptions, "economics: years 20 (common practice)")
	require.Len(t, c.Warnings, 2, "no flow table and no trips")
}

func TestEconomicsFaults(t *testing.T) {
	for line, want := range map[string]string{
		"economics: {years: 0}":                                            "economics.years is 0",
		"economics: {discount rate: 120 %}":                                "give 0 % to 100 %",
		"economics: {energy price: -1}":                                    "economics.energy price is -1",
		"economics: {efficiency: 0 %}":                                     "give 1 % to 100 %",
		"economics: {slam damage: [[0.3 m/s, 10], [0.2 m/s, 20]]}":         "reverse velocities do not rise",
		"economics: {energy prize: 1}":                                     `did you mean "energy price"?`,
		"duty: {flow table: [[1 m3/h, 9000 h]]}":                           "a year has 8760 h",
		"duty: {flow table: [[-1 m3/h, 90 h]]}":                            "a flow or a time below zero",
		"duty: {trips: -2}":                                                "duty.trips is -2",
		"economics: {years: 10, currency: EUR, price of a swing valve: x}": "economics.price of a swing valve",
	} {
		require.Contains(t, complaint(replaced(t, "limits:\n", line+"\nlimits:\n")), want, line)
	}
	require.Contains(t, complaint(replaced(t, "{type: swing, size: DN250}", "{type: swing, size: DN250, upkeep: 200 %}")), "candidates.plain-swing.upkeep is 200 %")
}

func TestDuty(t *testing.T) {
	require.Nil(t, read(t, lift(t)).Duty)
	c := read(t, replaced(t, "limits:\n", "duty: {starts: 900, trips: 4, minimum flow: 200 m3/h, normal flow: 430 m3/h, maximum flow: 480 m3/h, flow fluctuation: 6 %, fluctuation frequency: 90 1/min}\nlimits:\n",
		"    elevation: 102.0 m", "    upstream: {fitting: two bends out of plane, distance: 20 in}\n    elevation: 102.0 m"))
	d := c.Duty
	require.Equal(t, []float64{900, 4, 200. / 3600, 430. / 3600, 480. / 3600, 0.06, 1.5}, []float64{d.Starts, d.Trips, *d.MinimumFlow, *d.NormalFlow, *d.MaximumFlow, *d.Fluctuation, *d.Frequency})
	require.Equal(t, network.Upstream{Fitting: "two bends out of plane", Distance: 0.508}, c.Scenarios[0].Network.Stations[0].Upstream)
	require.Empty(t, c.Warnings)
	require.Nil(t, c.Economics)

	c = read(t, replaced(t, "limits:\n", "duty: {fluctuation frequency: 2 Hz, minimum flow: 430 m3/h, normal flow: 430 m3/h, maximum flow: 430 m3/h}\nlimits:\n"))
	require.Contains(t, c.Warnings[0], "there is no flow fluctuation")
	c = read(t, replaced(t, "pipes:\n", "check valves: {line: {from: header, to: line, elevation: 102 m, upstream: {fitting: tee, distance: 0 m}}}\npipes:\n", "    from: header\n    to: tower", "    from: line\n    to: tower"))
	require.Equal(t, network.Upstream{Fitting: "tee"}, c.Scenarios[0].Network.CheckValves[0].Upstream)
}
