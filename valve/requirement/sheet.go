package requirement

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"seatwise/network/quantity"
	"seatwise/valve/choice"
)

// Group is a part of the sheet that goes to the makers of valves.
type Group struct {
	Title string
	Items []Item
}

// Item is one line of the sheet: a number, or words, or a blank to be filled in by whoever asks.
type Item struct {
	Key       string // in requirement.json, SI unit in the key
	Label     string
	Dimension quantity.Dimension
	Value     choice.Value // SI; a blank where there is none and Words are empty
	Words     string       // in place of a number
	Note      string       // what it is of, or where it comes from
	Part      bool         // a length of a valve or a bore, in mm or inches
}

// Blank tells whether the line is to be filled in.
func (i Item) Blank() bool { return i.Words == "" && i.Value.Reason != "" }

// Remark stands beside the line: its note, and of a blank why it is one.
func (i Item) Remark() string {
	if i.Blank() && i.Note == "" {
		return i.Value.Reason
	}
	return i.Note
}

// Unit is that in which the line is read.
func (i Item) Unit(units quantity.System) quantity.Unit {
	symbol := "mm"
	if units == quantity.US {
		symbol = "in"
	}
	if u, err := quantity.ParseUnit(symbol, quantity.Length); i.Part && err == nil {
		return u
	}
	return units.Unit(i.Dimension)
}

// Text is what stands in the line, with its unit; "" for a blank.
func (i Item) Text(units quantity.System) string {
	switch {
	case i.Words != "":
		return i.Words
	case i.Value.Reason != "":
		return ""
	}
	return quantity.FormatIn(i.Value.SI, i.Unit(units))
}

// blank is an item that the case does not know.
func blank(key, label string) Item {
	return Item{Key: key, Label: label, Value: choice.Value{Reason: NotGiven}}
}

// NotGiven is the reason of a blank that the case could have filled.
const NotGiven = "not in the case: state it"

func number(key, label string, d quantity.Dimension, si float64, note string) Item {
	return Item{Key: key, Label: label, Dimension: d, Value: choice.Value{SI: si}, Note: note}
}

func value(key, label string, d quantity.Dimension, v choice.Value, note string) Item {
	return Item{Key: key, Label: label, Dimension: d, Value: v, Note: note}
}

// part is a length of a valve or a bore.
func part(key, label string, si float64, note string) Item {
	i := number(key, label, quantity.Length, si, note)
	i.Part = true
	return i
}

func words(key, label, text, note string) Item {
	return Item{Key: key, Label: label, Value: choice.Value{Reason: "words"}, Words: text, Note: note}
}

// maybe is a number that the case need not give.
func maybe(key, label string, d quantity.Dimension, si *float64, note string) Item {
	if si == nil {
		return value(key, label, d, choice.Value{Reason: NotGiven}, "")
	}
	return number(key, label, d, *si, note)
}

// Sheet is what the installation asks for, in order, with its notes in the units of the reader.
func (r *Requirement) Sheet(units quantity.System) []Group {
	return []Group{r.service(), r.flow(), r.place(), r.open(units), r.closing(units)}
}

func (r *Requirement) service() Group {
	n := r.Case.Scenarios[0].Network
	f := n.Fluid
	g := Group{"Service", []Item{words("liquid", "liquid", quantity.Printable(f.Name), "")}}
	if f.Temperature > 0 {
		g.Items = append(g.Items, number("temperature_k", "temperature", quantity.Temperature, f.Temperature, ""))
	} else {
		g.Items = append(g.Items, maybe("temperature_k", "temperature", quantity.Temperature, nil, ""))
	}
	g.Items = append(g.Items,
		number("density_kg_m3", "density", quantity.Density, f.Density, ""),
		number("viscosity_pa_s", "dynamic viscosity", quantity.DynamicViscosity, f.Viscosity, ""),
		number("vapour_pressure_pa", "vapour pressure", quantity.AbsolutePressure, f.VapourPressure, ""),
		number("atmosphere_pa", "atmosphere", quantity.AbsolutePressure, n.Atmosphere, ""),
		blank("impurities", "solids, gas, corrosive matter"))
	return g
}

