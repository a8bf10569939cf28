package main

import (
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"golang.org/x/term"
)

// screen is where text for people goes.
type screen struct {
	io.Writer
	width  int  // columns
	colour bool // emphasis by colour is welcome
}

const (
	usualWidth  = 80 // without a terminal
	narrowWidth = 60 // below it tables give way to lists
	leastWidth  = 24
)

// newScreen writes to w and takes its manners from the stream behind it. COLUMNS overrides the width, NO_COLOR forbids colour.
func newScreen(w io.Writer, stream any) *screen {
	s := &screen{Writer: w, width: usualWidth}
	if fd, ok := terminal(stream); ok {
		if n, _, err := term.GetSize(fd); err == nil && n > 0 {
			s.width = n
		}
		s.colour = os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
	}
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		s.width = n
	}
	s.width = max(s.width, leastWidth)
	return s
}

// terminal is the descriptor of a stream that is a terminal.
func terminal(stream any) (int, bool) {
	f, ok := stream.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return 0, false
	}
	return int(f.Fd()), true
}

func (s *screen) narrow() bool { return s.width < narrowWidth }

// line prints a line as it is.
func (s *screen) line(format string, args ...any) { fmt.Fprintf(s, format+"\n", args...) }

// paragraph prints a text wrapped to the width.
func (s *screen) paragraph(text string) { s.hang("", text) }

// item prints a text behind a dash.
func (s *screen) item(text string) { s.hang("- ", text) }

// hang prints a text behind a mark, its further lines indented by the width of the mark.
func (s *screen) hang(mark, text string) {
	lead := mark
	for _, l := range wrap(text, min(s.width, 100)-columns(mark)) {
		s.line("%s%s", lead, l)
		lead = blank(columns(mark))
	}
}

// heading prints a heading behind an empty line.
func (s *screen) heading(text string) {
	s.line("")
	for _, l := range wrap(text, s.width) {
		s.line("%s", s.strong(l))
	}
}

// section prints a heading and its items; nothing when there are none.
func (s *screen) section(title string, items []string) {
	if len(items) == 0 {
		return
	}
	s.heading(title)
	for _, i := range items {
		s.item(i)
	}
}

// strong makes a text bold, alarm red as well. Both only stress what the words say.
func (s *screen) strong(text string) string { return s.style("1", text) }
func (s *screen) alarm(text string) string  { return s.style("1;31", text) }

func (s *screen) style(code, text string) string {
	body := strings.TrimSpace(text)
	if !s.colour || body == "" {
		return text
	}
	return strings.Replace(text, body, "\x1b["+code+"m"+body+"\x1b[0m", 1)
}
