package casefile

import (
	"path"
	"strings"
)

// Text is a text that a case was read from.
type Text struct{ Name, Text string }

// baseName is the name of a file without its folder.
func baseName(file string) string { return path.Base(strings.ReplaceAll(file, `\`, "/")) }

// Sources are the case file, the values that were set in place of its own, and the files that it names, in the order of reading. The case has to be
// without faults.
func (d *Document) Sources() []Text {
	out := []Text{{baseName(d.src.name), string(d.raw)}}
	for _, o := range d.overrides {
		out = append(out, Text{"set", o.path + "=" + o.value})
	}
	return append(out, d.reading().sources...)
}
