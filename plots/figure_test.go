package plots

import (
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/sync/errgroup"
	"gonum.org/v1/plot/cmpimg"
	"pgregory.net/rapid"

	"seatwise/network/quantity"
	"seatwise/valve"
	"seatwise/valve/characteristic"
	"seatwise/valve/choice"
)

var look = flag.String("look", "", "also write every figure of the tests into this folder")

// shapes are the comparisons that every figure has to suit.
var shapes = []struct {
	name                  string
	candidates, scenarios int
	units                 quantity.System
}{
	{"one", 1, 1, quantity.SI},
	{"two", 2, 1, quantity.SI},
	{"four-us", 4, 1, quantity.US},
	{"three-by-five", 3, 5, quantity.SI},
	{"nine", 9, 1, quantity.SI},
	{"nine-by-five", 9, 5, quantity.US},
}

func TestLook(t *testing.T) {
	if *look == "" {
		t.Skip("no folder given")
	}
	show := func(name string, figs []Figure) {
		for _, f := range figs {
			for ending, write := range map[string]func(io.Writer) error{"png": f.PNG, "svg": f.SVG} {
				w, err := os.Create(filepath.Join(*look, name+"-"+f.Name+"."+ending))
				require.NoError(t, err)
				require.NoError(t, write(w))
				require.NoError(t, w.Close())
			}
			seen := f.raster(DPI)
			grey := image.NewGray(seen.Bounds()) // as a printer without colour shows it
			draw.Draw(grey, grey.Bounds(), seen, image.Point{}, draw.Src)
			w, err := os.Create(filepath.Join(*look, name+"-"+f.Name+"-grey.png"))
			require.NoError(t, err)
			require.NoError(t, png.Encode(w, grey))
			require.NoError(t, w.Close())
		}
	}
	for _, s := range shapes {
		figs, err := Figures(synthetic(s.candidates, s.scenarios), s.units)
		require.NoError(t, err)
		show(s.name, figs[:4])
	}
	for _, n := range []int{1, 2, 6, 9} {
		figs, err := Figures(anchored(n, 1), quantity.SI)
		require.NoError(t, err)
		show(fmt.Sprint("anchored-", n), figs[4:])
	}
	for _, n := range []int{1, 2, 9} {
		show(fmt.Sprint("priced-", n), []Figure{makeUp(t, priced(n))})
	}
	figs, err := Figures(awkward(), quantity.SI)
	require.NoError(t, err)
	show("awkward", figs[:4])
	for _, n := range []int{1, 3, 9} {
		f, err := Characteristic(synthetic(1, 1).Case, powers(n), Own{Value: choice.Value{SI: 6.8}}, quantity.SI)
		require.NoError(t, err)
		show(fmt.Sprint(n), []Figure{f})
	}
}

// powers are characteristics that are powers of the deceleration, c a^n, once it is beyond a threshold.
func powers(n int) []Curve {
	var curves []Curve
	for i, name := range []string{"plain-swing", "spring-disc", "nozzle", "dual-plate", "tilting-disc", "swing-counterweighted", "swing-heavy-body", "spring-light", "ideal"}[:n] {
		c := Curve{Valve: name}
		for _, a := range characteristic.Decelerations() {
			v := 0.18/(1+0.9*float64(i))*math.Pow(a, 0.68) - 0.01*float64(i)
			c.Points = append(c.Points, characteristic.Point{Deceleration: a, ReverseVelocity: math.Max(0, v)})
		}
		curves = append(curves, c)
	}
	return curves
}

var update = flag.Bool("update", false, "write the golden images anew")

// goldens are drawn at a coarse resolution: enough to see a line or a word move.
const goldenDPI = 64

