package casefile

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"seatwise/network/quantity"
)

// valvesFile is a file of check valves that a case names in place of its section valves:
//
//	format: 1
//	title, note          optional
//	valves               name: as in a case
//
// Its section takes the place of the name in the tree of the case, and keeps its own lines and columns.
type valvesFile struct {
	name string // from the folder of the case
	raw  []byte
	root *node
}

// withValvesFile is the tree with the section of the file of valves that it names, when it names one.
func withValvesFile(root *node, open func(string) ([]byte, error)) (*node, *valvesFile, Errors) {
	p := root.get("valves")
	if p == nil || p.value.kind != scalar {
		return root, nil, nil
	}
	const wanted = "valves are named check valves with their keys, or the name of a YAML file of them beside the case"
	if strings.Contains(p.value.text, ": ") {
		return root, nil, Errors{p.value.fault("a colon inside a value", wanted)}
	}
	f := newFiles(open)
	raw, err := f.read(p.value.src.folder, p.value.text, valvesEndings)
	if err != nil {
		return root, nil, Errors{p.value.fault("valves: "+err.Error(), wanted)}
	}
	own := &valvesFile{name: f.names[0], raw: raw}
	src, fault := newSource(own.name, "", raw)
	if fault != nil {
		return root, nil, Errors{fault}
	}
	src.folder = path.Dir(own.name)
	var errs Errors
	if own.root, errs = parse(src); len(errs) > 0 {
		return root, nil, errs
	}
	const begin = "a file of valves has format: 1, and below valves: the check valves by their names"
	if own.root.kind != mapping {
		what := "it is " + own.root.kind.String()
		if own.root.kind == empty {
			what = "it is empty"
		}
		return root, nil, Errors{own.root.fault("this is no file of valves: "+what, begin)}
	}
	section := own.root.get("valves")
	for _, key := range []string{"candidates", "stations"} {
		if p := own.root.get(key); p != nil {
			return root, nil, Errors{p.key.fault(fmt.Sprintf("%s is a case: it has the section %s", own.name, key), "put its valves into a file that has format and valves alone")}
		}
	}
	switch {
	case section == nil:
		return root, nil, Errors{own.root.fault("valves is missing in "+own.name, begin)}
	case section.value.kind == scalar:
		return root, nil, Errors{section.value.fault("valves: a file of valves names no other file", "write the valves here")}
	}
	grafted := *root
	grafted.keys = slices.Clone(root.keys)
	grafted.keys[root.index["valves"]] = *section
	return &grafted, own, nil
}

// judge checks what stands beside the valves in the file.
func (f *valvesFile) judge(r *reader) {
	s := &section{r: r, path: f.name, node: f.root, at: f.root}
	r.format(s)
	s.text("title")
	s.text("note")
	s.take("valves")
	s.done()
}

// holds tells whether a value comes from the file.
func (f *valvesFile) holds(n *node) bool { return f != nil && n != nil && n.src == f.root.src }

// place says where the section valves of a tree stands.
func (f *valvesFile) place(root *node) string {
	if p := root.get("valves"); p != nil && f.holds(p.key) {
		return f.name
	}
	return "the section valves"
}

// Endings of the files that a case may name.
var (
	tableEndings  = ending{[]string{".csv"}, "neither a table nor the name of a CSV file"}
	valvesEndings = ending{[]string{".yaml", ".yml"}, "not the name of a YAML file"}
)

// ending are those that a file may have, and what a name without one is said to be.
type ending struct {
	of    []string
	fault string
}

func (e ending) check(name string) error {
	if !slices.Contains(e.of, strings.ToLower(path.Ext(name))) {
		return fmt.Errorf("%s is %s", quantity.Quote(name), e.fault)
	}
	return nil
}
