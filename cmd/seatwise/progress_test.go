package main

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// clock goes only when told.
type clock struct{ at time.Time }

func (c *clock) now() time.Time       { return c.at }
func (c *clock) pass(d time.Duration) { c.at = c.at.Add(d) }
func line(p *progress, b *bytes.Buffer) string {
	s := b.String()
	return strings.TrimRight(s[strings.LastIndex(s, "\r")+1:], " ")
}

func TestProgress(t *testing.T) {
	var out bytes.Buffer
	c := &clock{time.Unix(0, 0)}
	p := newProgress(&out, "comparing 2 candidates", onTerminal, c.now)
	c.pass(50 * time.Millisecond)
	p.set(0.5)
	require.Empty(t, out.String(), "what is over soon needs no line")
	c.pass(950 * time.Millisecond)
	p.set(0.02)
	require.Equal(t, "comparing 2 candidates: 50 %, 1 s left", line(p, &out))
	n := out.Len()
	c.pass(time.Millisecond)
	p.set(0.6)
	require.Equal(t, n, out.Len(), "not more often than needed")
	c.pass(3 * time.Second)
	p.set(0.25)
	require.Equal(t, "comparing 2 candidates: 60 %, 3 s left", line(p, &out), "never goes back")
	c.pass(time.Second)
	p.set(2)
	require.Equal(t, "comparing 2 candidates: 99 %, 1 s left", line(p, &out), "what is shown is not done yet")
	p.clear()
	require.True(t, strings.HasSuffix(out.String(), strings.Repeat(" ", 40)+"\r") || strings.HasSuffix(out.String(), " \r"))
	n = out.Len()
	p.clear()
	require.Equal(t, n, out.Len())
}

func TestProgressTimeLeft(t *testing.T) {
	for _, c := range []struct {
		passed time.Duration
		done   float64
		want   string
	}{
		{time.Second, 0.01, ""},
		{time.Second, 0.1, "9 s"},
		{10 * time.Second, 0.25, "30 s"},
		{time.Minute, 0.25, "3 min"},
	} {
		k := &clock{time.Unix(0, 0)}
		p := newProgress(&bytes.Buffer{}, "", onTerminal, k.now)
		k.pass(c.passed)
		p.done = c.done
		text, _ := p.left(k.now())
		require.Equal(t, c.want, text)
	}
}

func TestProgressInLog(t *testing.T) {
	var out bytes.Buffer
	c := &clock{time.Unix(0, 0)}
	p := newProgress(&out, "comparing 2 candidates", inLog, c.now)
	for range 7 {
		c.pass(10 * time.Second)
		p.set(c.at.Sub(time.Unix(0, 0)).Seconds() / 100)
	}
	p.clear()
	require.Equal(t, "seatwise: comparing 2 candidates: 30 %, 70 s left\nseatwise: comparing 2 candidates: 60 %, 40 s left\n", out.String(), "every half minute, nothing before")
}

func TestProgressQuiet(t *testing.T) {
	p := newProgress(nil, "comparing", onTerminal, time.Now)
	p.set(0.5)
	p.clear()
	require.Zero(t, p.done)
}
