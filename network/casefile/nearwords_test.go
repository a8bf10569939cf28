package casefile_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network/casefile"
)

// TestNearWords: words of the trade for keys and units, and amounts with a unit, are answered with what is to be written.
func TestNearWords(t *testing.T) {
	raw, err := examples.Files.ReadFile("lift-station.yaml")
	require.NoError(t, err)
	for _, c := range []struct{ path, value, hint string }{
		{"pipes.rising-main.diameter", "300 mm", `did you mean "bore"?`},
		{"economics.discount", "5 %", `did you mean "discount rate"?`},
		{"economics.discount rate", "5", "write 5 %"},
		{"economics.discount rate", "500", "give 0 % to 100 %"},
		{"economics.energy price", "0.2 EUR/kWh", "write 0.2: per kWh, in the currency of the case"},
		{"stations.lift.pump.rated.flow", "180 cbm/h", "did you mean m3/h?"},
		{"events[1].stop", "lift", `did you mean "trip" (a pump that fails)?`},
	} {
		doc, err := casefile.Read("case.yaml", raw, examples.Files.ReadFile)
		require.NoError(t, err)
		changed, err := doc.With(c.path, c.value)
		if err == nil {
			_, err = changed.Case()
		}
		require.ErrorContains(t, err, "hint: "+c.hint, c.path)
	}
}
