package casefile

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// reference reads a candidate that is one of the section valves: `valve` names it, and any other datum stands in place of its own. Type and size
// are part of what it is.
func (s *section) reference(name string, valves []valve.Spec) valve.Spec {
	empty := valve.Spec{Name: name, Set: map[string]float64{}, Tables: map[string]valve.Points{}}
	var names []string
	for _, v := range valves {
		names = append(names, v.Name)
	}
	for _, key := range []string{"type", "size"} {
		if p := s.take(key); p != nil {
			s.r.survey.clash(s.key(key))
			s.r.failed(s.key(key), p.key.fault(fmt.Sprintf("%s: %s goes with valve no more: the valve has its own", s.path, key), "take it out, or write another valve below valves"))
		}
	}
	var named string
	switch p := s.take("valve"); {
	case p == nil:
	case len(names) == 0 && s.r.unread("valves"):
		s.r.fail(s.key("valve"))
	case len(names) == 0:
		s.r.failed(s.key("valve"), p.value.fault(s.key("valve")+": the case has no valves of its own", "give them below valves, or name a file of them: valves: own-valves.yaml"))
	default:
		named, _ = s.choose("valve", names)
	}
	var changed []string
	for _, p := range s.node.keys {
		if !slices.Contains([]string{"valve", "price amount", "upkeep"}, p.key.text) {
			changed = append(changed, p.key.text)
		}
	}
	if len(changed) == 0 {
		s.r.plain[s.path] = "valves." + named
	}
	i := slices.IndexFunc(valves, func(v valve.Spec) bool { return v.Name == named })
	if i < 0 || valves[i].Type == "" || s.r.unreadBelow("valves."+named) { // nobody knows which keys it may have: those of every family pass
		s.takeAll()
		return empty
	}
	spec := valves[i]
	spec.Name, spec.Set, spec.Tables = name, maps.Clone(spec.Set), maps.Clone(spec.Tables)
	for _, f := range catalogue.Families() {
		if f.Name == spec.Type {
			s.data(f, &spec)
		}
	}
	spec.Source = fmt.Sprintf("valve %s of %s", named, s.r.valvesFrom)
	if len(changed) > 0 {
		spec.Source += ", but for " + strings.Join(changed, ", ")
	}
	s.r.assumptions = append(s.r.assumptions, s.path+" is the "+spec.Source)
	return spec
}

// takeAll takes the keys of every family.
func (s *section) takeAll() {
	for _, f := range catalogue.Families() {
		for _, k := range f.Keys {
			s.take(k.Name)
		}
		for _, t := range f.Tables {
			s.take(t)
		}
	}
}
