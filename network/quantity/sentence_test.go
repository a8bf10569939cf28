package quantity_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/network/quantity"
)

func TestSentence(t *testing.T) {
	inner := quantity.Say("%v abs", quantity.Of(5e4, quantity.Pressure))
	s := quantity.Say("%s: %v above %v, %.0f %% of %v at %v, %v", "tank", quantity.Level(151.526), quantity.Level(151.524), 12.4, quantity.Of(0.1, quantity.Flow),
		quantity.Of(2, quantity.Time), inner)
	require.Equal(t, "tank: 151.53 m above 151.52 m, 12 % of 360 m3/h at 2 s, 0.5 bar abs", s.String())
	require.Equal(t, "tank: 497.13 ft above 497.13 ft, 12 % of 1585 gpm at 2 s, 7.252 psi abs", s.In(quantity.US))
	require.Equal(t, "no value", quantity.Level(math.NaN()).In(quantity.SI))
	require.Equal(t, "nothing", quantity.Say("nothing").In(quantity.US))
}

// said is an error as other packages make them.
type said struct{ quantity.Sentence }

func (s *said) Error() string { return s.String() }

func TestReword(t *testing.T) {
	err := &said{quantity.Say("it is %v", quantity.Of(1e5, quantity.Pressure))}
	us := quantity.Reword(err, quantity.US)
	require.EqualError(t, us, "it is 14.5 psi")
	require.ErrorIs(t, us, err)
	plain := errors.New("plain")
	require.Equal(t, plain, quantity.Reword(plain, quantity.US))
	require.NoError(t, quantity.Reword(nil, quantity.US))
	wrapped := fmt.Errorf("with a context of its own: %w", err)
	require.Equal(t, wrapped, quantity.Reword(wrapped, quantity.US), "a context is not thrown away")
}
