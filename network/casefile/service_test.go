package casefile_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve/service"
)

func TestService(t *testing.T) {
	require.Zero(t, read(t, lift(t)).Service)
	c := read(t, replaced(t, "limits:\n", "service: {dirty: yes, piggable: no, pulsation: yes, reverse rotation: not allowed, backflow: harmless}\nlimits:\n"))
	require.Equal(t, service.Service{Dirty: true, Pulsation: true, NoRotation: true, Harmless: true}, c.Service)
	require.Zero(t, read(t, replaced(t, "limits:\n", "service: {dirty: no, piggable: no, pulsation: no, reverse rotation: allowed, backflow: harmful}\nlimits:\n")).Service)
}

func TestServiceFaults(t *testing.T) {
	for line, want := range map[string]string{
		"service: {dirty: maybe}":                `service.dirty: there is no "maybe"`,
		"service: {reverse rotation: forbidden}": "one of: not allowed, allowed",
		"service: {backflow: harmles}":           `did you mean "harmless"?`,
		"service: {pigable: yes}":                `did you mean "piggable"?`,
		"service: dirty":                         "service is a text, keys with values are wanted",
	} {
		require.Contains(t, complaint(replaced(t, "limits:\n", line+"\nlimits:\n")), want, line)
	}
}