func (r *Requirement) flow() Group {
	o := &r.At.Scenarios[0].Outcomes[0]
	g := Group{Title: "Flow and pressure at the valve"}
	add := func(i Item) { g.Items = append(g.Items, i) }
	d := r.duty()
	least := maybe("minimum_flow_m3_s", "minimum flow", quantity.Flow, d.MinimumFlow, "through one valve")
	if name, q, ok := d.Least(); ok && d.MinimumFlow == nil {
		least = maybe(least.Key, least.Label, quantity.Flow, &q, "through one valve; "+name)
	}
	add(least)
	normal, velocity, of := o.InitialFlow, o.InitialVelocity, "through one valve, steady flow of the case"+r.where(o)
	if d.NormalFlow != nil {
		normal, velocity, of = choice.Value{SI: *d.NormalFlow}, choice.Value{SI: *d.NormalFlow / (math.Pi / 4 * r.Size * r.Size)}, "through one valve"
	}
	add(value("normal_flow_m3_s", "normal flow", quantity.Flow, normal, of))
	add(value("normal_velocity_m_s", "velocity at normal flow", quantity.Velocity, velocity, "on the bore below"))
	add(maybe("maximum_flow_m3_s", "maximum flow", quantity.Flow, d.MaximumFlow, "through one valve"))
	up, down := r.extremes("pressure_up"), r.extremes("pressure_down")
	add(value("steady_pressure_up_pa", "steady pressure before the valve", quantity.Pressure, up.first, "gauge"))
	add(value("steady_pressure_down_pa", "steady pressure behind the valve", quantity.Pressure, down.first, "gauge"))
	with := "gauge, of all scenarios, with a valve that shuts at the allowed reverse velocity"
	if r.Allowed.Velocity.Reason != "" {
		with = "gauge, of all scenarios, with a valve that shuts at zero velocity"
	}
	if r.Allowed.Unbound > 0 {
		with = "gauge, of all scenarios"
	}
	add(value("greatest_pressure_pa", "greatest pressure at the valve", quantity.Pressure, larger(up.most, down.most, 1), with+"; on either side"))
	add(value("least_pressure_down_pa", "least pressure behind the valve", quantity.Pressure, down.least, with))
	add(value("least_pressure_up_pa", "least pressure before the valve", quantity.Pressure, up.least, with+"; pump and suction are modelled in little detail"))
	l := &r.Case.Limits
	add(maybe("design_pressure_pa", "design pressure of the line", quantity.Pressure, l.DesignPressure, "gauge"))
	add(maybe("surge_allowance_fraction", "allowance for surge", quantity.Fraction, l.SurgeAllowance, "above the design pressure"))
	add(blank("pressure_class", "pressure class and standard"))
	return g
}

// where names the place of the valve that the figures are of, where there are several.
func (r *Requirement) where(o *choice.Outcome) string {
	if len(r.Places) > 1 && o.Watched != "" {
		return ", at " + o.Watched
	}
	return ""
}

// extreme values of a history over all scenarios, and its first value in the first scenario.
type extremes struct{ first, least, most choice.Value }

func (r *Requirement) extremes(key string) extremes {
	none := choice.Value{Reason: "there is no run"}
	e := extremes{none, none, none}
	for i := range r.At.Scenarios {
		for _, h := range r.At.Scenarios[i].Outcomes[0].History {
			if h.Key != key || len(h.Values) == 0 {
				continue
			}
			if i == 0 {
				e.first = choice.Value{SI: h.Values[0]}
			}
			for _, v := range h.Values {
				e.least, e.most = larger(e.least, choice.Value{SI: v}, -1), larger(e.most, choice.Value{SI: v}, 1)
			}
		}
	}
	return e
}

// larger is the larger of two values that exist, for a sign of -1 the smaller.
func larger(a, b choice.Value, sign float64) choice.Value {
	if a.Reason != "" || b.Reason == "" && sign*b.SI > sign*a.SI {
		return b
	}
	return a
}

