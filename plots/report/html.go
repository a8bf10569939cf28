package report

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strings"
	"unicode"
)

//go:embed page.html
var pageHTML string

// HTML writes a report as one file with its figures inside. Errors are those of the figures and of the writer.
func HTML(w io.Writer, d *Document) error {
	number := map[string]int{} // of tables and figures
	next := func(kind string) int { number[kind]++; return number[kind] }
	t, err := template.New("report").Funcs(template.FuncMap{
		"kind":   kind,
		"next":   next,
		"svg":    svg,
		"quoted": quoted,
		"join":   func(texts []string) string { return strings.Join(texts, "; ") },
	}).Parse(pageHTML)
	if err != nil {
		return fmt.Errorf("report: the page: %w", err)
	}
	if err := t.Execute(w, d); err != nil {
		return fmt.Errorf("report: %w", err)
	}
	return nil
}

// kind names the type of a block.
func kind(b Block) string {
	return strings.ToLower(strings.TrimPrefix(strings.TrimPrefix(fmt.Sprintf("%T", b), "*"), "report."))
}

// svg is a figure as part of a page: the element without the declaration of a document.
func svg(p Picture) (template.HTML, error) {
	var buf bytes.Buffer
	if err := p.Figure.SVG(&buf); err != nil {
		return "", err
	}
	raw := buf.String()
	at := strings.Index(raw, "<svg")
	if at < 0 {
		return "", fmt.Errorf("figure %s has no drawing", p.Figure.Name)
	}
	return template.HTML(raw[at:]), nil // of our own drawing, which escapes its texts
}

// quoted is a text as a string of a style sheet: all but letters, digits and spaces by their numbers, each ended by a space (CSS Syntax Module Level 3, 4.3.7).
func quoted(text string) template.CSS {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		if r == ' ' || r < 0x80 && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
			b.WriteRune(r)
			continue
		}
		fmt.Fprintf(&b, `\%06X `, r)
	}
	b.WriteByte('"')
	return template.CSS(b.String())
}
