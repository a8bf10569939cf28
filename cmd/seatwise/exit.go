package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"seatwise/network/casefile"
	"seatwise/valve/catalogue"
	"seatwise/valve/choice"
	"seatwise/valve/fit"
)

// Exit codes.
const (
	exitDone        = 0
	exitFailed      = 1
	exitInput       = 2
	exitStrict      = 3
	exitInterrupted = 130
)

// errStrict is wrapped when no candidate meets the limits and the user asked to be told by the exit code.
var errStrict = errors.New("no candidate meets the limits")

// inputClasses are faults of the input that show only when it is put to use.
var inputClasses = []error{catalogue.ErrType, catalogue.ErrKey, catalogue.ErrValue, choice.ErrCase, fit.ErrFit}

// inputError is a fault of what the user gave: arguments, flags, files.
type inputError struct {
	msg, hint string
	cause     error
}

func (e *inputError) Error() string { return e.msg }
func (e *inputError) Unwrap() error { return e.cause }

// badInput is an input error with a hint, which may be empty.
func badInput(hint, format string, args ...any) error {
	err := fmt.Errorf(format, args...)
	return &inputError{msg: err.Error(), hint: hint, cause: errors.Unwrap(err)}
}

// exitCode is the class of an error. A cancelled context goes before what the cancellation broke.
func exitCode(ctx context.Context, err error) int {
	var input *inputError
	var faults casefile.Errors
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, context.Canceled), ctx.Err() != nil && !errors.Is(err, errStrict):
		return exitInterrupted
	case errors.As(err, &input), errors.As(err, &faults), slices.ContainsFunc(inputClasses, func(c error) bool { return errors.Is(err, c) }):
		return exitInput
	case errors.Is(err, errStrict):
		return exitStrict
	}
	return exitFailed
}

// tell prints an error: program name, lower case, no full stop, a hint on a line of its own. Faults of a case file carry their own
// place and come as they are, followed by how many there are.
func tell(w io.Writer, code int, err error) {
	var faults casefile.Errors
	if errors.As(err, &faults) {
		fmt.Fprintln(w, faults)
		fmt.Fprintf(w, "seatwise: %s in the case; nothing was run or written\n", count(len(faults), "fault"))
		return
	}
	if code == exitInterrupted {
		kept := "nothing was written"
		if i := (*interrupted)(nil); errors.As(err, &i) {
			kept = i.kept
		}
		fmt.Fprintln(w, "seatwise: interrupted; "+kept)
		return
	}
	fmt.Fprintf(w, "seatwise: %s\n", strings.TrimRight(err.Error(), "\n"))
	var input *inputError
	if errors.As(err, &input) && input.hint != "" {
		fmt.Fprintf(w, "    hint: %s\n", input.hint)
	}
}

// count is "1 fault", "2 faults".
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	if strings.HasSuffix(thing, "s") || strings.HasSuffix(thing, "ch") {
		return fmt.Sprintf("%d %ses", n, thing)
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
