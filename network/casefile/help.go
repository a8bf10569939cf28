package casefile

import (
	"fmt"
	"math"
	"strings"

	"seatwise/network"
	"seatwise/network/quantity"
)

// helps say what the keys of a case file are, by their paths with * for a name of the user's; devices and check valves have theirs in their own
// tables. A key that is not here is described by how it is written.
var helps = map[string]string{
	"format":            "version of the case file",
	"title":             "what the case is called; in quotation marks if it has a colon in it",
	"note":              "what happens, in one line",
	"fluid":             "the liquid in the line",
	"atmosphere":        "pressure of the surroundings, always absolute; all other pressures are gauge",
	"reservoirs":        "nodes at which the level is given",
	"demands":           "nodes from which a flow is taken",
	"dead ends":         "nodes at which a pipe ends blind",
	"stations":          "identical pump units between two nodes, each with its own check valve",
	"pipes":             "pipes between two nodes; nodes exist by being named",
	"check valves":      "check valves that stand alone, in the line or in a bypass of a station",
	"throttling valves": "valves with an opening that may change by schedule",
	"candidates":        "the check valves under comparison, one column each",
	"valves":            "check valves that are not under comparison, or the name of a file of them",
	"events":            "what happens, in any order; none: a steady comparison",
	"scenarios":         "further courses of events; the case itself is the scenario base",
	"run":               "how long and how the run is calculated",
	"limits":            "what the line may bear; what is not given is not judged",
	"duty":              "what one unit does in a year",
	"service":           "what the service asks of the type of the valve",
	"economics":         "costs; with them the recommendation goes by the present value of all costs, without them by price ratio",
	"report":            "the title block of the report",

	"fluid.liquid":          "water, or any other name with all its properties",
	"fluid.temperature":     "of water only",
	"fluid.density":         "of a liquid that is not water",
	"fluid.bulk modulus":    "of a liquid that is not water",
	"fluid.viscosity":       "dynamic or kinematic, of a liquid that is not water",
	"fluid.vapour pressure": "of a liquid that is not water; always absolute",
	"reservoirs.*.level":    "elevation of the surface; or a table of it over time",
	"demands.*.flow":        "flow taken there",

	"stations.*.from":                  "node that the pumps take from",
	"stations.*.to":                    "node that the units deliver to",
	"stations.*.units":                 "number of units",
	"stations.*.running":               "units that run at the start, the others stand; without it all run",
	"stations.*.elevation":             "of the centre line of the valves",
	"stations.*.slope":                 "of the pipe at the valve, positive where it rises in the direction of flow",
	"stations.*.check valve":           "candidate, or a name from valves; without it the candidate",
	"stations.*.upstream":              "the nearest fitting before the check valve",
	"stations.*.upstream.fitting":      "what stands there",
	"stations.*.upstream.distance":     "of straight pipe between the fitting and the valve",
	"check valves.*.upstream":          "the nearest fitting before the check valve",
	"check valves.*.upstream.fitting":  "what stands there",
	"check valves.*.upstream.distance": "of straight pipe between the fitting and the valve",
	"stations.*.branch":                "the pipe from each unit to the node it delivers to",
	"stations.*.branch.length":         "of the branch",
	"stations.*.pump":                  "the pump of each unit",
	"stations.*.pump.rated":            "the rated point",
	"stations.*.pump.rated.flow":       "of one pump at the rated point",
	"stations.*.pump.rated.head":       "at the rated point",
	"stations.*.pump.rated.speed":      "at the rated point",
	"stations.*.pump.rated.efficiency": "of the pump at the rated point",
	"stations.*.pump.curve":            "flow, head and, if known, efficiency; without it a curve by rated point and specific speed",
	"stations.*.pump.inertia":          "I of pump, coupling and motor, not GD2; without it estimated from power and speed",
	"stations.*.pump.specific speed":   "in rpm, m3/s, m: chooses the four-quadrant data; without it from the rated point",
	"stations.*.pump.water length":     "column of liquid in pump and suction, on the bore of the branch",
	"stations.*.pump.ratchet":          "yes: the pump cannot turn backwards",

	"pipes.*.from":            "node at the beginning",
	"pipes.*.to":              "node at the end",
	"pipes.*.bore":            "inner diameter; or size for bore and wall",
	"pipes.*.size":            "nominal size with its wall, DN700 STD, in place of bore and wall",
	"pipes.*.wall":            "thickness of the wall, for the wave speed",
	"pipes.*.material":        "of the wall, for wave speed and roughness",
	"pipes.*.modulus":         "Young's modulus of the wall for sudden load; without it that of the material",
	"pipes.*.restraint":       "how the pipe is held",
	"pipes.*.creep":           "of a plastic wall, compliance and retardation time, at most five rows",
	"pipes.*.gas content":     "free gas, fraction of volume at atmospheric pressure, below 10 %",
	"pipes.*.wave speed":      "in place of wall, modulus, restraint, creep and gas content",
	"pipes.*.roughness":       "of the wall; without it that of the material",
	"pipes.*.friction factor": "Darcy, in place of roughness",
	"pipes.*.minor loss":      "sum of loss coefficients",
	"pipes.*.bends":           "chainages at which the pipe turns aside; of a straight pipe [0 m]",
	"pipes.*.profile":         "chainage and elevation; or length and elevation of a level pipe",
	"pipes.*.length":          "of a level pipe, in place of a profile",
	"pipes.*.elevation":       "of a level pipe, in place of a profile",

	"check valves.*.from":      "node before it",
	"check valves.*.to":        "node behind it",
	"check valves.*.elevation": "of its centre line",
	"check valves.*.slope":     "of the pipe at the valve, positive where it rises in the direction of flow",
	"check valves.*.valve":     "candidate, or a name from valves; without it the candidate",

	"throttling valves.*.from":                    "node before it",
	"throttling valves.*.to":                      "node behind it",
	"throttling valves.*.bore":                    "on whose velocity head the loss is",
	"throttling valves.*.elevation":               "of the valve",
	"throttling valves.*.loss":                    "loss coefficient when open; or kv, kv table, loss table",
	"throttling valves.*.kv":                      "m3/h of cold water at 1 bar when open, in place of loss",
	"throttling valves.*.kv table":                "kv over the opening, in place of loss",
	"throttling valves.*.loss table":              "loss coefficient over the opening, in place of loss",
	"throttling valves.*.inherent characteristic": "how the capacity goes with the opening",
	"throttling valves.*.opening":                 "a value, or a table of it over time; without it open",

	"candidates.*.valve":        "a name from the section valves: the data of that valve, but for what else is given here",
	"candidates.*.type":         "type of the valve; seatwise valves lists them",
	"candidates.*.size":         "nominal size, DN250, NPS 10 or a length",
	"candidates.*.price amount": "price in the currency of economics",
	"candidates.*.upkeep":       "share of the price a year; without it by type",
	"candidates.*.loss table":   "loss coefficient over the opening",
	"candidates.*.load table":   "load coefficient over the opening",
	"candidates.*.test points":  "deceleration and reverse velocity of tests",

	"events.*":         "one event: trip, start, stroke or fail",
	"events.*.trip":    "station of which pumps lose their drive",
	"events.*.start":   "station of which standing pumps start",
	"events.*.stroke":  "throttling valve that is moved",
	"events.*.fail":    "check valve, or station of which check valves fail",
	"events.*.at":      "time of the event from the start of the run",
	"events.*.units":   "number of units; without it all that there are to act on",
	"events.*.over":    "time that the start or the stroke takes",
	"events.*.to":      "opening at the end of the stroke",
	"events.*.opening": "at which the failed check valve stays",

	"scenarios.*.events": "in place of those of the case",
	"scenarios.*.set":    "path: value, for values of the installation, as pipes.rising-main.bore: 600 mm",

	"run.until":    "end of the run; without it until the discs are seated and the waves have had their say",
	"run.friction": "unsteady forms damp the waves more and are slower",
	"run.cavities": "what the cavities hold where the pressure falls to that of vapour",

	"limits.design pressure":    "of the line, gauge",
	"limits.surge allowance":    "share of the design pressure, 0 to 100 %, for the surge alone",
	"limits.rule":               "a rule for the surge allowance in its place: one that is known, or one of your own with name, allowance and status",
	"limits.events a year":      "for a rule that goes by the time above the design pressure; where left out duty.trips of every unit that runs at the start",
	"limits.vapour margin":      "least head above that of vapour, anywhere on the line",
	"limits.slam class":         "hardest class of slam allowed, by the reverse velocity",
	"limits.slam classes":       "greatest reverse velocity of each class of slam; above is severe",
	"limits.slam classes.none":  "greatest reverse velocity that counts as no slam, 0.15 m/s where left out",
	"limits.slam classes.mild":  "greatest reverse velocity of a mild slam, 0.30 m/s where left out",
	"limits.margin":             "part of every limit that is to be kept to spare",
	"limits.rule.allowances":    "in place of the allowance: shares of the design pressure, each with how long at a time and how long a year",
	"limits.rule.name":          "of a rule of your own",
	"limits.rule.allowance":     "share of the design pressure, 0 to 100 %",
	"limits.rule.status":        "where the rule comes from",
	"limits.minimum pressure":   "gauge; not below -1 atmosphere",
	"limits.reverse velocity":   "at the valve",
	"limits.pump reverse speed": "as a positive number",
	"limits.reverse volume":     "through one valve, as a positive number",
	"limits.head loss":          "of the open valve",
	"limits.anchor force":       "on any straight run of pipe between bends",

	"duty.flow table":                  "flow through one unit and hours a year, for the energy of the pressure drop",
	"duty.trips":                       "number of trips a year, for the damage of slam",
	"duty.starts":                      "number of starts a year, each of which ends in a normal closure",
	"duty.minimum flow":                "least flow through one unit, at which it is looked whether the disc stays open",
	"duty.normal flow":                 "flow through one unit in normal operation; without it that before the event",
	"duty.maximum flow":                "greatest flow through one unit",
	"duty.flow fluctuation":            "amplitude over mean, half of peak to peak over mean",
	"duty.fluctuation frequency":       "of the fluctuation, against the natural frequency of the disc",
	"service.dirty":                    "sewage, slurry, fibres: a swing disc, a flap or a ball",
	"service.piggable":                 "pigs pass the valve: a full-bore swing disc whose travel clears the bore, about 85 to 90 degrees",
	"service.pulsation":                "of a positive-displacement pump: a guided lift, or a disc with a damper",
	"service.reverse rotation":         "whether the pump may turn backwards",
	"service.backflow":                 "whether liquid that flows back until the disc is seated does harm",
	"economics.currency":               "any text",
	"economics.years":                  "over which costs are counted",
	"economics.discount rate":          "by which later costs count less, a year",
	"economics.energy price":           "per kWh",
	"economics.efficiency":             "of pump and motor together",
	"economics.price of a swing valve": "the price ratio times it is the price of a candidate without price amount",
	"economics.slam damage":            "reverse velocity from which one slam costs the amount",
	"report.project":                   "number or name of the project",
	"report.document":                  "number of the document",
	"report.revision":                  "of the document",
	"report.date":                      "of the document",
	"report.prepared":                  "who prepared it",
	"report.checked":                   "who checked it",
}

