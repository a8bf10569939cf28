package network

import (
	"fmt"
	"slices"
	"strings"
)

// device checks the data of a device by the tags of its fields and, when those are right, by its own rules.
func (c *checker) device(d Device) {
	section, name := d.Label()
	at := section + "." + name + "."
	before := len(c.findings)
	for _, f := range Fields(d) {
		path := at + f.Key
		switch f.Form {
		case Figure:
			c.within(path, f, f.Number())
		case Word:
			if !slices.Contains(f.Words, f.Text()) {
				c.fault(path, "one of: "+strings.Join(f.Words, ", "), "there is no %q", f.Text())
			}
		case Table:
			for i, row := range f.Rows() {
				for j, x := range row {
					c.within(fmt.Sprintf("%s[%d][%d]", path, i+1, j+1), f.Columns[j], x)
				}
			}
		}
	}
	if len(c.findings) > before {
		return
	}
	for _, one := range d.Check() {
		one.Path = strings.TrimSuffix(at+one.Path, ".")
		c.findings = append(c.findings, one)
	}
}

// within checks a figure against its bounds.
func (c *checker) within(path string, f Field, x float64) {
	switch {
	case f.Holds(x):
	case !finite(x):
		c.fault(path, "", "%s is not a finite number", f.Key)
	case x < f.Min:
		c.fault(path, fmt.Sprintf("give %g or more, in SI units", f.Min), "%s is %s", f.Key, c.show(path, x, ""))
	default:
		c.fault(path, fmt.Sprintf("give %g or less, in SI units", f.Max), "%s is %s", f.Key, c.show(path, x, ""))
	}
}

// deviceNames checks the names of devices: with those of everything that stands between nodes they are unique together.
func (c *checker) deviceNames(n *Network) {
	taken := map[string]string{} // path by name in lower case
	for _, l := range n.links() {
		_, name, _ := strings.Cut(l.path, ".")
		taken[strings.ToLower(name)] = l.path
	}
	mine := map[string]bool{} // paths of the devices seen
	for _, d := range n.Devices {
		section, name := d.Label()
		path := section + "." + name
		if !nameForm.MatchString(name) {
			c.fault(path, "names are letters, digits and hyphens, not starting with a hyphen", "%q is not a name", name)
			continue
		}
		key := strings.ToLower(name)
		if first, ok := taken[key]; ok && (first != path || mine[path]) {
			c.fault(path, "names of devices and of what stands between nodes are unique together, ignoring case", "the name is taken by %s", first)
			continue
		}
		taken[key], mine[path] = path, true
	}
}
