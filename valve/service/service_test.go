package service_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/valve/catalogue"
	"seatwise/valve/service"
)

// left are the types that a service leaves, in the order of the catalogue.
func left(s service.Service, damped bool) []string {
	var out []string
	for _, f := range catalogue.Families() {
		if len(s.Against(service.Valve{Type: f.Name, Damped: damped})) == 0 {
			out = append(out, f.Name)
		}
	}
	return out
}

func TestAgainst(t *testing.T) {
	swings := []string{"swing", "swing heavy", "swing lever", "swing spring", "swing dashpot"}
	bounds := []string{"ideal", "measured"}
	require.Equal(t, append(append(append([]string{}, swings...), "flap", "ball"), bounds...), left(service.Service{Dirty: true}, false))
	require.Equal(t, append([]string{"swing", "swing lever", "swing spring", "swing dashpot"}, bounds...), left(service.Service{Piggable: true}, false), "the heavy body is not of full bore")
	pigs := service.Service{Piggable: true}
	require.Contains(t, pigs.Asks(service.Valve{Type: "swing"}, 0), "must clear the bore")
	require.NotEmpty(t, pigs.Asks(service.Valve{Type: "swing spring"}, 1.2))
	require.Empty(t, pigs.Asks(service.Valve{Type: "swing"}, 1.5))
	require.Empty(t, pigs.Asks(service.Valve{Type: "swing heavy"}, 0), "it is ruled out")
	require.Empty(t, service.Service{}.Asks(service.Valve{Type: "swing"}, 0))
	require.Equal(t, append([]string{"swing dashpot", "lift"}, bounds...), left(service.Service{Pulsation: true}, false))
	require.Equal(t, append([]string{"swing dashpot"}, bounds...), left(service.Service{Pulsation: true, Dirty: true}, false))
	require.Equal(t, left(service.Service{}, false), left(service.Service{Pulsation: true}, true), "a damper answers to pulsation")
	all := len(catalogue.Families())
	require.Len(t, left(service.Service{}, false), all)
	require.Len(t, left(service.Service{NoRotation: true, Harmless: true}, false), all, "these change the demand, not the types")
	require.Len(t, service.Service{Dirty: true, Piggable: true, Pulsation: true}.Against(service.Valve{Type: "nozzle"}), 3)
}
