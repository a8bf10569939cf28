package device

import (
	"fmt"

	"seatwise/network"
)

// Surroundings are what devices need to know of the network.
type Surroundings struct {
	Gamma      float64 // rho g, Pa/m
	G          float64 // m/s2
	Atmosphere float64 // Pa
	Density    float64 // kg/m3
}

// Of returns the running device of a network's device.
func Of(d network.Device, s Surroundings) Device {
	switch d := d.(type) {
	case *network.AirVessel:
		return NewAirVessel(d, s.Gamma, s.G, s.Atmosphere)
	case *network.SurgeTank:
		return NewSurgeTank(d, s.G)
	case *network.OneWayTank:
		return NewOneWayTank(d, s.G)
	case *network.ReliefValve:
		return NewReliefValve(d, s.Gamma, s.G)
	case *network.RuptureDisc:
		return NewRuptureDisc(d, s.Gamma, s.G)
	case *network.AirValve:
		return NewAirValve(d, s.Gamma, s.Atmosphere)
	case *network.Orifice:
		return NewOrifice(d, s.G)
	case *network.Outlet:
		return NewOutlet(d, s.Gamma)
	}
	panic(fmt.Sprintf("device: no equation for %T", d))
}
