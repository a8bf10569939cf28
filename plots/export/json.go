package export

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"strconv"
	"strings"
)

// object is a JSON object that keeps the order of its keys.
type object struct {
	fields  []field
	reasons []field // why values are null
}

type field struct {
	key   string
	value any
}

func (o *object) put(key string, value any) { o.fields = append(o.fields, field{key, value}) }

// null puts a value that does not exist.
func (o *object) null(key, reason string) {
	o.put(key, nil)
	o.reasons = append(o.reasons, field{key, reason})
}

// number puts a number, or null with the reason when there is none.
func (o *object) number(key string, v float64, reason string) {
	if reason == "" && !finite(v) {
		reason = "not a finite value"
	}
	if reason != "" {
		o.null(key, reason)
		return
	}
	o.put(key, literal(v))
}

// text puts a text, or null with the reason when it is empty.
func (o *object) text(key, s, reason string) {
	if s == "" {
		o.null(key, reason)
		return
	}
	o.put(key, s)
}

// closed is the object with its reasons.
func (o *object) closed() *object {
	if len(o.reasons) > 0 {
		o.put("reasons", &object{fields: o.reasons})
		o.reasons = nil
	}
	return o
}

// MarshalJSON writes the keys in their order.
func (o *object) MarshalJSON() ([]byte, error) {
	b := []byte{'{'}
	for i, f := range o.fields {
		if i > 0 {
			b = append(b, ',')
		}
		for j, part := range []any{f.key, f.value} {
			raw, err := encode(part)
			if err != nil {
				return nil, err
			}
			if j > 0 {
				b = append(b, ':')
			}
			b = append(b, raw...)
		}
	}
	return append(b, '}'), nil
}

func encode(v any) ([]byte, error) {
	var buf bytes.Buffer
	e := json.NewEncoder(&buf)
	e.SetEscapeHTML(false)
	err := e.Encode(v)
	return bytes.TrimSuffix(buf.Bytes(), []byte("\n")), err
}

// write writes the object over several lines.
func (o *object) write(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(o)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// literal is the shortest JSON number that reads back to the same bits; v is finite.
func literal(v float64) json.RawMessage { return appendNumber(nil, v) }

func appendNumber(b []byte, v float64) []byte {
	if v == 0 {
		return append(b, '0') // also for negative zero
	}
	return strconv.AppendFloat(b, v, 'g', -1, 64)
}

// inKey is an SI value in the unit that the key names.
func inKey(key string, si float64) float64 {
	switch {
	case strings.HasSuffix(key, "_rpm"):
		return si * 30 / math.Pi
	case strings.HasSuffix(key, "_mm"):
		return math.Round(si*1e9) / 1e6 // to a nanometre, so that 0.065 m is 65 mm
	}
	return si
}

// list is a slice that is never null.
func list[T any](s []T) []T {
	if s == nil {
		return []T{}
	}
	return s
}