func TestGolden(t *testing.T) {
	two, err := Figures(synthetic(2, 1), quantity.SI)
	require.NoError(t, err)
	scenarios, err := Figures(synthetic(3, 3), quantity.SI)
	require.NoError(t, err)
	nine, err := Figures(synthetic(9, 1), quantity.US)
	require.NoError(t, err)
	char, err := Characteristic(synthetic(1, 1).Case, powers(3), Own{Value: choice.Value{SI: 6.8}}, quantity.SI)
	require.NoError(t, err)
	anchors, err := Figures(anchored(2, 1), quantity.SI)
	require.NoError(t, err)
	six, err := Figures(anchored(6, 1), quantity.US)
	require.NoError(t, err)
	for name, f := range map[string]Figure{"cost-make-up": makeUp(t, priced(2)), "nine-cost-make-up": makeUp(t, priced(9)), "anchor-force": anchors[4], "six-anchor-force-us": six[4], "peak-surge": two[0], "peak-surge-scenarios": scenarios[0], "pressure-history": two[1], "disc-motion": two[2], "envelope": two[3],
		"characteristic": char, "nine-pressure-history-us": nine[1]} {
		var got bytes.Buffer
		require.NoError(t, (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&got, f.raster(goldenDPI)))
		path := filepath.Join("testdata", name+".png")
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(path, got.Bytes(), 0o644))
			continue
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		same, err := cmpimg.EqualApprox("png", got.Bytes(), want, 0.05)
		require.NoError(t, err)
		require.True(t, same, "%s differs from its golden image: look, then run with -update", name)
	}
}

// A golden image must not forgive a change that a reader would see.
func TestGoldenNoticesChange(t *testing.T) {
	draw := func(change func(*choice.Comparison)) []byte {
		c := synthetic(2, 1)
		change(c)
		figs, err := Figures(c, quantity.SI)
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, figs[0].raster(goldenDPI)))
		return b.Bytes()
	}
	before := draw(func(*choice.Comparison) {})
	after := draw(func(c *choice.Comparison) { c.Scenarios[0].Outcomes[1].PeakPressure.SI += 0.1e5 })
	same, err := cmpimg.EqualApprox("png", before, after, 0.05)
	require.NoError(t, err)
	require.False(t, same)
}

// all are the figures of every shape, and of the awkward case.
func all(t testing.TB) []Figure {
	var out []Figure
	for _, s := range shapes[1:3] {
		figs, err := Figures(synthetic(s.candidates, s.scenarios), s.units)
		require.NoError(t, err)
		out = append(out, figs[:4]...)
	}
	figs, err := Figures(awkward(), quantity.US)
	require.NoError(t, err)
	return append(append(out, figs...), makeUp(t, priced(3)))
}

func TestNames(t *testing.T) {
	figs, err := Figures(synthetic(2, 2), quantity.SI)
	require.NoError(t, err)
	var names []string
	for _, f := range figs {
		names = append(names, f.Name)
		require.NotEmpty(t, f.Caption)
		w, h := f.Size()
		require.InDelta(t, 0.16, w, 1e-12)
		require.Less(t, h, 0.25, "more than a page")
	}
	require.Equal(t, []string{"peak-surge", "pressure-history", "disc-motion", "envelope",
		"pressure-history-two-trip", "disc-motion-two-trip", "envelope-two-trip"}, names)
}

// Every shape fits on a page.
func TestHeights(t *testing.T) {
	for _, s := range shapes {
		figs, err := Figures(synthetic(s.candidates, s.scenarios), s.units)
		require.NoError(t, err)
		for _, f := range figs {
			_, h := f.Size()
			require.Less(t, h, 0.27, "%s of %s", f.Name, s.name)
		}
	}
}

// The same comparison gives the same bytes, also when figures are drawn side by side.
func TestSameBytes(t *testing.T) {
	figs := all(t)
	first := make([][2]bytes.Buffer, len(figs))
	for i, f := range figs {
		require.NoError(t, f.PNG(&first[i][0]))
		require.NoError(t, f.SVG(&first[i][1]))
	}
	var g errgroup.Group
	for i, f := range all(t) {
		g.Go(func() error {
			var p, s bytes.Buffer
			if err := errors.Join(f.PNG(&p), f.SVG(&s)); err != nil {
				return err
			}
			if !bytes.Equal(p.Bytes(), first[i][0].Bytes()) || !bytes.Equal(s.Bytes(), first[i][1].Bytes()) {
				return fmt.Errorf("%s differs", f.Name)
			}
			return nil
		})
	}
	require.NoError(t, g.Wait())
}

