package main

import (
	"fmt"
	"path/filepath"
)

// interrupted is the error of a run that was cut short but had something to show.
type interrupted struct {
	kept  string // what became of it
	cause error
}

func (e *interrupted) Error() string { return "interrupted; " + e.kept }
func (e *interrupted) Unwrap() error { return e.cause }

// aside ends the name of the folder of incomplete results beside that of complete ones.
const aside = "-incomplete"

// setAside is the folder for incomplete results, nil when there is none, and what to say of it. Complete results of an earlier run stay as they are unless
// the user forces it: then, as in a folder without complete results, the incomplete ones go where the complete ones would have gone.
func (p *program) setAside(to *folder, in *input, names []string) (*folder, string) {
	const marked = "what was finished is in %s, marked incomplete"
	switch {
	case to == nil:
		return nil, "what was finished is shown; nothing was written"
	case !to.complete || p.force:
		return to, fmt.Sprintf(marked, to.path)
	}
	path := filepath.Clean(to.path) + aside
	beside, err := newFolder(path, summaryFile, in.Name, in.files, names, false)
	if err != nil {
		return nil, fmt.Sprintf("nothing was written: %v, and %s keeps the complete results of an earlier run", err, to.path)
	}
	return beside, fmt.Sprintf(marked+"; %s keeps the complete results of an earlier run", path, to.path)
}
