package pipe

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Size is a standard pipe size.
type Size struct {
	Label         string  // for example "DN450 STD"
	Outside, Wall float64 // outside diameter and wall, m
}

// Bore returns the inside diameter, m.
func (s Size) Bore() float64 { return s.Outside - 2*s.Wall }

// ErrSize is wrapped by the error about a label that names no size.
var ErrSize = errors.New("pipe: unknown size")

// SizeError tells what is wrong with a label. It wraps ErrSize.
type SizeError struct {
	Label     string
	Hint      string
	Nominal   string   // what of the label names a known diameter, as written; "" when nothing does
	Schedule  string   // the rest of the label
	Schedules []string // what the diameter comes in
}

// Error gives label and hint.
func (e *SizeError) Error() string { return fmt.Sprintf("%v %q (%s)", ErrSize, e.Label, e.Hint) }

// Unwrap is ErrSize.
func (e *SizeError) Unwrap() error { return ErrSize }

// Schedule returns the steel pipe of ASME B36.10M named by a label such as
// "DN450 STD" or "DN100 Sch 40", or by its nominal size in inches, "NPS 18 STD",
// "18 in STD" or "NPS 2 1/2 Sch 40": DN50 to DN900, weights STD, XS and XXS,
// schedules 10 to 160. Letter case and blanks do not matter. The error is a
// *SizeError. The table is from memory of the standard (Welded and Seamless
// Wrought Steel Pipe); of it only outside diameters and Sch 40 walls were
// compared with a published table. Walls are nominal, the standard tolerates 12.5 %
// less.
func Schedule(label string) (Size, error) {
	row, schedule, err := diameter(label)
	if err != nil {
		return Size{}, err
	}
	want := strings.Replace(strings.Join(strings.Fields(schedule), ""), "SCH.", "SCH", 1)
	for i := range schedules {
		if strings.ToUpper(strings.ReplaceAll(scheduleName(i), " ", "")) == want && row.walls[i] > 0 {
			return row.size(i), nil
		}
	}
	written := strings.TrimSpace(label)
	e := &SizeError{Label: label, Hint: fmt.Sprintf("DN%d comes as %s", row.dn, strings.Join(row.names(), ", ")), Schedule: strings.TrimSpace(schedule), Schedules: row.names()}
	if n := len(written) - len(schedule); n > 0 && n <= len(written) { // upper case may change the length of letters that no label has
		e.Nominal = strings.TrimSpace(written[:n])
	}
	return Size{}, e
}

// diameter returns the row that a label begins with, and the rest of the label
// in upper case.
func diameter(label string) (r row, rest string, err error) {
	text := strings.ToUpper(strings.TrimSpace(label))
	if after, ok := strings.CutPrefix(text, "DN"); ok {
		after = strings.TrimSpace(after)
		digits := len(after) - len(strings.TrimLeft(after, "0123456789"))
		if dn, err := strconv.Atoi(after[:digits]); err == nil {
			if r = nearestRow(dn); r.dn == dn {
				return r, after[digits:], nil
			}
			return row{}, "", &SizeError{Label: label, Hint: fmt.Sprintf("the nearest is DN%d", r.dn)}
		}
	}
	after, isNPS := strings.CutPrefix(text, "NPS")
	inches, rest := leadingInches(strings.TrimSpace(after))
	for _, unit := range []string{"INCHES", "INCH", "IN", `"`} {
		if short, ok := strings.CutPrefix(strings.TrimSpace(rest), unit); ok {
			rest, isNPS = short, true
			break
		}
	}
	if isNPS && inches > 0 {
		if r = nearestNPS(inches); r.nps == inches {
			return r, rest, nil
		}
		return row{}, "", &SizeError{Label: label, Hint: fmt.Sprintf("the nearest is NPS %g", r.nps)}
	}
	return row{}, "", &SizeError{Label: label, Hint: fmt.Sprintf("write it as %q or %q", "DN450 STD", "NPS 18 STD")}
}

// leadingInches reads "12", "2.5", "2 1/2" or "2-1/2" at the beginning of a text;
// 0 when there is no number.
func leadingInches(s string) (inches float64, rest string) {
	n := len(s) - len(strings.TrimLeft(s, "0123456789."))
	inches, err := strconv.ParseFloat(s[:n], 64)
	if err != nil {
		return 0, s
	}
	rest = s[n:]
	if half, ok := strings.CutPrefix(strings.TrimLeft(rest, " -"), "1/2"); ok {
		return inches + 0.5, half
	}
	return inches, rest
}

// Nominal returns the diameter DN, mm, of a nominal size alone: "NPS 10" is 250.
// The error is a *SizeError.
func Nominal(label string) (dn int, err error) {
	r, rest, err := diameter(label)
	if err == nil && strings.TrimSpace(rest) != "" {
		err = &SizeError{Label: label, Hint: fmt.Sprintf("write it as %q or %q", "DN250", "NPS 10")}
	}
	return r.dn, err
}

// Sizes returns all sizes in order of diameter.
func Sizes() []Size {
	var out []Size
	for _, row := range b3610 {
		for i, wall := range row.walls {
			if wall > 0 {
				out = append(out, row.size(i))
			}
		}
	}
	return out
}

// row is one diameter of the standard; lengths in mm, 0 where there is no such pipe.
type row struct {
	dn      int
	nps     float64 // nominal size, in
	outside float64
	walls   [13]float64
}

// schedules names the columns of row.walls.
var schedules = [13]string{"10", "20", "30", "STD", "40", "60", "XS", "80", "100", "120", "140", "160", "XXS"}

