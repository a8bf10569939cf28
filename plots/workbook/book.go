package workbook

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"sort"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// ErrSheet is wrapped when a sheet holds more than the format allows.
var ErrSheet = errors.New("workbook: beyond the format")

// About is what stands in the properties of a book and on every page that is printed.
type About struct {
	Title   string    // at the head of every page
	Mark    string    // beside it, e.g. that a case is an example; "": none
	Program string    // and its version, at the foot
	Date    time.Time // of the document
}

// Book is a workbook in the making. The first thing that goes wrong is kept and returned by Write, so that calls need no check of their own.
type Book struct {
	about  About
	file   *excelize.File
	styles map[look]int
	taken  map[string]bool // names of sheets in lower case
	sheets []*Sheet
	err    error
}

// New begins a book.
func New(a About) *Book {
	b := &Book{about: a, file: excelize.NewFile(), styles: map[look]int{}, taken: map[string]bool{}}
	b.keep(b.file.SetDefaultFont(typeface))
	stamp := a.Date.UTC().Format(time.RFC3339)
	b.keep(b.file.SetDocProps(&excelize.DocProperties{Title: clean(a.Title), Creator: clean(a.Program), LastModifiedBy: clean(a.Program), Created: stamp, Modified: stamp, Language: "en-GB"}))
	return b
}

// first is the sheet that a new file has, which becomes that of the first call.
const first = "Sheet1"

// Sheet adds a sheet with columns of these widths, in letters. A name that the format forbids is changed: at most 31 letters, none of them a bracket,
// slash, colon, star, question mark or apostrophe, and no two sheets alike.
func (b *Book) Sheet(name string, widths ...float64) *Sheet {
	s := &Sheet{book: b, name: b.fresh(name), next: 1, high: map[int]float64{}}
	if len(b.sheets) == 0 {
		b.keep(b.file.SetSheetName(first, s.name))
	} else {
		_, err := b.file.NewSheet(s.name)
		b.keep(err)
	}
	b.sheets = append(b.sheets, s)
	for i, w := range widths {
		s.Width(i, w)
	}
	s.page()
	return s
}

const longestName = 31

// fresh is a name that the format allows and no sheet has.
func (b *Book) fresh(name string) string {
	name = strings.TrimSpace(strings.Map(func(r rune) rune {
		if strings.ContainsRune(`[]:*?/\'`, r) || r > 0xffff {
			return '-'
		}
		return r
	}, clean(name)))
	if name == "" {
		name = "Sheet"
	}
	cut := func(s string, n int) string { return string([]rune(s)[:min(n, len([]rune(s)))]) }
	try := cut(name, longestName)
	for i := 2; b.taken[strings.ToLower(try)]; i++ {
		tail := fmt.Sprintf(" (%d)", i)
		try = cut(name, longestName-len(tail)) + tail
	}
	b.taken[strings.ToLower(try)] = true
	return try
}

// level is what the library puts behind the title of an axis, and some programs take for a wish to have it level.
const level = `<txPr><a:bodyPr anchorCtr="false" rot="0" spcFirstLastPara="false"></a:bodyPr><a:p></a:p></txPr></title>`

// Write writes the book. The error is the first that any call met, or that of the writer.
func (b *Book) Write(w io.Writer) error {
	for _, s := range b.sheets {
		s.close()
	}
	if b.err != nil {
		return fmt.Errorf("workbook: %w", b.err)
	}
	b.file.SetActiveSheet(0)
	b.file.Pkg.Range(func(path, content any) bool {
		if strings.HasPrefix(path.(string), "xl/charts/chart") {
			b.file.Pkg.Store(path, bytes.ReplaceAll(content.([]byte), []byte(level), []byte("</title>")))
		}
		return true
	})
	types := b.file.ContentTypes.Defaults // which the library lists in the order of a map
	sort.Slice(types, func(i, j int) bool { return types[i].Extension < types[j].Extension })
	if _, err := b.file.WriteTo(w); err != nil {
		return fmt.Errorf("workbook: %w", err)
	}
	return nil
}

func (b *Book) keep(err error) {
	if b.err == nil {
		b.err = err
	}
}
