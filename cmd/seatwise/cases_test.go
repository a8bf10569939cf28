package main

import (
	"context"
	"errors"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is cut short says which cases are done; what fails names its case and stays what it was.
func TestCutShort(t *testing.T) {
	err := cutShort(context.Canceled, []string{"a", "b"}, "c")
	require.ErrorIs(t, err, context.Canceled)
	require.ErrorContains(t, err, "of case c there is nothing; complete: a, b; there is no table of all cases")
	err = cutShort(&interrupted{"what was finished is in x", context.Canceled}, nil, "c")
	require.ErrorContains(t, err, "of case c what was finished is in x")
	require.Equal(t, context.Canceled, cutShort(context.Canceled, nil, "c"))
	failed := errors.New("no steady flow")
	err = cutShort(failed, []string{"a"}, "c")
	require.ErrorIs(t, err, failed)
	require.EqualError(t, err, "case c: no steady flow")
}

func TestJointFolder(t *testing.T) {
	require.Equal(t, "all-north-south", jointFolder([]string{"north", "south"}))
	many := make([]string, 30)
	for i := range many {
		many[i] = "a-long-name"
	}
	require.Equal(t, "all-a-long-name-and-29-more", jointFolder(many))
}