// b3610 is ASME B36.10M, from memory.
var b3610 = []row{
	//               10    20    30     STD   40     60     XS     80     100    120    140    160    XXS
	{50, 2, 60.3, [13]float64{0, 0, 0, 3.91, 3.91, 0, 5.54, 5.54, 0, 0, 0, 8.74, 11.07}},
	{65, 2.5, 73.0, [13]float64{0, 0, 0, 5.16, 5.16, 0, 7.01, 7.01, 0, 0, 0, 9.53, 14.02}},
	{80, 3, 88.9, [13]float64{0, 0, 0, 5.49, 5.49, 0, 7.62, 7.62, 0, 0, 0, 11.13, 15.24}},
	{90, 3.5, 101.6, [13]float64{0, 0, 0, 5.74, 5.74, 0, 8.08, 8.08, 0, 0, 0, 0, 0}},
	{100, 4, 114.3, [13]float64{0, 0, 0, 6.02, 6.02, 0, 8.56, 8.56, 0, 11.13, 0, 13.49, 17.12}},
	{125, 5, 141.3, [13]float64{0, 0, 0, 6.55, 6.55, 0, 9.53, 9.53, 0, 12.70, 0, 15.88, 19.05}},
	{150, 6, 168.3, [13]float64{0, 0, 0, 7.11, 7.11, 0, 10.97, 10.97, 0, 14.27, 0, 18.26, 21.95}},
	{200, 8, 219.1, [13]float64{0, 6.35, 7.04, 8.18, 8.18, 10.31, 12.70, 12.70, 15.09, 18.26, 20.62, 23.01, 22.23}},
	{250, 10, 273.0, [13]float64{0, 6.35, 7.80, 9.27, 9.27, 12.70, 12.70, 15.09, 18.26, 21.44, 25.40, 28.58, 25.40}},
	{300, 12, 323.8, [13]float64{0, 6.35, 8.38, 9.53, 10.31, 14.27, 12.70, 17.48, 21.44, 25.40, 28.58, 33.32, 25.40}},
	{350, 14, 355.6, [13]float64{6.35, 7.92, 9.53, 9.53, 11.13, 15.09, 12.70, 19.05, 23.83, 27.79, 31.75, 35.71, 0}},
	{400, 16, 406.4, [13]float64{6.35, 7.92, 9.53, 9.53, 12.70, 16.66, 12.70, 21.44, 26.19, 30.96, 36.53, 40.49, 0}},
	{450, 18, 457, [13]float64{6.35, 7.92, 11.13, 9.53, 14.27, 19.05, 12.70, 23.83, 29.36, 34.93, 39.67, 45.24, 0}},
	{500, 20, 508, [13]float64{6.35, 9.53, 12.70, 9.53, 15.09, 20.62, 12.70, 26.19, 32.54, 38.10, 44.45, 50.01, 0}},
	{550, 22, 559, [13]float64{6.35, 9.53, 12.70, 9.53, 0, 22.23, 12.70, 28.58, 34.93, 41.28, 47.63, 53.98, 0}},
	{600, 24, 610, [13]float64{6.35, 9.53, 14.27, 9.53, 17.48, 24.61, 12.70, 30.96, 38.89, 46.02, 52.37, 59.54, 0}},
	{650, 26, 660, [13]float64{7.92, 12.70, 0, 9.53, 0, 0, 12.70, 0, 0, 0, 0, 0, 0}},
	{700, 28, 711, [13]float64{7.92, 12.70, 15.88, 9.53, 0, 0, 12.70, 0, 0, 0, 0, 0, 0}},
	{750, 30, 762, [13]float64{7.92, 12.70, 15.88, 9.53, 0, 0, 12.70, 0, 0, 0, 0, 0, 0}},
	{800, 32, 813, [13]float64{7.92, 12.70, 15.88, 9.53, 17.48, 0, 12.70, 0, 0, 0, 0, 0, 0}},
	{850, 34, 864, [13]float64{7.92, 12.70, 15.88, 9.53, 17.48, 0, 12.70, 0, 0, 0, 0, 0, 0}},
	{900, 36, 914, [13]float64{7.92, 12.70, 15.88, 9.53, 19.05, 0, 12.70, 0, 0, 0, 0, 0, 0}},
}

// nearestRow returns the row whose nominal diameter differs least from dn.
func nearestRow(dn int) row {
	best := b3610[0]
	for _, r := range b3610[1:] {
		if math.Abs(float64(r.dn)-float64(dn)) < math.Abs(float64(best.dn)-float64(dn)) {
			best = r
		}
	}
	return best
}

// nearestNPS returns the row whose nominal size in inches differs least.
func nearestNPS(inches float64) row {
	best := b3610[0]
	for _, r := range b3610[1:] {
		if math.Abs(r.nps-inches) < math.Abs(best.nps-inches) {
			best = r
		}
	}
	return best
}

// size returns the size in column i.
func (r row) size(i int) Size {
	return Size{
		Label:   fmt.Sprintf("DN%d %s", r.dn, scheduleName(i)),
		Outside: r.outside / 1e3,
		Wall:    r.walls[i] / 1e3,
	}
}

// names lists the schedules that exist in the row.
func (r row) names() []string {
	var out []string
	for i, wall := range r.walls {
		if wall > 0 {
			out = append(out, scheduleName(i))
		}
	}
	return out
}

// scheduleName returns the name of column i as it is written.
func scheduleName(i int) string {
	if name := schedules[i]; name[0] <= '9' {
		return "Sch " + name
	}
	return schedules[i]
}
