package network

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"seatwise/network/pump"
)

// Bounds beyond which a figure is taken for a slip of the pen.
const (
	MaxUnits     = 100  // units of one station
	maxWaveSpeed = 5000 // m/s; no liquid in any wall carries a wave faster
	elevationGap = 1.0  // m; ends of two pipes at one node further apart than this are worth a warning
	leastColumn  = 0.05 // m; a shorter water column or branch changes no result and makes the step of the whole network tiny
	leastPipe    = 0.1  // m; nor does a shorter pipe
)

// Validate checks everything that can be checked without running anything. It returns all findings: first what is wrong with each
// item, in the order of the network's own lists, then what is wrong with the graph they make.
func (n *Network) Validate() []Finding {
	return append(n.ValidateItems(func(string) string { return "" }), n.ValidateGraph()...)
}

// ValidateItems checks each item by itself. Written gives the value at a path as its author wrote it, to be shown in place of the SI value; ""
// where nobody did.
func (n *Network) ValidateItems(written func(path string) string) []Finding {
	c := checker{written: written}
	c.surroundings(n)
	for i := range n.Reservoirs {
		c.reservoir(&n.Reservoirs[i])
	}
	for _, d := range n.Demands {
		c.finite("demands."+d.Node+".flow", "flow", d.Flow)
	}
	for i := range n.Stations {
		c.station(n, &n.Stations[i])
	}
	for i := range n.Pipes {
		c.pipe(&n.Pipes[i])
	}
	for i := range n.CheckValves {
		v := &n.CheckValves[i]
		c.finite("check valves."+v.Name+".elevation", "elevation", v.Elevation)
		c.slope("check valves."+v.Name+".slope", v.Slope)
	}
	for i := range n.Throttles {
		c.throttle(&n.Throttles[i])
	}
	for _, d := range n.Devices {
		c.device(d)
	}
	c.runs(n)
	c.names(n)
	c.deviceNames(n)
	return c.findings
}

// checker collects findings.
type checker struct {
	findings []Finding
	written  func(path string) string
}

func (c *checker) fault(path, hint, format string, args ...any) {
	c.findings = append(c.findings, Finding{Path: path, Text: fmt.Sprintf(format, args...), Hint: hint})
}

