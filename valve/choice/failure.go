package choice

import "seatwise/network/quantity"

// failure is why no candidate has a result: the error of the first.
type failure struct {
	candidate string
	err       error
}

func (f *failure) Error() string { return f.candidate + ": " + bare(f.err) }
func (f *failure) Unwrap() error { return f.err }

// Said is an error of a run as the reader is told it: in the units of the settings, without the name of the package that it comes from. It wraps the error.
func (s Settings) Said(err error) error {
	return &said{bare(quantity.Reword(err, s.Units)), err}
}

type said struct {
	text string
	err  error
}

func (e *said) Error() string { return e.text }
func (e *said) Unwrap() error { return e.err }
