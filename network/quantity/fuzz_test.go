package quantity

import (
	"math"
	"testing"
	"unicode/utf8"
)

// FuzzParse: a finite value, or an error that points into the text and says
// what to write.
func FuzzParse(f *testing.F) {
	for _, m := range mistakes {
		f.Add(m.text, uint8(m.want))
	}
	for _, c := range factors {
		f.Add(c.text, uint8(c.dim))
	}
	f.Fuzz(func(t *testing.T, text string, dim uint8) {
		want := Dimension(dim % uint8(dimensions))
		q, err := Parse(text, want)
		if err != nil {
			e, ok := err.(*Error)
			if !ok || e.Text != text || e.Offset < 0 || e.Offset > len(text) || e.Msg == "" || e.Hint == "" {
				t.Fatalf("%q: error %#v", text, err)
			}
			if utf8.ValidString(text) && !utf8.ValidString(text[:e.Offset]) {
				t.Fatalf("%q: offset %d is inside a letter", text, e.Offset)
			}
			e.Caret()
			return
		}
		if math.IsNaN(q.SI) || math.IsInf(q.SI, 0) || q.Dim != want {
			t.Fatalf("%q: %+v", text, q)
		}
		if back, err := Parse(q.Text, want); err != nil || back != q {
			t.Fatalf("%q: kept text %q reads %+v, %v", text, q.Text, back, err)
		}
	})
}

// FuzzColumn: a header and a cell give what the two give together.
func FuzzColumn(f *testing.F) {
	for _, c := range []struct {
		unit, cell string
		dim        Dimension
	}{
		{"m3/h", "430", Flow}, {"", "0.65", Number}, {"psi a", "-1", Pressure}, {"°F", "1e5", Temperature},
		{"kg·m²", "2,2", Inertia}, {"GD2", "1", Inertia}, {"Bar", "1 2", Pressure}, {"1/min", "\u22121480", Rotation},
	} {
		f.Add(c.unit, c.cell, uint8(c.dim))
	}
	f.Fuzz(func(t *testing.T, unit, cell string, dim uint8) {
		want := Dimension(dim % uint8(dimensions))
		u, err := ParseUnit(unit, want)
		if err != nil {
			if e, ok := err.(*Error); !ok || e.Offset < 0 || e.Offset > len(unit) || e.Hint == "" {
				t.Fatalf("%q: error %#v", unit, err)
			}
			return
		}
		q, err := u.Parse(cell)
		if err != nil {
			if e, ok := err.(*Error); !ok || e.Offset < 0 || e.Offset > len(cell) || e.Hint == "" {
				t.Fatalf("%q: error %#v", cell, err)
			}
			return
		}
		both, err := Parse(cell+" "+u.Symbol, want)
		if err != nil || both.SI != q.SI || both.Absolute != q.Absolute {
			t.Fatalf("%q in %q: %+v, together %+v, %v", cell, unit, q, both, err)
		}
	})
}