func (c *checker) warn(path, hint, format string, args ...any) {
	c.findings = append(c.findings, Finding{Path: path, Text: fmt.Sprintf(format, args...), Hint: hint, Warning: true})
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func (c *checker) finite(path, what string, x float64) bool {
	if !finite(x) {
		c.fault(path, "", "%s is not a finite number", what)
		return false
	}
	return true
}

func (c *checker) positive(path, what, unit string, x float64) bool {
	if !finite(x) || x <= 0 {
		c.fault(path, "give a value above zero", "%s is %s", what, c.show(path, x, unit))
		return false
	}
	return true
}

func (c *checker) notNegative(path, what, unit string, x float64) bool {
	if !finite(x) || x < 0 {
		c.fault(path, "give zero or a value above it", "%s is %s", what, c.show(path, x, unit))
		return false
	}
	return true
}

// atLeast checks a length that only needs to be there when it matters.
func (c *checker) atLeast(path, what string, x, least float64, otherwise string) {
	if x < least {
		c.fault(path, fmt.Sprintf("give %g m or more, or %s", least, otherwise), "%s is %s", what, c.show(path, x, "m"))
	}
}

// show is a value as it was written, else in SI.
func (c *checker) show(path string, x float64, unit string) string {
	if text := c.written(path); text != "" {
		return text
	}
	return inSI(x, unit)
}

func inSI(x float64, unit string) string { return strings.TrimSpace(fmt.Sprintf("%.4g %s", x, unit)) }

func (c *checker) surroundings(n *Network) {
	if err := n.Fluid.Validate(); err != nil {
		c.fault("fluid", "", "%s", strings.TrimPrefix(err.Error(), "fluid: "))
	}
	c.positive("atmosphere", "atmosphere", "Pa", n.Atmosphere)
	if n.Atmosphere > 0 && n.Fluid.VapourPressure >= n.Atmosphere {
		c.warn("fluid", "check temperature and atmosphere", "the liquid boils in the open: its vapour pressure %.4g kPa is not below the atmosphere",
			n.Fluid.VapourPressure/1e3)
	}
	if n.Gravity != 0 {
		c.positive("gravity", "gravity", "m/s2", n.Gravity)
	}
}

func (c *checker) reservoir(r *Reservoir) {
	at := "reservoirs." + r.Name + ".level"
	c.finite(at, "level", r.Level)
	for i, l := range r.Levels {
		row := fmt.Sprintf("%s[%d]", at, i+1)
		c.finite(row+"[2]", "level", l.Head)
		if c.finite(row+"[1]", "time", l.Time) && i > 0 && l.Time < r.Levels[i-1].Time {
			c.fault(row+"[1]", "sort the rows by time", "time goes backwards: %s", c.follows(at, i, l.Time, r.Levels[i-1].Time, "s"))
		}
	}
}

// follows shows the value in the first column of row i, from 0, of a table and the one before it.
func (c *checker) follows(table string, i int, this, last float64, unit string) string {
	cell := func(i int) string { return fmt.Sprintf("%s[%d][1]", table, i+1) }
	return c.show(cell(i), this, unit) + " follows " + c.show(cell(i-1), last, unit)
}

func (c *checker) slope(path string, slope float64) {
	if !(math.Abs(slope) <= math.Pi/2*(1+1e-12)) {
		c.fault(path, "give -90 deg (downflow) to 90 deg (upflow)", "slope is %s", c.show(path, slope*180/math.Pi, "deg"))
	}
}

func (c *checker) station(n *Network, s *Station) {
	at := "stations." + s.Name
	if s.Units < 1 || s.Units > MaxUnits {
		c.fault(at+".units", fmt.Sprintf("give a whole number from 1 to %d", MaxUnits), "the station has %d units", s.Units)
	} else if s.Stopped < 0 || s.Stopped > s.Units {
		c.fault(at+".running", fmt.Sprintf("give a whole number from 0 to %d", s.Units), "%d units run at the start, the station has %d", s.Units-s.Stopped, s.Units)
	}
	c.finite(at+".elevation", "elevation", s.Elevation)
	c.slope(at+".slope", s.Slope)
	c.pump(n, at+".pump", s.Pump)
	if c.notNegative(at+".pump.water length", "water length", "m", s.Column.Length) && s.Column.Length > 0 {
		c.atLeast(at+".pump.water length", "water length", s.Column.Length, leastColumn, "leave it out")
		c.positive(at+".pump.water column", "bore of the water column", "m", s.Column.Bore)
		c.waveSpeed(at+".pump.water column", s.Column.WaveSpeed)
	}
	if b := s.Branch; b != nil {
		if c.positive(at+".branch.length", "length", "m", b.Length) {
			c.atLeast(at+".branch.length", "length", b.Length, leastColumn, "leave the branch out")
		}
		c.bore(at+".branch", b.Bore, b.WaveSpeed, b.Roughness, b.FrictionFactor, b.MinorLoss)
		c.bends(at+".branch", at+".branch.length", b.Length, b.Bends)
		c.creep(at+".branch", &b.Creep)
	}
}

// pump reports rising flows, then lets package pump judge the rest.
func (c *checker) pump(n *Network, at string, s pump.Spec) {
	before := len(c.findings)
	c.positive(at+".rated.flow", "rated flow", "m3/s", s.Flow)
	c.positive(at+".rated.head", "rated head", "m", s.Head)
	c.positive(at+".rated.speed", "rated speed", "rad/s", s.Speed)
	if !(s.Efficiency > 0 && s.Efficiency <= 1) {
		c.fault(at+".rated.efficiency", "give more than 0 % and at most 100 %", "rated efficiency is %s", c.show(at+".rated.efficiency", 100*s.Efficiency, "%"))
	}
	if len(s.Curve) == 1 {
		c.fault(at+".curve", "give two rows or more, or leave the curve out", "the curve has a single row")
	}
	for i, p := range s.Curve {
		row := fmt.Sprintf("%s.curve[%d]", at, i+1)
		c.notNegative(row+"[1]", "flow", "m3/s", p.Flow)
		c.notNegative(row+"[2]", "head", "m", p.Head)
		if !(p.Efficiency >= 0 && p.Efficiency <= 1) {
			c.fault(row+"[3]", "give 0 % to 100 %", "efficiency is %s", c.show(row+"[3]", 100*p.Efficiency, "%"))
		}
		if i > 0 && !(p.Flow > s.Curve[i-1].Flow) {
			c.fault(row+"[1]", "sort the rows by flow and give each flow once", "flow does not increase: %s", c.follows(at+".curve", i, p.Flow, s.Curve[i-1].Flow, "m3/s"))
		}
	}
	if len(c.findings) > before || n.Fluid.Validate() != nil || n.G() <= 0 || !finite(n.G()) {
		return
	}
	built, err := pump.New(s, n.Fluid.Density, n.G())
	if err != nil {
		c.unbuilt(at, err)
		return
	}
	for _, w := range built.Warnings {
		c.warn(at, "", "%s", strings.TrimPrefix(w, "pump: "))
	}
}

// unbuilt reports what package pump has against a pump: its error joins one fault per value.
func (c *checker) unbuilt(at string, err error) {
	faults := []error{err}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		faults = joined.Unwrap()
	}
	for _, one := range faults {
		var f *pump.Fault
		if !errors.As(one, &f) {
			c.fault(at, "", "%s", strings.TrimPrefix(one.Error(), pump.ErrSpec.Error()+": "))
			continue
		}
		path := strings.TrimSuffix(at+"."+f.Path, ".")
		c.fault(path, f.Hint, "%s is %s", f.What, c.show(path, f.SI, f.Unit))
	}
}