func TestPNGStatesItsResolution(t *testing.T) {
	figs, err := Figures(synthetic(1, 1), quantity.SI)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, figs[0].PNG(&b))
	raw := b.Bytes()
	img, err := png.Decode(bytes.NewReader(raw)) // checks the sums of all chunks
	require.NoError(t, err)
	require.InDelta(t, 16/2.54*200, img.Bounds().Dx(), 1)
	require.Equal(t, "pHYs", string(raw[37:41]))
	require.EqualValues(t, 7874, binary.BigEndian.Uint32(raw[41:])) // 200 / 0.0254
	require.EqualValues(t, 7874, binary.BigEndian.Uint32(raw[45:]))
	require.EqualValues(t, 1, raw[49])
}

func TestSVG(t *testing.T) {
	for _, f := range all(t) {
		var b bytes.Buffer
		require.NoError(t, f.SVG(&b))
		text := b.String()
		require.NotContains(t, text, "NaN")
		require.NotContains(t, text, "Inf")
		require.Equal(t, strings.Count(text, "font-family:"), strings.Count(text, "font-family:'Liberation Sans', Arial, Helvetica,"), f.Name)
		require.Contains(t, text, "xample, not your installation")
		var words []string
		d := xml.NewDecoder(strings.NewReader(text))
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err, f.Name)
			if c, ok := tok.(xml.CharData); ok {
				words = append(words, string(c))
			}
		}
		require.NotContains(t, strings.Join(words, " "), "\u22120 ", "a negative zero")
	}
}

func TestSVGTitleIsEscaped(t *testing.T) {
	figs, err := Figures(awkward(), quantity.SI)
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, figs[0].SVG(&b))
	var doc struct {
		Title string `xml:"title"`
	}
	require.NoError(t, xml.Unmarshal(b.Bytes(), &doc))
	require.True(t, strings.HasPrefix(doc.Title, `Pump house <A> & "B" at the far end of a very long lane, with a second line and more`), doc.Title)
}

func TestWriterFails(t *testing.T) {
	figs, err := Figures(synthetic(1, 1), quantity.SI)
	require.NoError(t, err)
	require.ErrorIs(t, figs[0].PNG(broken{}), errBroken)
	require.ErrorIs(t, figs[0].SVG(broken{}), errBroken)
}

var errBroken = errors.New("disc full")

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errBroken }

// svgText is the text of a figure.
func svgText(t *testing.T, f Figure) string {
	var b bytes.Buffer
	require.NoError(t, f.SVG(&b))
	return b.String()
}

func TestVerdictsInWords(t *testing.T) {
	figs, err := Figures(synthetic(2, 1), quantity.SI)
	require.NoError(t, err)
	text := svgText(t, figs[0])
	// plain-swing: 11.91 bar against 8.8 bar
	for _, want := range []string{">11.9 ± 0.1<", ">exceeds by 3.1 bar<", ">meets<", ">design pressure 8 bar<", ">design pressure + 10 %: 8.8 bar<"} {
		require.Contains(t, text, want)
	}
	c := synthetic(2, 1)
	c.Scenarios[0].Outcomes[1].Verdicts[0].Unsure = true
	figs, err = Figures(c, quantity.US)
	require.NoError(t, err)
	text = svgText(t, figs[0])
	require.Contains(t, text, ">meets, unsure<")
	require.Contains(t, text, ">exceeds by 45 psi<") // 3.1 bar
}

// The words of a verdict are those of the table: its decimals, and how near a limit is that is met.
func TestVerdictsAsInTheTable(t *testing.T) {
	words := func(v choice.Verdict) string {
		s := choice.ScenarioOutcomes{Outcomes: []choice.Outcome{{PeakPressure: choice.Value{SI: 29.7e5}}, {PeakPressure: choice.Value{SI: v.Value}, Verdicts: []choice.Verdict{v}}}}
		return v.Words(s.Scale(peak, quantity.SI))
	}
	judged := func(value float64) choice.Verdict {
		return choice.Verdict{Measure: peakMeasure, Value: value, Bound: 11e5, Met: value <= 11e5, Margin: 11e5 - value}
	}
	require.Equal(t, "exceeds by 18.7 bar", words(judged(29.7e5)))
	require.Equal(t, "exceeds by 0.004 bar", words(judged(11.004e5)), "rounding does not hide a verdict")
	require.Equal(t, "meets", words(judged(8e5)))
	require.Equal(t, "meets by 1.0 bar", words(judged(10e5)))
	near := judged(10.9e5)
	near.Narrow, near.Unsure = true, true
	require.Equal(t, "meets narrowly by 0.1 bar, unsure", words(near))
}

