package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

// interrupt runs seatwise on a case of which a part never ends, sends it an interrupt as Ctrl-C does, and leaves its output in the files out.txt and err.txt:
// interrupt compare half.yaml. It waits twice as long, and once more, until some part is finished.
func interrupt(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: interrupt arguments of seatwise")
	}
	for wait := time.Second / 2; wait < 2*time.Minute; wait *= 2 {
		var stdout, stderr bytes.Buffer
		cmd := exec.Command("seatwise", args...)
		cmd.Path = scripted(ts.Getenv("PATH"))
		cmd.Dir, cmd.Env, cmd.Stdout, cmd.Stderr = ts.MkAbs("."), os.Environ(), &stdout, &stderr
		ts.Check(cmd.Start())
		time.Sleep(wait)
		ts.Check(cmd.Process.Signal(os.Interrupt))
		var exit *exec.ExitError
		if err := cmd.Wait(); !errors.As(err, &exit) || exit.ExitCode() != exitInterrupted {
			ts.Fatalf("seatwise: %v, want exit code %d\n%s", err, exitInterrupted, stderr.String())
		}
		if strings.Contains(stderr.String(), "interrupted; nothing was written\n") {
			continue
		}
		ts.Check(os.WriteFile(ts.MkAbs("out.txt"), stdout.Bytes(), 0o666))
		ts.Check(os.WriteFile(ts.MkAbs("err.txt"), stderr.Bytes(), 0o666))
		return
	}
	ts.Fatalf("nothing was ever finished")
}

// scripted is the program that scripts call seatwise.
func scripted(path string) string {
	for _, dir := range filepath.SplitList(path) {
		if p := filepath.Join(dir, "seatwise"); exec.Command(p, "version").Run() == nil {
			return p
		}
	}
	return "seatwise"
}

// A second interrupt ends the program at once: here it waits for somebody to read its output, which nobody does.
func TestSecondInterrupt(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no interrupt can be sent to another process")
	}
	self, err := os.Executable()
	require.NoError(t, err)
	r, w, err := os.Pipe()
	require.NoError(t, err)
	defer r.Close()
	defer w.Close()
	require.NoError(t, w.SetWriteDeadline(time.Now().Add(100*time.Millisecond)))
	_, err = w.Write(make([]byte, 1<<22)) // fills it
	require.ErrorIs(t, err, os.ErrDeadlineExceeded)

	for wait := time.Second / 2; wait < time.Minute; wait *= 2 {
		cmd := exec.Command(self, "compare", filepath.Join("testdata", "case", "tiny.yaml"), "--no-files")
		cmd.Args[0], cmd.Stdout = "seatwise", w
		require.NoError(t, cmd.Start())
		ended := make(chan error, 1)
		go func() { ended <- cmd.Wait() }()
		time.Sleep(wait)
		status, sent := interruptUntil(t, cmd.Process, ended)
		if sent == 1 {
			continue // it did not listen yet, or had nothing to write yet
		}
		require.True(t, status.Signaled())
		require.Equal(t, syscall.SIGINT, status.Signal())
		return
	}
	t.Fatal("the program never came to its writing")
}

// interruptUntil interrupts a process until it ends, and counts how often.
func interruptUntil(t *testing.T, p *os.Process, ended <-chan error) (status syscall.WaitStatus, sent int) {
	for {
		_ = p.Signal(os.Interrupt) // it may have ended just now
		sent++
		select {
		case err := <-ended:
			var exit *exec.ExitError
			require.ErrorAs(t, err, &exit)
			return exit.Sys().(syscall.WaitStatus), sent
		case <-time.After(time.Second):
			if sent == 60 {
				require.NoError(t, p.Kill())
				t.Fatal("interrupts do not end the program")
			}
		}
	}
}
