package network

import "seatwise/network/pump"

// Inertia is the moment of inertia of pump and motor of a unit of the station, kg·m2, given or estimated. The error is that of a pump that cannot be.
func (n *Network) Inertia(s *Station) (float64, error) {
	p, err := pump.New(s.Pump, n.Fluid.Density, n.G())
	if err != nil {
		return 0, err
	}
	return p.Inertia, nil
}
