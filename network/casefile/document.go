package casefile

import (
	"path"
	"strings"
	"sync"

	"seatwise/valve/choice"
)

// Document is a case file whose syntax is right: its source, and a tree of values that know their places. It does not change.
type Document struct {
	src       *source
	raw       []byte
	root      *node
	open      func(path string) ([]byte, error)
	overrides []override
	own       *valvesFile // nil: the case names none
	offers    *offersFile // nil: the case itself is read
	survey    *survey     // nil: nobody wants to know what is asked
	reading   func() reading
}

// reading is what comes out of a document.
type reading struct {
	c       *choice.Case
	block   TitleBlock
	origins []Origin
	files   []string
	sources []Text // files beside the case
	offers  *Offers
	err     error
}

// Read reads the text of a case. Name stands in messages and, without folder and ending, names the case; "-" and "" are standard input.
// Open reads the files that the case names beside it, by a path with / relative to the folder of the case that never leaves it; with nil such
// files are refused. An error is of type [Errors].
func Read(name string, src []byte, open func(path string) ([]byte, error)) (*Document, error) {
	if name == "" || name == "-" {
		name = "standard input"
	}
	s, fault := newSource(name, "", src)
	if fault != nil {
		return nil, Errors{fault}
	}
	root, errs := parse(s)
	if len(errs) > 0 {
		return nil, errs.sorted(name)
	}
	switch root.kind {
	case mapping:
	case empty:
		return nil, Errors{{File: name, Msg: "the file holds no case", Hint: "begin with format: 1"}}
	default:
		return nil, Errors{root.fault("a case is keys with values, this is "+root.kind.String(), "begin with format: 1")}
	}
	root, own, errs := withValvesFile(root, open)
	if len(errs) > 0 {
		return nil, errs.sorted(name)
	}
	return newDocument(&Document{src: s, raw: src, root: root, open: open, own: own}), nil
}

func newDocument(d *Document) *Document {
	d.reading = sync.OnceValue(d.read)
	return d
}

// Case is the case of the document. An error is of type [Errors] and holds every fault. The case is the same at every call: it is not to be
// changed.
func (d *Document) Case() (*choice.Case, error) {
	r := d.reading()
	return r.c, r.err
}

// Origins says of every value where it comes from, in the order of reading. Of a case with faults the list is not complete.
func (d *Document) Origins() []Origin { return d.reading().origins }

// Fault is an error about what stands at a path, or about as much of it as the file has, with its place; of what only shows when the case is put to use.
func (d *Document) Fault(path, msg, hint string) *Error { return d.root.place(path).fault(msg, hint) }

// Files are the files that the case names and that could be read, by their paths from the folder of the case, in the order of reading.
func (d *Document) Files() []string { return d.reading().files }

// reader reads the document from the beginning, and knows what has been read already.
func (d *Document) reader() *reader {
	r := &reader{survey: d.survey, files: newFiles(d.open), compared: candidates, plain: map[string]string{}, valvesFrom: d.own.place(d.root)}
	if d.offers != nil {
		r.compared = offered
	}
	if d.own != nil {
		r.files.names = []string{d.own.name}
		r.files.bytes[d.own.name] = d.own.raw
		d.own.judge(r)
	}
	return r
}

// TitleBlock is what the case says for the title block of a report.
func (d *Document) TitleBlock() TitleBlock { return d.reading().block }

// caseName is the name of a file without folder and ending.
func caseName(file string) string {
	if file == "standard input" {
		return "case"
	}
	base := path.Base(strings.ReplaceAll(file, `\`, "/"))
	if name := strings.TrimSuffix(base, path.Ext(base)); name != "" && name != "." && name != "/" {
		return name
	}
	return "case"
}
