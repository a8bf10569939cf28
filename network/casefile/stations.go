package casefile

import (
	"fmt"
	"strings"

	"seatwise/network"
	"seatwise/network/pump"
	"seatwise/network/quantity"
)

// stations reads the section stations.
func (r *reader) stations(root *section, n *network.Network) {
	root.named("stations", func(name string, s *section) {
		st := network.Station{Name: name, Units: 1}
		st.From, st.To = s.ends()
		if units, ok := s.count("units"); ok {
			st.Units = units
		} else if !s.has("units") {
			r.assume(s.key("units"), "1", Default, "", "%s: one unit", s.path)
		}
		if running, ok := s.count("running"); ok && !r.unread(s.key("units")) {
			if st.Stopped = st.Units - running; st.Stopped > 0 {
				r.assume(s.path+".running", fmt.Sprint(running), Given, "", "%s: a pump that stands is held at rest until it is started, even where liquid flows back through it", s.path)
			}
		} else if !s.has("running") && st.Units > 1 {
			r.assume(s.key("running"), fmt.Sprint(st.Units), Default, "", "%s: all %d units run at the start", s.path, st.Units)
		}
		st.Elevation, _ = s.needQuantity("elevation", quantity.Length, "102 m")
		st.Slope = s.slope("the check valves stand")
		st.CheckValve = s.fitting("check valve")
		st.Upstream = s.upstream()
		if branch := r.section(s.take("branch"), s.key("branch")); branch.node != nil {
			length, _ := branch.needPositive("length", quantity.Length, "6 m")
			c := r.conduit(branch, n.Fluid)
			st.Branch = &network.Branch{Length: length, Bore: c.bore, WaveSpeed: c.waveSpeed, Roughness: c.roughness, FrictionFactor: c.friction, MinorLoss: c.minorLoss, Creep: c.creep, Bends: c.bends}
			branch.done()
		}
		st.Pump, st.Column.Length = r.pump(s)
		n.Stations = append(n.Stations, st)
	})
}

// slope reads the upward slope of the pipe at the valve, rad. Subject is what stands there.
func (s *section) slope(subject string) float64 {
	slope, _ := s.quantity("slope", quantity.Angle)
	if !s.has("slope") {
		s.r.assume(s.key("slope"), "0 deg", Default, "common practice", "%s: %s in a level pipe", s.path, subject)
	}
	return slope
}

// pump reads the section pump of a station, and the length of its water column, m.
func (r *reader) pump(s *section) (spec pump.Spec, length float64) {
	p := r.section(s.need("pump", "{rated: {flow: 430 m3/h, head: 52 m, speed: 1480 rpm, efficiency: 81 %}}"), s.key("pump"))
	defer p.done()
	rated := r.section(p.need("rated", "{flow: 430 m3/h, head: 52 m, speed: 1480 rpm, efficiency: 81 %}"), p.key("rated"))
	spec.Flow, _ = rated.needQuantity("flow", quantity.Flow, "430 m3/h")
	spec.Head, _ = rated.needQuantity("head", quantity.Length, "52 m")
	spec.Speed, _ = rated.needQuantity("speed", quantity.Rotation, "1480 rpm")
	spec.Efficiency, _ = rated.needQuantity("efficiency", quantity.Fraction, "81 %")
	rated.done()

	rows, has := p.table("curve", []column{{"flow", quantity.Flow, false}, {"head", quantity.Length, false}, {"efficiency", quantity.Fraction, true}})
	for _, row := range rows {
		point := pump.Point{Flow: row[0], Head: row[1]}
		if has[2] {
			point.Efficiency = row[2]
		}
		spec.Curve = append(spec.Curve, point)
	}
	spec.Inertia, _ = p.positive("inertia", quantity.Inertia)
	spec.SpecificSpeed, _ = p.positive("specific speed", quantity.Number)
	if length, _ = p.quantity("water length", quantity.Length); !p.has("water length") {
		r.assume(p.key("water length"), "0 m", Default, "", "%s: inertia of the water in pump and suction left out", p.path)
	}
	ratchet, _ := p.choose("ratchet", []string{"yes", "no"})
	if spec.Ratchet = ratchet == "yes"; p.node != nil && !p.has("ratchet") {
		r.assume(p.key("ratchet"), "no", Default, "common practice", "%s: no ratchet, the rotor can turn backwards", p.path)
	}
	if p.node != nil {
		r.built(p, spec)
	}
	return spec, length
}

// built says what the pump will be given of what the case leaves out.
func (r *reader) built(p *section, spec pump.Spec) {
	built, err := pump.New(spec, 1000, network.Gravity)
	if err != nil {
		return // network.Validate says what is wrong
	}
	r.assume(p.key("four-quadrant data"), built.Set.Name, Catalogue, "", "%s: four-quadrant data %s, nearest to its specific speed of %.3g; values %s",
		p.path, built.Set.Name, built.SpecificSpeed, built.Set.Provenance)
	if p.has("inertia") {
		return
	}
	r.assume(p.key("inertia"), fmt.Sprintf("%.3g kg·m2", built.Inertia), Estimated, "Thorley, Fluid Transients in Pipeline Systems, 2004; within a factor of 2",
		"%s: inertia of pump and motor %.3g kg·m2 from power and speed", p.path, built.Inertia)
}

// columnWaveSpeed is the wave speed of a water column with neither branch nor pipe beside it, m/s.
const columnWaveSpeed = 1000

// columns gives every water column a bore and a wave speed: those of the branch, or the size of the check valve and the wave speed of a pipe at
// the node that the station delivers to. Its length counts on that bore, for the inertia of a column is rho L/A: a suction of another bore counts
// with its length times the ratio of areas, that of the column over that of the suction. bore is the nominal size of the named check valve, "" being the candidate.
func (r *reader) columns(n *network.Network, bore func(valve string) float64) {
	for i := range n.Stations {
		s := &n.Stations[i]
		if s.Column.Length == 0 {
			continue
		}
		c := &s.Column
		status := ""
		var like string
		switch p := pipeAt(n, s.To); {
		case s.Branch != nil:
			c.Bore, c.WaveSpeed, like = s.Branch.Bore, s.Branch.WaveSpeed, "those of the branch"
		case p != nil:
			c.Bore, c.WaveSpeed, like = bore(s.CheckValve), p.WaveSpeed, "the size of the check valve and the wave speed of pipe "+p.Name
		default:
			c.Bore, c.WaveSpeed, like, status = bore(s.CheckValve), columnWaveSpeed, "the size of the check valve", "common practice"
		}
		path := "stations." + s.Name + ".pump.water column"
		if c.Bore <= 0 {
			c.Bore = someBore // the size of the valve, or the bore of the branch, is an error of its own
			continue
		}
		text := fmt.Sprintf("bore %.4g mm, wave speed %.4g m/s", c.Bore*1e3, c.WaveSpeed)
		r.assume(path, text, Estimated, status, "stations.%s: water column of pump and suction with %s, %s; its length counts on this bore: "+
			"a suction of another bore counts with its length times the ratio of areas", s.Name, text, like)
	}
}

// pipeAt is the first pipe with an end at a node; nil when there is none.
func pipeAt(n *network.Network, node string) *network.Pipe {
	for i := range n.Pipes {
		if p := &n.Pipes[i]; strings.EqualFold(p.From, node) || strings.EqualFold(p.To, node) {
			return p
		}
	}
	return nil
}