func TestMissingValuesAreNamed(t *testing.T) {
	c := awkward()
	c.Scenarios[0].Outcomes[1].Failed = "the volume does not balance"
	figs, err := Figures(c, quantity.SI)
	require.NoError(t, err)
	require.Contains(t, svgText(t, figs[0]), "Not shown: spring-disc, peak pressure in base (the volume does not balance).")
	require.Contains(t, svgText(t, figs[0]), "Not shown: spring-disc, peak pressure in two-trip (the run failed).")
	require.Contains(t, svgText(t, figs[1]), "Not shown: spring-disc (the volume does not balance).")
	require.Contains(t, svgText(t, figs[2]), "Not shown: nozzle, reverse velocity (it never reaches its seat).")
}

func TestFiguresWithoutData(t *testing.T) {
	c := synthetic(1, 1)
	c.Scenarios[0].Outcomes[0] = choice.Outcome{Candidate: "plain-swing", PeakPressure: choice.Value{Reason: "nothing happens"}}
	figs, err := Figures(c, quantity.SI)
	require.NoError(t, err)
	require.Empty(t, figs)
	figs, err = Figures(&choice.Comparison{}, quantity.SI)
	require.NoError(t, err)
	require.Empty(t, figs)
}

func TestBadSeries(t *testing.T) {
	for what, spoil := range map[string]func(*choice.Outcome){
		"has 1 values":  func(o *choice.Outcome) { o.History[0].Values = []float64{1} },
		"not finite":    func(o *choice.Outcome) { o.History[2].Values[7] = math.NaN() },
		"goes back":     func(o *choice.Outcome) { o.Time[3] = -1 },
		"profile of":    func(o *choice.Outcome) { o.Route[1].Lowest = nil },
		"chainage of":   func(o *choice.Outcome) { o.Route[1].Chainage[2] = 0 },
		"cavities of":   func(o *choice.Outcome) { o.Route[1].Cavity[2] = math.Inf(1) },
		"time is not f": func(o *choice.Outcome) { o.Time[len(o.Time)-1] = math.Inf(1) },
	} {
		c := synthetic(1, 1)
		spoil(&c.Scenarios[0].Outcomes[0])
		_, err := Figures(c, quantity.SI)
		require.ErrorIs(t, err, ErrSeries, what)
		require.ErrorContains(t, err, what)
		require.ErrorContains(t, err, "plain-swing")
	}
}

// The cavity of a candidate stands at the node that has the largest, and the peak at the greatest value of its series.
func TestMarks(t *testing.T) {
	c := synthetic(1, 1)
	c.Scenarios[0].Outcomes[0].Route[1].Cavity[100] = 0.4
	figs, err := Figures(c, quantity.SI)
	require.NoError(t, err)
	require.Contains(t, svgText(t, figs[3]), ">cavity 0.4 m³, plain-swing<")
	require.Contains(t, svgText(t, figs[1]), ">11.91 bar<")
	require.Contains(t, svgText(t, figs[2]), ">0.64 m/s<")
}

// Every figure of a case names it and says how well its valves are known.
func TestFootLine(t *testing.T) {
	c := synthetic(2, 2)
	c.Case.Example = false
	foot := func() []string {
		figs, err := Figures(c, quantity.SI)
		require.NoError(t, err)
		char, err := Characteristic(c.Case, []Curve{{Valve: "a", Points: powers(1)[0].Points, Data: c.Scenarios[0].Outcomes[0].Valve.Data}}, Own{}, quantity.SI)
		require.NoError(t, err)
		var lines []string
		for _, f := range append(figs, char) {
			lines = append(lines, f.page.notes[0])
		}
		require.Len(t, lines, 8)
		return slices.Compact(lines)
	}
	set := func(d ...valve.Datum) {
		c.Scenarios[0].Outcomes[0].Valve.Data = d
	}
	set(valve.Datum{Key: "moving mass", Origin: valve.Given}, valve.Datum{Key: "price", Origin: valve.Catalogue})
	require.Equal(t, []string{"Case lift."}, foot())
	for _, origin := range []valve.Origin{valve.Catalogue, valve.Estimated} {
		set(valve.Datum{Key: "travel", Origin: valve.Given}, valve.Datum{Key: "moving mass", Origin: origin})
		require.Equal(t, []string{"Case lift. Generic valve data ±40\u00a0%."}, foot())
	}
	c.Case.Example = true
	require.Equal(t, []string{"Example, not your installation. Case lift. Generic valve data ±40\u00a0%."}, foot())
}

