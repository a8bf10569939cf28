package pipe

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestSchedule40 compares outside diameters and Sch 40 walls, mm, with a stockist's
// published table of schedule 40 carbon steel pipe to ASME B36.10M.
func TestSchedule40(t *testing.T) {
	for _, c := range []struct {
		label         string
		outside, wall float64
	}{
		{"DN50 Sch 40", 60.3, 3.91}, {"DN65 Sch 40", 73, 5.16}, {"DN80 Sch 40", 88.9, 5.49}, {"DN90 Sch 40", 101.6, 5.74},
		{"DN100 Sch 40", 114.3, 6.02}, {"DN125 Sch 40", 141.3, 6.55}, {"DN150 Sch 40", 168.3, 7.11}, {"DN200 Sch 40", 219.1, 8.18},
		{"DN250 Sch 40", 273, 9.27}, {"DN300 Sch 40", 323.8, 10.31}, {"DN350 Sch 40", 355.6, 11.13}, {"DN400 Sch 40", 406.4, 12.7},
		{"DN450 Sch 40", 457, 14.27}, {"DN500 Sch 40", 508, 15.09}, {"DN600 Sch 40", 610, 17.48}, {"DN800 Sch 40", 813, 17.48},
	} {
		s, err := Schedule(c.label)
		require.NoError(t, err)
		require.Equal(t, c.label, s.Label)
		require.InDelta(t, c.outside/1e3, s.Outside, 1e-12)
		require.InDelta(t, c.wall/1e3, s.Wall, 1e-12)
	}
	// inch dimensions that everybody knows: 4.500 in by 0.237 in (and 0.337 in)
	s, err := Schedule("DN100 Sch 80")
	require.NoError(t, err)
	require.InDelta(t, 0.337*25.4e-3, s.Wall, 5e-6)
	require.InDelta(t, (4.5-2*0.337)*25.4e-3, s.Bore(), 1e-5)
}

// TestTableIsConsistent holds the rules by which the standard was drawn up.
func TestTableIsConsistent(t *testing.T) {
	numbered := []int{0, 1, 2, 4, 5, 7, 8, 9, 10, 11} // columns 10 to 160 without weights
	last := 0.0
	for _, r := range b3610 {
		std, sch40, xs, sch80 := r.walls[3], r.walls[4], r.walls[6], r.walls[7]
		require.Greater(t, r.outside, last)
		last = r.outside
		if r.dn >= 350 { // outside diameter is the nominal inch size
			require.InDelta(t, float64(r.dn)/25*25.4, r.outside, 0.5)
		}
		if r.dn <= 250 {
			require.Equal(t, std, sch40, "DN%d", r.dn)
		} else {
			require.Equal(t, 9.53, std, "DN%d", r.dn)
		}
		if r.dn <= 200 {
			require.Equal(t, xs, sch80, "DN%d", r.dn)
		} else {
			require.Equal(t, 12.70, xs, "DN%d", r.dn)
		}
		thinner := 0.0
		for _, i := range numbered {
			if r.walls[i] == 0 {
				continue
			}
			require.Greater(t, r.walls[i], thinner, "DN%d Sch %s", r.dn, schedules[i])
			thinner = r.walls[i]
		}
	}
	for _, s := range Sizes() {
		require.Greater(t, s.Bore(), s.Outside/2)
		again, err := Schedule(s.Label)
		require.NoError(t, err)
		require.Equal(t, s, again)
	}
}

