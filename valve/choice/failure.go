package choice

// failure is why no candidate has a result: the error of the first.
type failure struct {
	candidate string
	err       error
}

func (f *failure) Error() string { return f.candidate + ": " + bare(f.err) }
func (f *failure) Unwrap() error { return f.err }
