package casefile

import (
	"fmt"
	"slices"
	"strings"

	"seatwise/network"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/choice"
)

// settable are the sections that a scenario may change: those of the installation.
var settable = append([]string{"fluid", "atmosphere", "reservoirs", "demands", "dead ends", "stations", "pipes", "check valves", "throttling valves"},
	deviceSections()...)

// fittings are the check valves of a case.
type fittings struct{ candidates, valves []valve.Spec }

// bore is the size of a named check valve, m; "" is the candidate, of which the first speaks for all. 0 when there is none.
func (f fittings) bore(name string) float64 {
	if name == "" {
		if len(f.candidates) > 0 {
			return f.candidates[0].Size
		}
		return 0
	}
	for _, v := range f.valves {
		if v.Name == name {
			return v.Size
		}
	}
	return 0
}

// installation reads the installation of a tree and judges it.
func (r *reader) installation(root *section, f fittings) *network.Network {
	n := &network.Network{}
	r.surroundings(root)
	n.Atmosphere = r.atmosphere
	n.Fluid = r.liquid(root)
	r.nodes(root, n)
	r.stations(root, n)
	r.pipes(root, n)
	r.checkValves(root, n)
	r.throttles(root, n)
	r.devices(root, n)
	r.columns(n, f.bore)
	return n
}

// judge adds what the installation and its events say about themselves.
func (r *reader) judge(root *node, n *network.Network, f fittings, at string, events []network.Event, until float64) {
	r.findings(root, "", n.ValidateItems(func(path string) string { return r.written(root, path) }))
	if !r.holes {
		r.findings(root, "", n.ValidateGraph())
	}
	r.fitted(root, n, f.candidates, f.valves)
	if !r.unread("stations") && !r.holes {
		r.findings(root, at, n.ValidateEvents(events))
	}
	for _, v := range n.Reservoirs {
		if len(events) == 0 && len(v.Levels) > 0 && !r.unread(at) {
			r.warnings = append(r.warnings, fmt.Sprintf("reservoirs.%s.level: the level changes, but there is no event: valves are compared in the steady flow at the start, and what the change does is not judged", v.Name))
		}
	}
	for i, e := range events {
		if path := fmt.Sprintf("%s[%d].at", at, i+1); until > 0 && e.Time >= until && !r.unread(path) {
			r.errs = append(r.errs, r.place(root, path).fault(fmt.Sprintf("%s: the run ends at %.4g s, before the event", path, until), "let the run go on, or leave run.until out"))
		}
	}
}

// scenarios reads the section scenarios. Base is the first of all: what the case itself says.
func (r *reader) scenarios(root *section, f fittings, base choice.Scenario, until float64) []choice.Scenario {
	all := []choice.Scenario{base}
	seen := map[string]bool{"base": true}
	root.named("scenarios", func(name string, s *section) {
		switch key := strings.ToLower(name); {
		case !validName.MatchString(name):
			r.failed(s.path, s.at.fault(fmt.Sprintf("%s is not a name", quantity.Quote(name)), "names are letters, digits and hyphens, not starting with a hyphen"))
		case seen[key]:
			r.failed(s.path, s.at.fault(fmt.Sprintf("%s: the name is taken", s.path), "names are unique ignoring case, and base is what the case itself says"))
		default:
			seen[key] = true
		}
		tree := s.changed(root.node)
		own := &reader{files: r.files, compared: r.compared, holes: r.holes, plain: r.plain}
		n := own.installation(&section{r: own, node: tree, at: root.at}, f)
		var events []network.Event
		at := "events"
		if s.has("events") {
			events, at = r.events(s, n), s.key("events")
		} else {
			events = own.events(&section{r: own, node: tree, at: root.at}, n) // the number of units may be another here
		}
		for path := range r.broken {
			if strings.HasPrefix(path, at+"[") {
				own.fail(path)
			}
		}
		if !s.has("events") && !s.has("set") {
			r.failed(s.path, s.at.fault(s.path+" is like base", "give it events, or set values"))
			s.take("events")
		}
		own.judge(tree, n, f, at, events, until)
		r.adopt(own, s.path)
		all = append(all, choice.Scenario{Name: name, Network: n, Events: events})
	})
	return all
}

// mostSet is the number of values that one scenario may set.
const mostSet = 100

// changed is the tree of the case with the values that the scenario sets.
func (s *section) changed(tree *node) *node {
	set := s.r.section(s.take("set"), s.key("set"))
	if set.node == nil {
		return tree
	}
	for i, p := range set.node.keys {
		path := p.key.text
		if i == mostSet {
			s.r.failed(set.path, p.key.fault(fmt.Sprintf("%s: more than %d values", set.path, i), "make a second case"))
			break
		}
		fault := func(msg, hint string) { s.r.failed(set.key(path), p.key.fault(set.path+": "+msg, hint)) }
		steps, err := parsePath(path)
		switch {
		case err != nil:
			fault(err.Error(), `a path is like "pipes.rising-main.bore"`)
			continue
		case !slices.Contains(settable, steps[0].key):
			fault(fmt.Sprintf("%s is not part of the installation", steps[0].key), "a scenario sets values of the installation, as pipes.rising-main.bore does")
			continue
		case p.value.kind == empty:
			fault(path+" has no value", "write it after the colon")
			continue
		}
		at := *p.key
		if at.quoted {
			at.column++ // the path begins behind the quotation mark
		}
		next, wrong := tree.with(path, p.value, &at)
		if wrong != nil {
			fault(wrong.msg, wrong.hint)
			continue
		}
		tree = next
	}
	return tree
}

// adopt takes over what the reading of a scenario found that the case by itself does not say already.
func (r *reader) adopt(own *reader, path string) {
	said := map[string]bool{}
	place := func(e *Error) string { return fmt.Sprintf("%s:%d:%d %s", e.File, e.Line, e.Column, e.Msg) }
	for _, e := range r.errs {
		said[place(e)] = true
	}
	for _, e := range own.errs {
		if !said[place(e)] {
			if !strings.HasPrefix(e.Msg, path) {
				e.Msg = path + ": " + e.Msg
			}
			r.errs = append(r.errs, e)
		}
	}
	r.assumptions = news(r.assumptions, own.assumptions, path)
	r.warnings = news(r.warnings, own.warnings, path)
}

// news appends to said what own adds to it.
func news(said, own []string, path string) []string {
	known := map[string]bool{}
	for _, text := range said {
		known[text] = true
	}
	for _, text := range own {
		if !known[text] {
			said = append(said, path+": "+text)
		}
	}
	return said
}
