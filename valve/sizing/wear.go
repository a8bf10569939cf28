package sizing

import "math"

// Shake is a time in which the flow fluctuates and the disc with it.
type Shake struct {
	Amplitude float64 // of the opening, fraction of the travel
	Frequency float64 // Hz
	Time      float64 // s a year
}

// Strokes is the way of the disc over a year in full strokes, from seat to stop and back, the wear index of hinge or guide:
//
//	N = sum of 4 a f t/2
//
// with the amplitude a of the opening, a fraction of the travel, of which every cycle has the way 4 a, the frequency f, Hz, and the time t, s. Wear of a pin
// in its bush or a stem in its guide grows with the load on it and the way that it slides (the law of J. F. Archard, 1953, from memory): N is that way counted
// so that discs of any size and kind compare. It leaves out load, materials and dirt: it compares candidates, it does not predict lives. The amplitude of a
// floating disc is that in a slow fluctuation times its [Response].
func Strokes(shakes ...Shake) float64 {
	var n float64
	for _, s := range shakes {
		n += 2 * s.Amplitude * s.Frequency * s.Time
	}
	return n
}

// Rate is the greatest rate of a disc, rad/s or m/s, that swings with the amplitude y, rad or m, and the frequency f, Hz, as a sine: 2 pi f y.
func Rate(y, f float64) float64 { return 2 * math.Pi * f * y }
