package network

import (
	"math"
	"reflect"
	"strconv"
	"strings"
)

// Form is how a field of a device is written in a case file.
type Form uint8

// The forms of a field.
const (
	NodeName Form = iota // a string whose key is at, from or to
	Word                 // a string that is one of some words
	YesNo                // a bool
	Figure               // a float64 with a dimension
	Table                // a slice of structs whose fields are figures, one for each column
)

// Field is one datum of a device, as the tags of its struct describe it.
type Field struct {
	Key, Help string
	Form      Form
	Dim       string   // of a figure, in the words of package quantity
	Instead   string   // key of the field that may be given in its place; "": none
	Default   string   // figures in SI; "": it must be given, unless it is a table, which may be left out
	Words     []string // that a word may be
	Min, Max  float64  // of a figure, SI; the largest finite ones where there is no bound
	Columns   []Field  // of a table

	value reflect.Value // in the device; in a column there is none
	index int           // of the field in its struct
}

// Fields are the data of a device in the order of its struct. What they set is set in the device.
func Fields(d Device) []Field {
	v := reflect.ValueOf(d)
	if v.Kind() != reflect.Pointer || v.Elem().Kind() != reflect.Struct {
		panic("network: a device is a pointer to a struct")
	}
	v = v.Elem()
	fields := fieldsOf(v.Type())
	for i := range fields {
		fields[i].value = v.Field(fields[i].index)
	}
	return fields
}

// fieldsOf reads the tags of a struct.
func fieldsOf(t reflect.Type) []Field {
	var fields []Field
	for i := range t.NumField() {
		tag := t.Field(i).Tag
		f := Field{Key: tag.Get("key"), Help: tag.Get("help"), Dim: tag.Get("dim"), Default: tag.Get("def"), Instead: tag.Get("instead"),
			Min: bound(tag.Get("min"), -math.MaxFloat64), Max: bound(tag.Get("max"), math.MaxFloat64), index: i}
		if f.Key == "" {
			continue
		}
		switch of := t.Field(i).Type; {
		case of.Kind() == reflect.String && tag.Get("words") != "":
			f.Form, f.Words = Word, strings.Split(tag.Get("words"), "|")
		case of.Kind() == reflect.String:
			f.Form = NodeName
		case of.Kind() == reflect.Bool:
			f.Form = YesNo
		case of.Kind() == reflect.Float64:
			f.Form = Figure
		case of.Kind() == reflect.Slice && of.Elem().Kind() == reflect.Struct:
			f.Form, f.Columns = Table, fieldsOf(of.Elem())
		default:
			panic("network: a field of a device has a type that no case file can give")
		}
		fields = append(fields, f)
	}
	return fields
}

// bound is a number in a tag.
func bound(text string, otherwise float64) float64 {
	if text == "" {
		return otherwise
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("network: a bound in a tag of a device is no number")
	}
	return x
}

// Holds tells whether a figure is finite and within its bounds.
func (f Field) Holds(x float64) bool { return x >= f.Min && x <= f.Max }

// Must tells whether a case file has to give the field.
func (f Field) Must() bool { return f.Default == "" && f.Form != Table }

// Number is the value of a figure, SI.
func (f Field) Number() float64 { return f.value.Float() }

// SetNumber sets a figure, SI.
func (f Field) SetNumber(x float64) { f.value.SetFloat(x) }

// Text is the name of a node, or a word.
func (f Field) Text() string { return f.value.String() }

// SetText sets the name of a node, or a word.
func (f Field) SetText(text string) { f.value.SetString(text) }

// Yes is the value of a field that is yes or no.
func (f Field) Yes() bool { return f.value.Bool() }

// SetYes sets a field that is yes or no.
func (f Field) SetYes(yes bool) { f.value.SetBool(yes) }

// Rows are the rows of a table, SI.
func (f Field) Rows() [][]float64 {
	var rows [][]float64
	for i := range f.value.Len() {
		row := make([]float64, len(f.Columns))
		for j, c := range f.Columns {
			row[j] = f.value.Index(i).Field(c.index).Float()
		}
		rows = append(rows, row)
	}
	return rows
}

// SetRows sets the rows of a table, SI.
func (f Field) SetRows(rows [][]float64) {
	all := reflect.MakeSlice(f.value.Type(), len(rows), len(rows))
	for i, row := range rows {
		for j, c := range f.Columns {
			all.Index(i).Field(c.index).SetFloat(row[j])
		}
	}
	f.value.Set(all)
}