// A curve is of a bench, and the figure says so.
func TestCharacteristicNamesTheBench(t *testing.T) {
	f, err := Characteristic(nil, powers(2), Own{Value: choice.Value{SI: 4.574}}, quantity.SI)
	require.NoError(t, err)
	require.Contains(t, f.Caption, "1.05 times the full-open velocity")
	require.Contains(t, f.page.notes, bench)
	require.Contains(t, svgText(t, f), ">installation 4.6 m/s²<")
}

// Without dimensions every valve has its own number for the installation's deceleration. Bands have the dashes of their curve at their edges, for black and white.
func TestCharacteristicInOtherForms(t *testing.T) {
	curves := powers(2)
	for i := range curves {
		curves[i].Of = valve.Valve{Bore: 0.25, FullOpenVelocity: 2}
	}
	curves[1].Of.FullOpenVelocity = 0
	f, err := Collapsed(nil, curves, Own{Value: choice.Value{SI: 4}}, quantity.SI)
	require.NoError(t, err)
	text := svgText(t, f)
	require.Contains(t, text, "Deceleration number a D / Vo²")
	require.Contains(t, text, "plain-swing, Vo 2.0 m/s")
	require.NotContains(t, text, "spring-disc, Vo")
	require.Contains(t, f.page.notes, "Not shown: spring-disc, which has no full-open velocity.")
	p := f.page.body.(grid).rows[0][0]
	require.Len(t, p.dots, 1)
	require.InEpsilon(t, 4*0.25/4, p.dots[0].at.x, 1e-12)
	for i := range curves {
		curves[i].Of.FullOpenVelocity = 0
	}
	_, err = Collapsed(nil, curves, Own{}, quantity.SI)
	require.ErrorIs(t, err, ErrNoCurve)

	for _, q := range curves[1].Points {
		curves[1].Band = append(curves[1].Band, characteristic.Range{Low: 0.8 * q.ReverseVelocity, High: 1.5 * q.ReverseVelocity, Open: q.Deceleration > 30})
	}
	f, err = Characteristic(nil, curves, Own{}, quantity.US)
	require.NoError(t, err)
	p = f.page.body.(grid).rows[0][0]
	require.Len(t, p.fills, 1)
	require.Equal(t, candidateLine(1).Dashes, p.lines[0].sty.Dashes)
	for _, q := range p.fills[0].pts {
		require.Less(t, q.x, 30/0.3048+1e-9, "no area where it may never seat")
	}
	require.Contains(t, svgText(t, f), "severe slam above 0.98 ft/s")
}