func (c *checker) pipe(p *Pipe) {
	at := "pipes." + p.Name
	c.bore(at, p.Bore, p.WaveSpeed, p.Roughness, p.FrictionFactor, p.MinorLoss)
	c.creep(at, &p.Creep)
	if len(p.Profile) < 2 {
		c.fault(at+".profile", "give chainage and elevation of both ends at least", "the profile has %s", [...]string{"no rows", "a single row"}[len(p.Profile)])
	}
	for i, q := range p.Profile {
		row := fmt.Sprintf("%s.profile[%d]", at, i+1)
		c.finite(row+"[2]", "elevation", q.Elevation)
		if !c.finite(row+"[1]", "chainage", q.Chainage) {
			continue
		}
		if i == 0 && q.Chainage != 0 {
			c.fault(row+"[1]", "chainage is the distance from the end named in from", "the profile starts at chainage %s, not at 0 m", c.show(row+"[1]", q.Chainage, "m"))
		}
		if i == 0 {
			continue
		}
		last := p.Profile[i-1]
		run := q.Chainage - last.Chainage
		switch {
		case !(run > 0):
			c.fault(row+"[1]", "chainage is the distance along the pipe and must increase", "the profile goes backwards: chainage %s", c.follows(at+".profile", i, q.Chainage, last.Chainage, "m"))
		case math.Abs(q.Elevation-last.Elevation) > run*(1+1e-9):
			c.warn(row, "chainage is the distance along the pipe, not on the map", "the pipe climbs %.4g m over a length of %.4g m",
				math.Abs(q.Elevation-last.Elevation), run)
		}
	}
	if n := len(p.Profile); n > 1 && p.Profile[n-1].Chainage > 0 {
		c.atLeast(at+".length", "length", p.Length(), leastPipe, "join its ends to one node")
		end := at + ".length"
		if c.written(end) == "" {
			end = fmt.Sprintf("%s.profile[%d][1]", at, n)
		}
		c.bends(at, end, p.Length(), p.Bends)
	}
}

// bore checks what pipes and branches share.
func (c *checker) bore(at string, bore, waveSpeed, roughness, friction, minor float64) {
	ok := c.positive(at+".bore", "bore", "m", bore)
	c.waveSpeed(at+".wave speed", waveSpeed)
	if c.notNegative(at+".roughness", "roughness", "m", roughness) && ok && roughness > bore/10 {
		c.fault(at+".roughness", "roughness is a matter of a tenth of a millimetre", "roughness %s is more than a tenth of the bore", c.show(at+".roughness", roughness, "m"))
	}
	c.notNegative(at+".friction factor", "friction factor", "", friction)
	c.notNegative(at+".minor loss", "minor loss", "", minor)
}

func (c *checker) waveSpeed(path string, a float64) {
	if c.positive(path, "wave speed", "m/s", a) && a > maxWaveSpeed {
		c.fault(path, fmt.Sprintf("give at most %d m/s", maxWaveSpeed), "wave speed is %s", c.show(path, a, "m/s"))
	}
}

var nameForm = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9-]*$`)

// names checks the form of every name and that no two of a kind differ only by case.
func (c *checker) names(n *Network) {
	check := func(kind, path string, names []string) {
		seen := map[string]string{}
		for _, name := range names {
			if !nameForm.MatchString(name) {
				c.fault(path+name, "names are letters, digits and hyphens, not starting with a hyphen", "%q is not a name", name)
				continue
			}
			key := strings.ToLower(name)
			if first, ok := seen[key]; ok {
				if first == name {
					c.fault(path+name, "", "two %ss are called %q", kind, name)
				} else {
					c.fault(path+name, "names are unique ignoring case", "%ss %q and %q differ only by case", kind, first, name)
				}
			}
			seen[key] = name
		}
	}
	var reservoirs, demands, pipes, stations, valves, throttles []string
	for _, r := range n.Reservoirs {
		reservoirs = append(reservoirs, r.Name)
	}
	for _, d := range n.Demands {
		demands = append(demands, d.Node)
	}
	for _, p := range n.Pipes {
		pipes = append(pipes, p.Name)
	}
	for _, s := range n.Stations {
		stations = append(stations, s.Name)
	}
	for _, v := range n.CheckValves {
		valves = append(valves, v.Name)
	}
	for _, t := range n.Throttles {
		throttles = append(throttles, t.Name)
	}
	check("reservoir", "reservoirs.", reservoirs)
	check("demand", "demands.", demands)
	check("station", "stations.", stations)
	check("pipe", "pipes.", pipes)
	check("check valve", "check valves.", valves)
	check("throttling valve", "throttling valves.", throttles)
	for _, v := range valves { // results name a check valve by its station, or by its own name where it stands alone
		if i := slices.IndexFunc(stations, func(s string) bool { return strings.EqualFold(s, v) }); i >= 0 {
			c.fault("check valves."+v, "names of stations and of check valves that stand alone are unique together, ignoring case", "%q is a station", stations[i])
		}
	}
}