func (r *Requirement) place() Group {
	g := Group{Title: "Place and pipe"}
	add := func(i Item) { g.Items = append(g.Items, i) }
	count := 0
	var names, orientations, upstream []string
	var bores, lengths, speeds, runs []float64
	once := func(list []string, text string) []string {
		for _, t := range list {
			if t == text {
				return list
			}
		}
		return append(list, text)
	}
	for _, p := range r.Places {
		count += p.Count
		name := p.Name
		if p.Count > 1 {
			name = fmt.Sprintf("%s (%d units)", p.Name, p.Count)
		}
		names = append(names, name)
		orientations = once(orientations, orientation(p.Slope))
		switch {
		case p.Upstream.Fitting != "":
			upstream = once(upstream, p.Upstream.Fitting)
			runs = append(runs, p.Upstream.Distance)
		case p.Station:
			upstream = once(upstream, "pump")
		default:
			upstream = once(upstream, "pipe")
		}
		if p.Bore > 0 {
			bores, lengths, speeds = append(bores, p.Bore), append(lengths, p.Length), append(speeds, p.WaveSpeed)
		}
	}
	add(words("place", "place", strings.Join(names, ", "), "as named in the case"))
	add(number("valves", "number of valves", quantity.Number, float64(count), ""))
	add(part("size_m", "bore that velocities are taken on", r.Size, "nominal size of the candidates, or of the branch where they differ"))
	add(words("orientation", "orientation and flow direction", strings.Join(orientations, "; "), ""))
	add(words("upstream", "upstream of the valve", strings.Join(upstream, "; "), ""))
	var straight *float64
	if len(runs) > 0 {
		least := slices.Min(runs)
		straight = &least
	}
	add(maybe("straight_run_m", "straight run upstream", quantity.Length, straight, "the least of all places, behind that fitting"))
	if alike(bores) && len(bores) == len(r.Places) {
		add(part("branch_bore_m", "bore of the pipe behind the valve", bores[0], "branch of each unit"))
	} else {
		add(blank("branch_bore_m", "bore of the pipe behind the valve"))
	}
	if alike(lengths) && len(lengths) == len(r.Places) {
		add(number("branch_length_m", "its length to the header", quantity.Length, lengths[0], ""))
	}
	if alike(speeds) && len(speeds) == len(r.Places) {
		add(number("branch_wave_speed_m_s", "its wave speed", quantity.Velocity, speeds[0], ""))
	}
	add(blank("pipe_schedule", "pipe schedule and end connections"))
	return g
}

func alike(x []float64) bool {
	for _, v := range x {
		if v != x[0] {
			return false
		}
	}
	return len(x) > 0
}

// orientation is a slope in words.
func orientation(slope float64) string {
	deg := math.Round(slope * 180 / math.Pi)
	switch {
	case deg == 0:
		return "horizontal"
	case deg >= 90:
		return "vertical, flow upward"
	case deg <= -90:
		return "vertical, flow downward"
	case deg > 0:
		return fmt.Sprintf("inclined %.0f°, flow rising", deg)
	}
	return fmt.Sprintf("inclined %.0f°, flow falling", -deg)
}

func (r *Requirement) open(units quantity.System) Group {
	g := Group{Title: "Required of the open and of the shut valve"}
	add := func(i Item) { g.Items = append(g.Items, i) }
	from := "velocity in the steady flow, as the case gives no minimum flow,"
	if name, q := r.leastOfDuty(); q > 0 {
		from = "velocity at the " + name
		if r.duty().MinimumFlow == nil {
			from += ", as the case gives no minimum flow,"
		}
	}
	add(value("full_open_velocity_m_s", "full-open velocity", quantity.Velocity, r.FullOpen(), "at most; "+from+fmt.Sprintf(" over %.3g (common practice)", r.margin())))
	l := r.Case.Limits.HeadLoss
	loss := maybe("head_loss_m", "head loss at normal flow", quantity.Length, l, "at most; limit of the case")
	if price := r.priceOfLoss(units); price != "" {
		loss.Note = strings.TrimPrefix(strings.Join([]string{loss.Note, price}, "; "), "; ")
	}
	add(loss)
	if l != nil {
		n := r.Case.Scenarios[0].Network
		add(number("pressure_drop_pa", "pressure drop at normal flow", quantity.PressureDifference, n.Fluid.Density*n.G()**l, "at most; of that head"))
	}
	add(blank("leakage_class", "leakage class of the seat, and its standard"))
	return g
}

