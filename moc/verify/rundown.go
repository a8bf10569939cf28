package verify

import (
	"context"
	"fmt"
	"math"

	"seatwise/moc/device"
	"seatwise/network"
	"seatwise/network/pump"
)

func rundown() []Case {
	return []Case{{"A9", Solver, "closed form, derived: rotor under a torque proportional to N^2, N = N0/(1 + t/tau), tau = I w0^2/P0", rotorChecks}}
}

// rotorChecks let a pump of 200 kW at shut-off run down. At zero flow the torque of any pump is proportional to the square of
// its speed. It is a check of the device: a run would not start with a pump that delivers nothing.
func rotorChecks(context.Context) ([]Check, error) {
	const power, rpm, inertia, step = 200e3, 1480.0, 8.0, 0.005
	w0 := rpm * math.Pi / 30
	spec := pump.Spec{Flow: 0.2, Head: 40, Speed: w0, Efficiency: 0.8, SpecificSpeed: 35, Inertia: inertia}
	p, err := pump.New(spec, 998.2, network.Gravity)
	if err != nil {
		return nil, err
	}
	shut, _, _ := p.Torque(0, w0)
	spec.Head *= power / w0 / shut // torque is proportional to the rated head
	if p, err = pump.New(spec, 998.2, network.Gravity); err != nil {
		return nil, err
	}
	d := device.NewPump(p)
	d.Trip = 0
	d.Start(0, 0, 0)
	checks := []Check{
		ratio("rated speed", "rad/s", 154.985, w0, 1e-5),
		ratio("torque at the trip", "N m", 1290.45, d.Power()/d.Speed(), 1e-5),
	}
	work := 0.0
	at := map[int]float64{1: 725.21, 2: 480.28, 5: 238.56, 10: 129.74}
	for k := 1; k <= 2000; k++ {
		before := d.Power()
		d.Try(float64(k-1)*step, step, 0, 0, 0)
		d.Accept(float64(k-1)*step, step, 0, 0, 0)
		work += step / 2 * (before + d.Power())
		if want, ok := at[int(float64(k)*step)]; ok && k%200 == 0 {
			checks = append(checks, ratio(fmt.Sprintf("speed %g s after the trip", float64(k)*step), "rpm", want, d.Speed()*30/math.Pi, 1e-3))
		}
	}
	left := inertia / 2 * d.Speed() * d.Speed()
	return append(checks, ratio("energy of the rotor, given off and left", "kJ", 96.08, (work+left)/1e3, 1e-3)), nil
}
