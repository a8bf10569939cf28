package moc

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/moc/device"
	"seatwise/network"
)

// spoilt is a device that is not what it should be from a time on.
type spoilt struct {
	device.Device
	from float64
	try  func(device.Equation) device.Equation // nil: as it is
	keep func(float64) float64                 // what it says it keeps; nil: as it is
	late bool
}

func (d *spoilt) Try(t, h, q, ha, hb float64) device.Equation {
	e := d.Device.Try(t, h, q, ha, hb)
	if d.late = t >= d.from; d.late && d.try != nil {
		return d.try(e)
	}
	return e
}

func (d *spoilt) Stored() float64 {
	s, ok := d.Device.(device.Store)
	switch {
	case !ok:
		return 0
	case d.late && d.keep != nil:
		return d.keep(s.Stored())
	}
	return s.Stored()
}

func (d *spoilt) Resume(q float64) {
	if s, ok := d.Device.(device.Store); ok {
		s.Resume(q)
	}
}

// everyDevice is a lift station that trips, with one device of each kind on its main; one of them is spoilt.
func everyDevice(t *testing.T) Problem {
	n := liftStation(t, 2)
	main := n.Pipes[0]
	main.Profile = []network.Point{{Elevation: 102}, {Chainage: 60, Elevation: 108}}
	part := func(name, from, to string) network.Pipe {
		p := main
		p.Name, p.From, p.To = name, from, to
		return p
	}
	n.Pipes = []network.Pipe{part("a", "header", "n1"), part("b", "n2", "n3"), part("c", "n4", "tower")}
	n.Throttles = []network.Throttle{{Name: "throttle", From: "n1", To: "n2", Bore: 0.7, Loss: 2, Elevation: 102}}
	n.Devices = []network.Device{
		&network.Orifice{Name: "orifice", From: "n3", To: "n4", PipeBore: 0.7, Bore: 0.5},
		&network.AirVessel{Name: "air-vessel", Node: "n1", Level: 103, Volume: 4, Gas: 1, Polytropic: 1.2, Bore: 0.3, LossIn: 1, LossOut: 0.5},
		&network.SurgeTank{Name: "surge-tank", Node: "n3", Area: 3, Bottom: 110, Overflow: 170, Bore: 0.3, LossIn: 1, LossOut: 0.5},
		&network.OneWayTank{Name: "one-way-tank", Node: "header", Area: 3, Bottom: 110, Level: 150, Bore: 0.3, LossOut: 2.5},
		&network.ReliefValve{Name: "relief-valve", Node: "n2", Elevation: 102, Set: 2e6, Area: 1e-3, Coefficient: 0.62},
		&network.RuptureDisc{Name: "rupture-disc", Node: "n2", Elevation: 102, Burst: 3e6, Area: 1e-3, Coefficient: 0.62},
		&network.AirValve{Name: "air-valve", Node: "n4", Elevation: 150.5, In: 1e-3, Out: 1e-4, CoefficientIn: 0.6, CoefficientOut: 0.6, Polytropic: 1, Temperature: 288},
		&network.Outlet{Name: "outlet", Node: "n4", Elevation: 102, Flow: 0.01, Pressure: 4e5},
	}
	return tripOne(t, n, "swing", 2)
}

// runSpoilt runs it to 2 s, with the audits of a run.
func runSpoilt(t *testing.T, link string, how spoilt) error {
	t.Helper()
	r := started(t, everyDevice(t), Settings{Liquid: true})
	how.from = 1.2
	found := false
	for _, c := range r.clusters {
		for i := range c.devs {
			if d := &c.devs[i]; r.m.links[d.link].name == link {
				how.Device, found = d.dev, true
				d.dev = &how
				if d.store != nil {
					d.store = &how
				}
			}
		}
	}
	require.True(t, found || link == "")
	for float64(r.step)*r.grid.dt < 2 {
		if err := r.advance(); err != nil {
			return err
		}
		if r.step%checkpointEvery == 0 {
			if err := r.audit.check(r); err != nil {
				return err
			}
		}
	}
	return r.audit.check(r)
}

// TestBrokenDevices: a device of any kind that gives no number, that has no answer, or that does not keep its books stops the run, which says where and
// when; the sound ones pass.
func TestBrokenDevices(t *testing.T) {
	require.NoError(t, runSpoilt(t, "", spoilt{}))
	kinds := map[string]bool{}
	for _, d := range everyDevice(t).Network.Devices {
		section, _ := d.Label()
		kinds[section] = true
	}
	require.Len(t, kinds, len(network.Kinds))
	for _, link := range []string{"lift/1/pump", "lift/1/check-valve", "throttle", "orifice", "air-vessel", "surge-tank", "one-way-tank", "relief-valve", "rupture-disc", "air-valve", "outlet"} {
		t.Run(link, func(t *testing.T) {
			stops := func(how spoilt, class error, want string) {
				err := runSpoilt(t, link, how)
				var place *PlaceError
				require.ErrorAs(t, err, &place)
				require.ErrorIs(t, err, class)
				require.ErrorContains(t, err, want)
				require.InDelta(t, 1.6, place.Time, 0.41)
			}
			stops(spoilt{try: func(e device.Equation) device.Equation { e.R = math.NaN(); return e }}, ErrConvergence, "could not be cut small enough")
			flip := 1.0
			stops(spoilt{try: func(e device.Equation) device.Equation { flip = -flip; e.R += flip; return e }}, ErrConvergence, "could not be cut small enough")
		})
	}
	for _, link := range []string{"air-vessel", "surge-tank", "one-way-tank", "air-valve"} {
		t.Run(link+" leaks", func(t *testing.T) {
			leak := 0.0
			err := runSpoilt(t, link, spoilt{keep: func(v float64) float64 { leak += 1e-9; return v - leak }})
			require.ErrorIs(t, err, ErrAudit)
			require.ErrorContains(t, err, "the volume is out of balance")
		})
	}
}
