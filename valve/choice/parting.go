package choice

import (
	"fmt"

	"seatwise/moc"
	"seatwise/network/quantity"
)

// rejoining is the caution on what follows a cavity.
const rejoining = "where columns of liquid rejoin, pressures scatter, in calculations as in tests: take the peaks that follow as estimates"

// parting says which model of cavities was used, and what its figures are worth.
func parting(form moc.Cavities) string {
	if form == moc.VapourCavity {
		return "cavities form, modelled as vapour without gas; " + rejoining + "; where many small ones close one by one along a pipe they send pulses that are " +
			"of the grid and not of the liquid, and may show in the reverse velocity and the slam too; the numerical error does not tell how another model would " +
			"differ: compare with gas cavities (run: {cavities: gas})"
	}
	return "cavities form, modelled as vapour with a little free gas; " + rejoining
}

// crowding is the share of a cavity in the volume of its reach beyond which it is told (common practice): a cavity takes no room in the model.
const crowding = 0.1

// crowded warns of the cavity that is the greatest beside its reach; "" when that is small.
func (e *extremes) crowded(s Settings) string {
	if e.share <= crowding {
		return ""
	}
	times := fmt.Sprintf("%.0f %% of", 100*e.share)
	if e.share >= 1 {
		times = fmt.Sprintf("%.2g times", e.share)
	}
	return fmt.Sprintf("a cavity grows to %s (%s, %s): %s the volume of a reach of the grid there, %s; above %g %% the time at which it closes and the "+
		"pressure that follows are less sure, on a finer grid too", s.write(e.shareOf, quantity.Volume), e.shareSpot.Place, seconds(e.shareSpot.Time, s),
		times, s.write(e.shareReach, quantity.Volume), 100*crowding)
}
