package requirement_test

import (
	"context"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/examples"
	"seatwise/network/casefile"
	"seatwise/valve/choice"
	"seatwise/valve/requirement"
)

func TestX(t *testing.T) {
	name := os.Getenv("CASE")
	raw, err := examples.Files.ReadFile(name)
	require.NoError(t, err)
	d, err := casefile.Read(name, raw, examples.Files.ReadFile)
	require.NoError(t, err)
	c, err := d.Case()
	require.NoError(t, err)
	if os.Getenv("NOV") != "" {
		c.Limits.ReverseVelocity = nil
	}
	r, err := requirement.Find(context.Background(), c, choice.Settings{})
	require.NoError(t, err)
	a := r.Allowed
	t.Log(a.Velocity, a.Above, a.Unbound, a.Again, a.Runs, r.Own, r.Size)
	for _, b := range append(a.Binding, a.Broken...) {
		t.Log(b)
	}
	t.Logf("%+v", r.Places)
}