func TestScheduleSpelling(t *testing.T) {
	for written, want := range map[string]string{
		"DN450 STD": "DN450 STD", "dn450std": "DN450 STD", " DN 450  xs ": "DN450 XS",
		"DN100 sch.40": "DN100 Sch 40", "DN100 SCH 80": "DN100 Sch 80", "DN50 XXS": "DN50 XXS",
		"12 in STD": "DN300 STD", "12in STD": "DN300 STD", "NPS 12 STD": "DN300 STD", "nps12 std": "DN300 STD", `18" XS`: "DN450 XS", "NPS 18in STD": "DN450 STD",
		"NPS 2 1/2 Sch 40": "DN65 Sch 40", "2-1/2 in STD": "DN65 STD", "3.5 inch STD": "DN90 STD", "NPS 36 Sch 40": "DN900 Sch 40", "4 inches XXS": "DN100 XXS",
	} {
		s, err := Schedule(written)
		require.NoError(t, err, written)
		require.Equal(t, want, s.Label)
	}
	for written, hint := range map[string]string{
		"": "write it as", "450 STD": "write it as", "DN STD": "write it as", "DN99999999999999999999 STD": "write it as",
		"DN440 STD": "nearest is DN450", "DN1 XS": "nearest is DN50", "DN2000 STD": "nearest is DN900",
		"DN100 40": "comes as STD, Sch 40, XS, Sch 80", "DN550 Sch 40": "comes as Sch 10", "DN100 Sch": "comes as", "DN100": "comes as",
		"NPS 13 STD": "nearest is NPS 12", "99 in STD": "nearest is NPS 36", "NPS STD": "write it as", "12 STD": "write it as", "NPS 1.2.3 STD": "write it as",
		"NPS 12 SDT": "DN300 comes as", "12 mm STD": "write it as",
	} {
		_, err := Schedule(written)
		require.ErrorIs(t, err, ErrSize, written)
		require.ErrorContains(t, err, hint, written)
	}
}

// DN and NPS are two names of one size (ASME B36.10M, from memory).
func TestNominal(t *testing.T) {
	for written, want := range map[string]int{"DN250": 250, "dn 250": 250, "NPS 10": 250, "10 in": 250, "NPS 2 1/2": 65, `36"`: 900} {
		dn, err := Nominal(written)
		require.NoError(t, err, written)
		require.Equal(t, want, dn, written)
	}
	for _, written := range []string{"", "10", "NPS", "NPS 11", "DN251", "DN250 STD", "10 mm"} {
		_, err := Nominal(written)
		require.ErrorIs(t, err, ErrSize, written)
	}
	for _, r := range b3610[1:] {
		if r.dn >= 350 { // from DN350 on the outside diameter is the nominal size
			require.InDelta(t, r.nps*25.4, r.outside, 0.6, "DN%d", r.dn)
		}
		if r.dn >= 100 { // and from DN100 on an inch counts 25 mm
			require.Equal(t, 25*r.nps, float64(r.dn))
		}
	}
}

// What of a label is right comes back beside what is wrong.
func TestSizeError(t *testing.T) {
	for written, want := range map[string][2]string{"DN300 SDT": {"DN300", "SDT"}, " nps 12  SDT": {"nps 12", "SDT"}, "DN710 STD": {"", ""}} {
		_, err := Schedule(written)
		var e *SizeError
		require.ErrorAs(t, err, &e)
		require.Equal(t, want, [2]string{e.Nominal, e.Schedule}, written)
		require.Equal(t, want[0] != "", len(e.Schedules) > 0)
	}
}

func FuzzSchedule(f *testing.F) {
	for _, s := range []string{"DN450 STD", "DN100 Sch 40", "dn 80 sch.160", "DN", "", "DN\xff", "DN007 XS", "DN٤ STD", "NPS 2 1/2 STD", "12in STD", "NPS \xff", "ıN"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, label string) {
		s, err := Schedule(label)
		if err != nil {
			require.True(t, errors.Is(err, ErrSize))
			require.Equal(t, Size{}, s)
			return
		}
		again, err := Schedule(s.Label)
		require.NoError(t, err)
		require.Equal(t, s, again)
	})
}

func FuzzParseRestraint(f *testing.F) {
	for _, s := range []string{"anchored throughout", "Expansion  Joints", "", "\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := ParseRestraint(s)
		if err != nil {
			require.ErrorIs(t, err, ErrRestraint)
			return
		}
		again, err := ParseRestraint(r.String())
		require.NoError(t, err)
		require.Equal(t, r, again)
	})
}
