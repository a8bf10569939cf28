package casefile

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"seatwise/network"
	"seatwise/network/pipe"
	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/catalogue"
)

// candidates is the section of the valves under comparison in a case.
const candidates = "candidates"

// valves reads check valves, in the order of the file: the section valves, the section candidates, which may name some of the former, or the offers of
// makers.
func (r *reader) valves(root *section, key string, named []valve.Spec) []valve.Spec {
	var specs []valve.Spec
	root.named(key, func(name string, s *section) {
		if name == candidate || !validName.MatchString(name) {
			r.failed(s.path, s.at.fault(fmt.Sprintf("%s: %s cannot be the name of a check valve", key, quantity.Quote(name)), "names are letters, digits and hyphens; candidate stands for whichever is under comparison"))
		}
		if key == candidates {
			r.survey.key(s.path, "valve")
			r.survey.text(s.key("valve"))
		}
		if key == candidates && s.has("valve") {
			specs = append(specs, s.reference(name, named))
			s.offer(name)
			return
		}
		specs = append(specs, s.valve(name))
		switch key {
		case candidates:
			s.offer(name)
		case offered:
			s.reply(name)
		}
	})
	return specs
}

var validName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9-]*$`)

// valve reads one check valve.
func (s *section) valve(name string) valve.Spec {
	spec := valve.Spec{Name: name, Set: map[string]float64{}, Tables: map[string]valve.Points{}}
	families := catalogue.Families()
	var types []string
	for _, f := range families {
		types = append(types, f.Name)
	}
	if s.need("type", "swing") != nil {
		spec.Type, _ = s.choose("type", types)
	}
	spec.Size = s.size()
	if spec.Type == "" { // without its type nobody knows which keys it may have: those of every family pass
		s.takeAll()
	}
	for _, f := range families {
		if f.Name == spec.Type {
			s.data(f, &spec)
		}
	}
	return spec
}

// data reads the data that a family has.
func (s *section) data(f catalogue.Family, spec *valve.Spec) {
	for _, k := range f.Keys {
		if x, ok := s.datum(k); ok {
			spec.Set[k.Name] = x
		}
	}
	for _, t := range f.Tables {
		if t == catalogue.TestPoints {
			if s.has(t) {
				spec.Tests = s.tests(t, len(f.Needs()) > 0)
			} else {
				s.take(t)
				s.r.survey.form(s.key(t), shape{kind: isTable, columns: testColumns})
			}
		} else if points, ok := s.points(t); ok {
			spec.Tables[t] = points
		}
	}
}

var nominal = regexp.MustCompile(`^DN ?([1-9][0-9]{1,3})$`)

// size reads the nominal size, m: DN250 and NPS 10 are 250 mm.
func (s *section) size() float64 {
	p := s.need("size", "DN250")
	s.r.survey.form(s.key("size"), shape{kind: isSize})
	if p == nil {
		return 0
	}
	if dn := nominal.FindStringSubmatch(p.value.text); dn != nil {
		s.r.given(s.key("size"), p.value.text)
		mm, err := strconv.ParseFloat(dn[1], 64)
		return s.covered(mm/1000, err == nil)
	}
	if dn, err := pipe.Nominal(p.value.text); err == nil && strings.HasPrefix(strings.ToUpper(p.value.text), "NPS") {
		s.r.given(s.key("size"), p.value.text)
		return s.covered(float64(dn)/1000, true)
	}
	if digits(p.value.text) {
		s.r.failed(s.key("size"), p.value.fault(fmt.Sprintf("%s: %s is no size", s.key("size"), quantity.Quote(p.value.text)), fmt.Sprintf("write DN%s or %[1]s mm", p.value.text)))
		return 0
	}
	if text := strings.ToUpper(p.value.text); strings.HasPrefix(text, "DN") || strings.HasPrefix(text, "NPS") {
		s.r.failed(s.key("size"), p.value.fault(fmt.Sprintf("%s: %s is no nominal size", s.key("size"), quantity.Quote(p.value.text)), "write it like DN250 or NPS 10, or as a length, 250 mm"))
		return 0
	}
	size, ok := s.positive("size", quantity.Length)
	return s.covered(size, ok)
}

// covered checks that the catalogue has a size.
func (s *section) covered(size float64, ok bool) float64 {
	if !ok || size >= catalogue.SmallestSize && size <= catalogue.LargestSize {
		return size
	}
	p := s.node.get("size")
	s.r.failed(s.key("size"), p.value.fault(fmt.Sprintf("%s: the catalogue has no %s", s.key("size"), p.value.text),
		fmt.Sprintf("it has DN%.0f to DN%.0f", catalogue.SmallestSize*1e3, catalogue.LargestSize*1e3)))
	return 0
}

// datum reads one value that stands in place of the catalogue's.
func (s *section) datum(k catalogue.Key) (float64, bool) {
	if k.Named() {
		return s.worded(k)
	}
	p := s.take(k.Name)
	s.r.survey.datum(s.key(k.Name), k)
	if p == nil {
		return 0, false
	}
	path := s.key(k.Name)
	var words []string
	for _, w := range k.Words() {
		if p.value.kind == scalar && p.value.text == w.Text {
			s.r.given(path, w.Text)
			return w.Value, true
		}
		words = append(words, w.Text)
	}
	before := len(s.r.errs)
	if k.Name == "kv" && p.value.kind == scalar && strings.Contains(p.value.text, "g") {
		s.r.failed(path, p.value.fault(fmt.Sprintf("%s: %s looks like a Cv, which is gpm at 1 psi", path, quantity.Quote(p.value.text)), "divide Cv by 1.156 and write it in m3/h: Kv is at 1 bar"))
		return 0, false
	}
	x, ok := s.r.inUnit(p.value, path, k.Unit)
	if len(words) > 0 && len(s.r.errs) > before {
		s.r.errs[before].Hint = "write " + strings.Join(words, ", ") + " or " + inUse((k.Min+k.Max)/2, k.Unit)
	}
	if k.Name == "price" && len(s.r.errs) > before { // the one ratio that looks like an amount
		s.r.errs[before].Hint = "price is a ratio to a plain swing valve of the same size, e.g. 1.5"
	}
	if ok && !(x >= k.Min && x <= k.Max) {
		s.r.failed(path, p.value.fault(fmt.Sprintf("%s is %s", path, p.value.text),
			fmt.Sprintf("%s: give %s to %s", k.Help, inUse(k.Min, k.Unit), inUse(k.Max, k.Unit))))
		return 0, false
	}
	return x, ok
}

// worded reads a datum that has no other values than its words.
func (s *section) worded(k catalogue.Key) (float64, bool) {
	var texts []string
	for _, w := range k.Words() {
		texts = append(texts, w.Text)
	}
	s.r.survey.help(s.key(k.Name), k.Help)
	text, ok := s.choose(k.Name, texts)
	i := slices.Index(texts, text)
	if !ok || i < 0 {
		return 0, false
	}
	return k.Words()[i].Value, true
}

func inWords(x float64, unit string) string {
	if unit == "1" {
		return fmt.Sprintf("%.4g", x)
	}
	return fmt.Sprintf("%.4g %s", x, unit)
}

// inUse is a value in the unit that is usual for its dimension.
func inUse(x float64, unit string) string {
	if d, ok := quantity.Measured(unit); ok {
		return quantity.Format(x, d, quantity.SI)
	}
	return inWords(x, unit)
}

// inUnit reads a value whose SI unit is given. Of units without a dimension of their own only the SI unit itself is read.
func (r *reader) inUnit(n *node, path, unit string) (float64, bool) {
	if unit == "1" {
		if strings.ContainsAny(n.text, "%p") {
			return r.quantity(n, path, quantity.Fraction)
		}
		return r.quantity(n, path, quantity.Number)
	}
	if d, ok := quantity.Measured(unit); ok {
		return r.quantity(n, path, d)
	}
	text, ok := r.scalar(n, path, "a value in "+unit)
	if !ok {
		return 0, false
	}
	number, given, _ := strings.Cut(text, " ")
	if plainUnit.Replace(given) != plainUnit.Replace(unit) {
		r.failed(path, n.fault(fmt.Sprintf("%s: %s is not in %s", path, quantity.Quote(text), unit), "write it like 100 "+unit))
		return 0, false
	}
	q, err := quantity.Parse(number, quantity.Number)
	if err != nil {
		r.failed(path, unreadable(n, path, err))
		return 0, false
	}
	return q.SI, true
}

var plainUnit = strings.NewReplacer("·", "", "*", "", " ", "", ".", "", "²", "2", "(", "", ")", "")

// points reads a table over the opening.
func (s *section) points(key string) (valve.Points, bool) {
	value := strings.TrimSuffix(key, " table")
	rows, _ := s.table(key, []column{{name: "opening", dim: quantity.Fraction}, {name: value, dim: quantity.Number}})
	if rows == nil {
		return valve.Points{}, false
	}
	var t valve.Points
	for i, row := range rows {
		if i > 0 && row[0] <= rows[i-1][0] {
			s.rowFault(key, i, "the opening does not increase", "sort the rows by opening and give each once")
			return valve.Points{}, false
		}
		t.Opening = append(t.Opening, row[0])
		t.Value = append(t.Value, row[1])
	}
	return t, true
}

// uniqueValves reports two check valves of one name, ignoring case.
func (r *reader) uniqueValves(root *node, compared, valves []valve.Spec) {
	seen := map[string]string{}
	check := func(key string, specs []valve.Spec) {
		for _, v := range specs {
			path := key + "." + v.Name
			if first, ok := seen[strings.ToLower(v.Name)]; ok && r.plain[first] != path { // a candidate may have the name of the valve that it is
				r.errs = append(r.errs, root.place(path).fault(fmt.Sprintf("%s: the name is taken by %s", path, first), "names are unique ignoring case"))
				continue
			}
			seen[strings.ToLower(v.Name)] = path
		}
	}
	check(r.compared, compared)
	check("valves", valves)
}

// fitted checks that every place of a check valve has one and that every check valve can be made of its data where it stands.
func (r *reader) fitted(root *node, n *network.Network, under, valves []valve.Spec) {
	byName := map[string]valve.Spec{}
	names := []string{candidate}
	for _, v := range valves {
		byName[v.Name] = v
		names = append(names, v.Name)
	}
	compared := false
	stands := map[string]bool{}
	place := func(path, named string, slope float64) {
		if named == "" {
			compared = true
			for _, v := range under {
				r.complete(root, n, r.compared+"."+v.Name, v, slope)
			}
			return
		}
		v, ok := byName[named]
		if !ok {
			hint := "write candidate, or a name from the section valves"
			if near := network.Nearest(named, names); near != "" {
				hint = fmt.Sprintf("did you mean %q?", near)
			}
			if !r.unread("valves") && !r.unread(path) {
				r.errs = append(r.errs, root.place(path).fault(fmt.Sprintf("%s: there is no valve %s", path, quantity.Quote(named)), hint))
			}
			return
		}
		stands[named] = true
		r.complete(root, n, "valves."+v.Name, v, slope)
	}
	for _, s := range n.Stations {
		place("stations."+s.Name+".check valve", s.CheckValve, s.Slope)
	}
	for _, v := range n.CheckValves {
		place("check valves."+v.Name+".valve", v.CheckValve, v.Slope)
	}
	for _, v := range valves {
		if !stands[v.Name] { // nowhere in this case: it is built all the same, that a fault in it shows before it is used
			r.build(root, n, "valves."+v.Name, v, 0)
		}
	}
	if !compared && len(n.Stations)+len(n.CheckValves) > 0 && len(under) > 0 && !r.holes {
		r.errs = append(r.errs, root.place(r.compared).fault("no check valve of the installation is a candidate", "leave check valve out of the station, or valve out of the check valve, that is under comparison"))
	}
}

// classless takes the class of an error out of its text: the place says that the datum cannot be used.
var classless = strings.NewReplacer(catalogue.ErrValue.Error()+": ", "", valve.ErrLaw.Error()+": ", "", valve.ErrTable.Error()+": ", "", "catalogue: ", "")

// build makes a valve of its data to see whether that can be done.
func (r *reader) build(root *node, n *network.Network, path string, spec valve.Spec, slope float64) (valve.Valve, bool) {
	if spec.Type == "" || spec.Size == 0 || math.Abs(slope) > math.Pi/2 || r.unreadBelow(path) {
		return valve.Valve{}, false
	}
	v, err := catalogue.Complete(spec, catalogue.Setting{Density: n.Fluid.Density, Gravity: n.G(), Slope: slope})
	if err != nil {
		at := path
		if plain, ok := r.plain[path]; ok {
			at = plain
		}
		for line := range strings.SplitSeq(err.Error(), "\n") {
			r.errs = append(r.errs, root.place(at).fault(at+": "+classless.Replace(line), ""))
		}
		r.fail(path)
		return valve.Valve{}, false
	}
	return v, true
}

// complete builds a valve and lists where its data come from.
func (r *reader) complete(root *node, n *network.Network, path string, spec valve.Spec, slope float64) {
	v, ok := r.build(root, n, path, spec, slope)
	if !ok {
		return
	}
	if len(spec.Tests) > 0 {
		r.assume(path+"."+catalogue.TestPoints, "", Given, "", "%s: %s", path, tested(v))
	}
	if _, ok := v.Motion.(*valve.Measured); !ok {
		r.assume(path, "", Catalogue, "common practice, ±40 %", "%s: what is not given is the catalogue's for %s of %.4g mm", path, spec.Type, spec.Size*1e3)
	}
	for _, d := range v.Data {
		if d.Origin == valve.Given {
			continue
		}
		source := map[valve.Origin]Source{valve.Default: Default, valve.Catalogue: Catalogue, valve.Estimated: Estimated}[d.Origin]
		r.origins = append(r.origins, Origin{Path: path + "." + d.Key, Text: cmp.Or(d.Word, inWords(d.Value, d.Unit)), Source: source, Status: d.Status})
	}
}
