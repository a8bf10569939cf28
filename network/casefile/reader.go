package casefile

import (
	"fmt"
	"strings"

	"seatwise/network"
)

// Source says where a value comes from.
type Source uint8

// The sources of a value.
const (
	Given     Source = iota // stands in the case file
	Default                 // put in because the file does not say
	Catalogue               // from a table of standard sizes, materials or valves
	Estimated               // worked out from other values
)

// String is the source in a word.
func (s Source) String() string { return [...]string{"given", "default", "catalogue", "estimated"}[s] }

// Origin says where the value of a path comes from.
type Origin struct {
	Path   string
	Text   string // the value as written, or with its unit
	Source Source
	Status string // how far the value can be trusted; empty when given
}

// reader gathers what comes out of one reading of a tree.
type reader struct {
	files      *files
	errs       Errors
	broken     map[string]bool // paths of values that could not be read
	holes      bool            // something that joins nodes could not be read: the graph is not to be judged
	atmosphere float64         // Pa absolute

	origins     []Origin
	assumptions []string
	warnings    []string
}

// fail marks a path as unread.
func (r *reader) fail(path string) {
	if r.broken == nil {
		r.broken = map[string]bool{}
	}
	r.broken[path] = true
}

// failed marks a path as unread and says why.
func (r *reader) failed(path string, e *Error) {
	r.fail(path)
	r.errs = append(r.errs, e)
}

// unread tells whether a path, or something that it lies in, could not be read.
func (r *reader) unread(path string) bool {
	if len(r.broken) == 0 {
		return false
	}
	for i := len(path); i > 0; i = strings.LastIndexAny(path[:i], ".[") {
		if r.broken[path[:i]] {
			return true
		}
	}
	return false
}

// unreadBelow tells whether a path or something in it could not be read.
func (r *reader) unreadBelow(path string) bool {
	for broken := range r.broken {
		if rest, ok := strings.CutPrefix(broken, path); ok && (rest == "" || rest[0] == '.' || rest[0] == '[') {
			return true
		}
	}
	return r.unread(path)
}

func (r *reader) given(path, text string) {
	r.origins = append(r.origins, Origin{Path: path, Text: text, Source: Given})
}

// assume records a value that the file does not give, in words and in the list of origins.
func (r *reader) assume(path, text string, source Source, status, words string, args ...any) {
	r.origins = append(r.origins, Origin{Path: path, Text: text, Source: source, Status: status})
	sentence := fmt.Sprintf(words, args...)
	if status != "" {
		sentence += " (" + status + ")"
	}
	r.assumptions = append(r.assumptions, sentence)
}

// findings turns what the network says about itself into errors and warnings.
func (r *reader) findings(root *node, prefix string, list []network.Finding) {
	for _, f := range list {
		path := prefix + f.Path
		if r.unread(path) {
			continue
		}
		text := path + ": " + f.Text
		if f.Warning {
			if f.Hint != "" {
				text += "; " + f.Hint
			}
			r.warnings = append(r.warnings, text)
			continue
		}
		r.errs = append(r.errs, root.place(path).fault(text, f.Hint))
	}
}
