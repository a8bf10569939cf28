package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"seatwise": main})
}

// TestScripts runs the scripts of testdata/script, one topic each, in a folder that holds the cases of testdata/case.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup:               func(env *testscript.Env) error { return copyCases(env.WorkDir) },
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"code": code, "interrupt": interrupt},
	})
}

// code runs seatwise and compares its exit code: code 2 compare missing.yaml.
func code(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: code N arguments of seatwise")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec("seatwise", args[1:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("seatwise: %v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

func copyCases(to string) error {
	return os.CopyFS(to, os.DirFS(filepath.Join("testdata", "case")))
}

func TestExitCodesAreDistinct(t *testing.T) {
	seen := map[int]bool{}
	for _, c := range []int{exitDone, exitFailed, exitInput, exitStrict, exitInterrupted} {
		require.False(t, seen[c])
		seen[c] = true
	}
}