func (r *Requirement) closing(units quantity.System) Group {
	g := Group{Title: "Required dynamic response"}
	add := func(i Item) { g.Items = append(g.Items, i) }
	tangent, mean := choice.Value{Reason: "the flow does not reverse in any scenario"}, choice.Value{Reason: "the flow does not reverse in any scenario"}
	of := ""
	if r.Hardest >= 0 {
		tangent, mean = r.Own[r.Hardest].Tangent, r.Mean
		if len(r.Own) > 1 {
			of = "; the greatest of: " + r.decelerations(units)
		}
	} else if len(r.Own) > 0 {
		tangent.Reason = cmp.Or(r.Own[0].Tangent.Reason, tangent.Reason)
		mean.Reason = tangent.Reason
	}
	add(value("design_deceleration_m_s2", "design deceleration of the flow", quantity.Acceleration, tangent, "slope of the velocity as it passes zero, valve held open, on the bore above"+of))
	add(value("mean_deceleration_m_s2", "the same by the mean slope", quantity.Acceleration, mean, "from the velocity before the trip to zero velocity: for curves of that definition"))
	add(value("reverse_velocity_m_s", "greatest reverse velocity allowed", quantity.Velocity, r.Allowed.Velocity, r.basis(units)))
	d := r.duty()
	often := func(x float64) *float64 {
		if x > 0 {
			return &x
		}
		return nil
	}
	add(maybe("trips_a_year", "closings by a trip in a year", quantity.Number, often(d.Trips), "of one unit"))
	add(maybe("starts_a_year", "normal closings in a year", quantity.Number, often(d.Starts), "of one unit, one for each start"))
	return g
}

// priceOfLoss says what a head loss costs over the life of the valve, which the economics of the case know; "" without.
func (r *Requirement) priceOfLoss(units quantity.System) string {
	e := r.Case.Economics
	if e == nil || e.EnergyPrice <= 0 || len(e.Duty) == 0 {
		return ""
	}
	h, err := quantity.Parse("0.1 m", quantity.Length)
	if units == quantity.US {
		h, err = quantity.Parse("1 ft", quantity.Length)
	}
	if err != nil {
		return ""
	}
	present := func(h float64) float64 {
		return e.Of(0, 0, r.Case.Scenarios[0].Network.Fluid.Density, func(float64) float64 { return h }, 0).Present
	}
	return fmt.Sprintf("%s of it at every flow of the duty cost %.3g %s in present value", quantity.Format(h.SI, quantity.Length, units), present(h.SI)-present(0), cmp.Or(e.Currency, "in the currency of the case"))
}

// basis says what decides the allowed velocity.
func (r *Requirement) basis(units quantity.System) string {
	a := r.Allowed
	speed := func(v float64) string {
		return quantity.Format(v, quantity.Velocity, units)
	}
	switch {
	case a.Given:
		text := "at the design deceleration; limit of the case"
		if r.Case.Limits.Margin > 0 {
			text += fmt.Sprintf(" with %.3g %% kept to spare", 100*r.Case.Limits.Margin)
		}
		return text + ", at which all its other limits, which hold behind the valve, are met"
	case a.Unbound > 0:
		return a.Velocity.Reason + ": tried up to " + speed(a.Unbound) + ", beyond which the flow does not go"
	case len(a.Broken) > 0:
		return a.Velocity.Reason + " (" + r.limits(a.Broken) + "); protect the line by other means first"
	case a.Velocity.Reason != "":
		return a.Velocity.Reason
	}
	text := fmt.Sprintf("at the design deceleration; decided by %s, broken at %s", r.limits(a.Binding), speed(a.Above))
	if unsure(a.Binding) {
		text += ", by less than the numerical error"
	}
	if a.Again {
		text += "; at some greater velocities all limits are met again"
	}
	return text
}

// decelerations are those of every scenario by name.
func (r *Requirement) decelerations(units quantity.System) string {
	var out []string
	for _, o := range r.Own {
		text := "none: " + o.Tangent.Reason
		if o.Tangent.Reason == "" {
			text = quantity.Format(o.Tangent.SI, quantity.Acceleration, units)
		}
		out = append(out, o.Scenario+" "+text)
	}
	return strings.Join(out, ", ")
}

func unsure(all []choice.Verdict) bool {
	for _, v := range all {
		if !v.Unsure {
			return false
		}
	}
	return len(all) > 0
}

// limits are the names of limits with the scenarios in which they are broken.
func (r *Requirement) limits(all []choice.Verdict) string {
	var names []string
	in := map[string][]string{}
	for _, v := range all {
		if in[v.Limit] == nil {
			names = append(names, v.Limit)
		}
		in[v.Limit] = append(in[v.Limit], v.Scenario)
	}
	for i, n := range names {
		if len(r.Case.Scenarios) > 1 {
			names[i] = n + " in scenario " + strings.Join(in[n], " and ")
		}
	}
	return strings.Join(names, " and ")
}
