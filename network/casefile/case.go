package casefile

import (
	"fmt"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/choice"
)

// Format is the version of the case file that is read.
const Format = 1

// read reads the tree of the document.
func (d *Document) read() reading {
	r := d.reader()
	root := &section{r: r, node: d.root, at: &node{src: d.src, line: 1, column: 1}}
	r.format(root)
	c := &choice.Case{Name: caseName(d.src.name)}
	c.Title, _ = root.text("title")
	c.Note, _ = root.text("note")

	var f fittings
	root.need(r.compared, "{name: {type: swing, size: DN250}}")
	f.valves = r.valves(root, "valves", nil)
	f.candidates = r.valves(root, r.compared, f.valves)
	r.uniqueValves(d.root, f.candidates, f.valves)

	if !root.has("check valves") {
		root.need("stations", "{name: {from: node, to: node, ...}}")
	}
	base := choice.Scenario{Name: "base", Network: r.installation(root, f)}
	base.Events = r.events(root, base.Network)
	run := r.section(root.take("run"), "run")
	c.Until, _ = run.positive("until", quantity.Time)
	if word, ok := run.choose("friction", frictionWords()); ok && word != "" {
		for _, f := range choice.Frictions() {
			if f.String() == word {
				c.Friction = f
			}
		}
	} else {
		r.assume("run.friction", "quasi-steady", Default, "common practice", "run: friction as in steady flow at the same velocity; unsteady friction would damp the waves more")
	}
	if word, ok := run.choose("cavities", cavityWords()); ok && word != "" {
		for _, f := range choice.CavityForms() {
			if f.String() == word {
				c.Cavities = f
			}
		}
	} else {
		r.assume("run.cavities", "gas", Default, "common practice", "run: where the pressure falls to that of vapour, cavities form that hold a little free gas")
	}
	run.done()
	c.Duty = r.duty(root)
	c.Limits = r.limits(root, c.Duty, running(base.Network))
	c.Economics = r.economics(root, c.Duty)
	made := r.offered(d.offers, c.Economics)
	c.Service = r.service(root)
	block := r.titleBlock(root)
	root.take("scenarios")
	root.done() // before anything is judged that an unknown key may have left out
	r.judge(d.root, base.Network, f, "events", base.Events, c.Until)
	c.Scenarios = r.scenarios(root, f, base, c.Until)
	for i, s := range c.Scenarios {
		c.Scenarios[i].Events = inTime(s.Events)
	}
	r.bearing(d.root, c)

	for _, o := range d.overrides {
		r.assumptions = append(r.assumptions, fmt.Sprintf("%s set to %s, not as in the case file", o.path, o.value))
	}
	out := reading{offers: made, block: block, origins: r.origins, files: r.files.names, err: r.errs.sorted(d.src.name).orNil()}
	if out.err != nil {
		return out
	}
	c.Candidates = f.candidates
	c.Valves = map[string]valve.Spec{}
	for _, v := range f.valves {
		c.Valves[v.Name] = v
	}
	c.Assumptions, c.Warnings = r.assumptions, r.warnings
	if d.offers != nil {
		r.files.bytes[d.offers.name] = d.offers.raw
		r.files.names = append(r.files.names, d.offers.name)
	}
	c.InputSHA256 = r.files.sum(d.raw, d.overrides)
	c.Inputs = append([]string{baseName(d.src.name)}, r.files.names...)
	for _, name := range r.files.names {
		out.sources = append(out.sources, Text{name, string(r.files.bytes[name])})
	}
	out.c = c
	return out
}

// running are the units of an installation that run at the start behind a candidate, at least one.
func running(n *network.Network) int {
	units := 0
	if n != nil {
		for _, s := range n.Stations {
			if s.CheckValve == "" {
				units += max(s.Units-s.Stopped, 0)
			}
		}
	}
	return max(units, 1)
}

// format checks the version of the file.
func (r *reader) format(root *section) {
	root.need("format", fmt.Sprint(Format))
	if n, ok := root.count("format"); ok && n != Format {
		r.failed("format", root.node.get("format").value.fault(fmt.Sprintf("format %d is not known", n), fmt.Sprintf("this program reads format %d", Format)))
	}
}

// cavityWords are the forms of cavities that a case may ask for.
func cavityWords() []string {
	var words []string
	for _, f := range choice.CavityForms() {
		words = append(words, f.String())
	}
	return words
}

// frictionWords are the forms of friction that a case may ask for.
func frictionWords() []string {
	var words []string
	for _, f := range choice.Frictions() {
		words = append(words, f.String())
	}
	return words
}
