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

// Schedule returns the steel pipe of ASME B36.10M named by a label such as
// "DN450 STD" or "DN100 Sch 40": DN50 to DN900, weights STD, XS and XXS, schedules
// 10 to 160. Letter case and blanks do not matter. The error wraps ErrSize and
// names the nearest labels. The table is from memory of the standard (Welded and
// Seamless Wrought Steel Pipe); of it only outside diameters and Sch 40 walls were
// compared with a published table. Walls are nominal, the standard tolerates 12.5 %
// less.
func Schedule(label string) (Size, error) {
	rest, isDN := strings.CutPrefix(strings.ToUpper(strings.TrimSpace(label)), "DN")
	rest = strings.TrimSpace(rest)
	digits := len(rest) - len(strings.TrimLeft(rest, "0123456789"))
	dn, err := strconv.Atoi(rest[:digits])
	if !isDN || err != nil {
		return Size{}, fmt.Errorf("%w %q (write it as %q or %q)", ErrSize, label, "DN450 STD", "DN100 Sch 40")
	}
	row := nearestRow(dn)
	if row.dn != dn {
		return Size{}, fmt.Errorf("%w %q (the nearest is DN%d)", ErrSize, label, row.dn)
	}
	want := strings.Join(strings.Fields(rest[digits:]), "")
	want = strings.Replace(want, "SCH.", "SCH", 1)
	for i := range schedules {
		if strings.ToUpper(strings.ReplaceAll(scheduleName(i), " ", "")) == want && row.walls[i] > 0 {
			return row.size(i), nil
		}
	}
	return Size{}, fmt.Errorf("%w %q (DN%d comes as %s)", ErrSize, label, dn, strings.Join(row.names(), ", "))
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
	outside float64
	walls   [13]float64
}

// schedules names the columns of row.walls.
var schedules = [13]string{"10", "20", "30", "STD", "40", "60", "XS", "80", "100", "120", "140", "160", "XXS"}

// b3610 is ASME B36.10M, from memory.
var b3610 = []row{
	//            10    20    30     STD   40     60     XS     80     100    120    140    160    XXS
	{50, 60.3, [13]float64{0, 0, 0, 3.91, 3.91, 0, 5.54, 5.54, 0, 0, 0, 8.74, 11.07}},
	{65, 73.0, [13]float64{0, 0, 0, 5.16, 5.16, 0, 7.01, 7.01, 0, 0, 0, 9.53, 14.02}},
	{80, 88.9, [13]float64{0, 0, 0, 5.49, 5.49, 0, 7.62, 7.62, 0, 0, 0, 11.13, 15.24}},
	{90, 101.6, [13]float64{0, 0, 0, 5.74, 5.74, 0, 8.08, 8.08, 0, 0, 0, 0, 0}},
	{100, 114.3, [13]float64{0, 0, 0, 6.02, 6.02, 0, 8.56, 8.56, 0, 11.13, 0, 13.49, 17.12}},
	{125, 141.3, [13]float64{0, 0, 0, 6.55, 6.55, 0, 9.53, 9.53, 0, 12.70, 0, 15.88, 19.05}},
	{150, 168.3, [13]float64{0, 0, 0, 7.11, 7.11, 0, 10.97, 10.97, 0, 14.27, 0, 18.26, 21.95}},
	{200, 219.1, [13]float64{0, 6.35, 7.04, 8.18, 8.18, 10.31, 12.70, 12.70, 15.09, 18.26, 20.62, 23.01, 22.23}},
	{250, 273.0, [13]float64{0, 6.35, 7.80, 9.27, 9.27, 12.70, 12.70, 15.09, 18.26, 21.44, 25.40, 28.58, 25.40}},
	{300, 323.8, [13]float64{0, 6.35, 8.38, 9.53, 10.31, 14.27, 12.70, 17.48, 21.44, 25.40, 28.58, 33.32, 25.40}},
	{350, 355.6, [13]float64{6.35, 7.92, 9.53, 9.53, 11.13, 15.09, 12.70, 19.05, 23.83, 27.79, 31.75, 35.71, 0}},
	{400, 406.4, [13]float64{6.35, 7.92, 9.53, 9.53, 12.70, 16.66, 12.70, 21.44, 26.19, 30.96, 36.53, 40.49, 0}},
	{450, 457, [13]float64{6.35, 7.92, 11.13, 9.53, 14.27, 19.05, 12.70, 23.83, 29.36, 34.93, 39.67, 45.24, 0}},
	{500, 508, [13]float64{6.35, 9.53, 12.70, 9.53, 15.09, 20.62, 12.70, 26.19, 32.54, 38.10, 44.45, 50.01, 0}},
	{550, 559, [13]float64{6.35, 9.53, 12.70, 9.53, 0, 22.23, 12.70, 28.58, 34.93, 41.28, 47.63, 53.98, 0}},
	{600, 610, [13]float64{6.35, 9.53, 14.27, 9.53, 17.48, 24.61, 12.70, 30.96, 38.89, 46.02, 52.37, 59.54, 0}},
	{650, 660, [13]float64{7.92, 12.70, 0, 9.53, 0, 0, 12.70, 0, 0, 0, 0, 0, 0}},
	{700, 711, [13]float64{7.92, 12.70, 15.88, 9.53, 0, 0, 12.70, 0, 0, 0, 0, 0, 0}},
	{750, 762, [13]float64{7.92, 12.70, 15.88, 9.53, 0, 0, 12.70, 0, 0, 0, 0, 0, 0}},
	{800, 813, [13]float64{7.92, 12.70, 15.88, 9.53, 17.48, 0, 12.70, 0, 0, 0, 0, 0, 0}},
	{850, 864, [13]float64{7.92, 12.70, 15.88, 9.53, 17.48, 0, 12.70, 0, 0, 0, 0, 0, 0}},
	{900, 914, [13]float64{7.92, 12.70, 15.88, 9.53, 19.05, 0, 12.70, 0, 0, 0, 0, 0, 0}},
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
