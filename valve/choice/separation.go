package choice

import (
	"fmt"
	"math"

	"seatwise/moc"
	"seatwise/network"
	"seatwise/network/quantity"
)

// separated is the volume of a cavity over that of its column above which the liquid counts as separated.
const separated = 1e-5

// separation warns of cavities on the pump side of the check valves, each station once with the worst of its units.
func separation(n *network.Network, columns []moc.ColumnTrace, s Settings) []string {
	var out []string
	for i := range n.Stations {
		st := &n.Stations[i]
		cavity, highest := 0.0, 0.0
		for _, c := range columns {
			if c.Station == st.Name {
				cavity, highest = math.Max(cavity, c.Cavity), math.Max(highest, c.Highest)
			}
		}
		if cavity <= separated*st.Column.Length*area(st.Column.Bore) {
			continue
		}
		out = append(out, fmt.Sprintf("%s: the liquid on the pump side of the check valve separates when the disc stops it: a cavity of up to %s, and up to %s when it closes; "+
			"pump and suction are modelled as one column, so this is an order of magnitude; it may drive later reopenings and the pressures after the slam",
			st.Name, s.write(cavity, quantity.Volume), s.write(highest*n.Fluid.Density*n.G(), quantity.Pressure)))
	}
	return out
}