// Whatever the values, figures are drawn without panic and without NaN.
func TestAnyValues(t *testing.T) {
	number := rapid.OneOf(rapid.Float64Range(-1e7, 1e7), rapid.Float64(), rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), math.MaxFloat64, 5e-324}))
	physical := rapid.OneOf(rapid.Float64Range(-1e7, 1e7), rapid.SampledFrom([]float64{0, 1e29, -1e29, 5e-324}))
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 12).Draw(t, "n")
		values := func(name string) []float64 { return rapid.SliceOfN(physical, n, n).Draw(t, name) }
		ascending := func(name string) []float64 {
			x := values(name)
			slices.Sort(x)
			return x
		}
		value := func(name string) choice.Value {
			return choice.Value{SI: number.Draw(t, name), Reason: rapid.SampledFrom([]string{"", "", "", "no such thing"}).Draw(t, name)}
		}
		c := synthetic(1, 1)
		limit := number.Draw(t, "limit")
		c.Case.Limits = choice.Limits{DesignPressure: &limit, SurgeAllowance: &limit, MinimumPressure: &limit, ReverseVelocity: &limit, AnchorForce: &limit}
		c.Scenarios[0].Outcomes = nil
		for i := range rapid.IntRange(1, 6).Draw(t, "candidates") {
			c.Scenarios[0].Outcomes = append(c.Scenarios[0].Outcomes, choice.Outcome{
				Candidate: fmt.Sprint("c", i, rapid.StringN(0, 5, -1).Draw(t, "name")), EventTime: number.Draw(t, "event"),
				PeakPressure: value("peak"), PeakError: value("error"), Seated: value("seated"), MaxReverseVelocity: value("reverse"), Time: ascending("time"),
				Verdicts: []choice.Verdict{{Measure: peakMeasure, Margin: number.Draw(t, "margin")}},
				History:  []choice.Series{{Key: velocityKey, Values: values("v")}, {Key: openingKey, Values: values("y")}, {Key: pressureKey, Values: values("p")}},
				Route: []choice.Profile{{Chainage: ascending("x"), Elevation: values("z"), Steady: values("s"), Lowest: values("l"), Highest: values("h"),
					Cavity: values("c")}},
				AnchorForce: value("anchor"), Failed: rapid.SampledFrom([]string{"", "", "it failed"}).Draw(t, "failed"),
				Runs: []choice.StraightRun{{Pipe: "main", From: physical.Draw(t, "from"), To: physical.Draw(t, "to"), Force: values("force"),
					Forward: choice.Push{Force: number.Draw(t, "forward")}}, {Force: values("other")}},
			})
		}
		figs, err := Figures(c, rapid.SampledFrom([]quantity.System{quantity.SI, quantity.US}).Draw(t, "units"))
		require.NoError(t, err)
		for _, f := range figs {
			var b bytes.Buffer
			require.NoError(t, f.SVG(&b))
			require.NoError(t, xml.Unmarshal(b.Bytes(), new(struct{})))
			require.NotContains(t, b.String(), "NaN")
			require.NotContains(t, b.String(), "Inf")
		}
	})
}

// BenchmarkFigures draws the four figures of the built-in comparison with series of 27 000 points, PNG and SVG.
func BenchmarkFigures(b *testing.B) {
	c := synthetic(2, 1)
	for i := range c.Scenarios[0].Outcomes {
		o := &c.Scenarios[0].Outcomes[i]
		stretched := func(x []float64) []float64 {
			y := make([]float64, 27000)
			for k := range y {
				y[k] = x[k*(len(x)-1)/(len(y)-1)]
			}
			return y
		}
		o.Time = stretched(o.Time)
		for k := range o.History {
			o.History[k].Values = stretched(o.History[k].Values)
		}
	}
	for b.Loop() {
		figs, err := Figures(c, quantity.SI)
		if err != nil {
			b.Fatal(err)
		}
		for _, f := range figs {
			if err := errors.Join(f.PNG(io.Discard), f.SVG(io.Discard)); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func ExampleFigures() {
	figs, err := Figures(synthetic(2, 1), quantity.SI)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range figs {
		w, h := f.Size()
		fmt.Printf("%s, %.0f x %.0f cm\n", f.Name, 100*w, 100*h)
	}
	// Output:
	// peak-surge, 16 x 6 cm
	// pressure-history, 16 x 16 cm
	// disc-motion, 16 x 18 cm
	// envelope, 16 x 13 cm
}

// The candidates may be watched at different valves: the figure says at which.
func TestWatchedValves(t *testing.T) {
	one, other := choice.Outcome{Candidate: "swing", Watched: "lift, unit 1"}, choice.Outcome{Candidate: "spring", Watched: "aux, unit 1"}
	require.Equal(t, " (lift, unit 1)", watched([]choice.Outcome{{Candidate: "failed"}, one, one}))
	require.Equal(t, " (swing: lift, unit 1; spring: aux, unit 1)", watched([]choice.Outcome{one, other}))
	require.Empty(t, watched([]choice.Outcome{{Candidate: "failed"}}))
}