// helpOf is the help of a path, with aName and [1] for names and rows.
func helpOf(path string) string {
	path = strings.NewReplacer("."+aName, ".*", "[1]", ".*").Replace(path)
	for _, shared := range [][2]string{{"", ""}, {"stations.*.branch.", "pipes.*."}, {"valves.*.", "candidates.*."}, {"scenarios.*.events.", "events."}} {
		if rest, ok := strings.CutPrefix(path, shared[0]); ok {
			if text := helps[shared[1]+rest]; text != "" {
				return text
			}
		}
	}
	for _, k := range network.Kinds {
		if k.Section == path {
			return k.Help
		}
	}
	return ""
}

// inForm says how a value is written, with its bounds and, where it can be so written, an example.
func inForm(f shape, example string) string {
	switch f.kind {
	case isWord:
		text := "one of: " + strings.Join(f.words, ", ")
		if len(f.words) > 20 || len(f.words) == 0 {
			return ""
		}
		return text
	case isCount:
		return "a whole number"
	case isDatum:
		return "a number in " + f.unit + within(f.low, f.high, f.above, func(x float64) string { return inWords(x, f.unit) })
	case isFigure:
		d := f.dim
		if f.unit == "1" || d == quantity.Number {
			return "a number" + within(f.low, f.high, f.above, func(x float64) string { return fmt.Sprintf("%.4g", x) })
		}
		text := article(d.String()) + " with its unit"
		if math.IsInf(f.low, 0) || math.IsInf(f.high, 0) {
			if _, err := quantity.Parse(example, d); err != nil {
				example = d.Example()
			}
			text += ", e.g. " + example
		}
		return text + within(f.low, f.high, f.above, func(x float64) string { return quantity.Format(x, d, quantity.SI) })
	case isTable:
		var names []string
		for _, c := range f.columns {
			name := c.name + " " + quantity.SI.Unit(c.dim).Symbol
			if c.optional {
				name = "if known " + name
			}
			names = append(names, strings.TrimSpace(name))
		}
		return "a table of " + strings.Join(names, ", ") + ": rows, columns and rows, or the name of a CSV file"
	}
	return ""
}

// within says in words between which bounds a figure lies.
func within(low, high float64, above bool, show func(float64) string) string {
	below := math.IsInf(high, 1) || high >= 1e12
	switch {
	case math.IsInf(low, -1) && below:
		return ""
	case math.IsInf(low, -1):
		return ", at most " + show(high)
	case above && below && low < 1e-3:
		return ", more than zero"
	case below:
		return ", " + show(low) + " or more"
	}
	return ", " + show(low) + " to " + show(high)
}

// sentence begins with a capital letter and ends with a full stop.
func sentence(text string) string {
	text = strings.TrimSpace(text)
	if text == "" {
		return ""
	}
	if first, _, _ := strings.Cut(text, " "); first != strings.ToUpper(first) || len(first) == 1 {
		text = strings.ToUpper(text[:1]) + text[1:]
	}
	if !strings.HasSuffix(text, ".") {
		text += "."
	}
	return text
}
