package main

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"seatwise/plots"
	"seatwise/plots/export"
	"seatwise/valve"
	"seatwise/valve/choice"
)

// look opens a folder of results without names that are expected.
func look(t *testing.T, dir string, names ...string) *folder {
	f, err := newFolder(dir, summaryFile, "case", nil, names, false)
	require.NoError(t, err)
	return f
}

func manifestOf(files string) artefact {
	return whole(summaryFile, []byte(`{"format": 1, "case": "case", "files": [`+files+`]}`))
}

// contents are the files of a folder; "/" stands for a folder.
func contents(t *testing.T, dir string) map[string]string {
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	all := map[string]string{}
	for _, e := range entries {
		if e.IsDir() {
			all[e.Name()] = "/"
			continue
		}
		raw, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		all[e.Name()] = string(raw)
	}
	return all
}

// A move that fails on the way puts all back: neither a mixed folder nor one without its manifest is left.
func TestFailedMoveLeavesThePreviousResults(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, look(t, dir).publish(t.Context(), []artefact{whole("a.csv", []byte("old a")), whole("b.csv", []byte("old b")), whole("gone.csv", nil),
		manifestOf(`"a.csv", "b.csv", "gone.csv"`)}))
	before := contents(t, dir)
	require.Len(t, before, 4)

	f := look(t, dir)
	draft := filepath.Join(dir, unfinished+"x")
	require.NoError(t, os.Mkdir(draft, 0o700))
	fresh := []artefact{whole("a.csv", []byte("new a")), whole("b.csv", []byte("new b")), manifestOf(`"a.csv", "b.csv"`)}
	require.NoError(t, write(t.Context(), draft, fresh))
	require.NoError(t, os.Remove(filepath.Join(draft, "b.csv"))) // the second rename fails
	require.ErrorIs(t, f.move(draft, fresh), os.ErrNotExist)
	require.NoError(t, os.RemoveAll(draft))
	require.Equal(t, before, contents(t, dir))

	require.NoError(t, look(t, dir).publish(t.Context(), fresh))
	after := contents(t, dir)
	require.Equal(t, "new a", after["a.csv"])
	require.NotContains(t, after, "gone.csv")
	require.Len(t, after, 3)
}

// A folder in the place of a result is refused before anything is run, and before anything is moved.
func TestFolderInTheWay(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, look(t, dir).publish(t.Context(), []artefact{whole("a.csv", []byte("old")), whole("b.csv", []byte("old")), manifestOf(`"a.csv", "b.csv"`)}))
	f := look(t, dir, "a.csv", "b.csv")
	require.NoError(t, os.Remove(filepath.Join(dir, "b.csv")))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "b.csv"), 0o700))
	before := contents(t, dir)
	require.ErrorContains(t, f.publish(t.Context(), []artefact{whole("a.csv", []byte("new")), whole("b.csv", []byte("new")), manifestOf(`"a.csv", "b.csv"`)}), "b.csv")
	require.Equal(t, before, contents(t, dir))

	_, err := newFolder(dir, summaryFile, "case", nil, []string{"a.csv", "b.csv"}, true)
	require.ErrorContains(t, err, "b.csv would replace")
	require.ErrorAs(t, err, new(*inputError))

	other := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(other, summaryFile), 0o700))
	_, err = newFolder(other, summaryFile, "case", nil, nil, true)
	require.ErrorContains(t, err, "summary.json would replace")
}

// What a killed run left neither makes the folder a stranger's nor stays.
func TestLeftoverOfAKilledRun(t *testing.T) {
	dir := t.TempDir()
	left := filepath.Join(dir, unfinished+"123")
	require.NoError(t, os.Mkdir(left, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(left, "a.csv"), []byte("half"), 0o600))
	require.NoError(t, look(t, dir).publish(t.Context(), []artefact{manifestOf("")}))
	require.Len(t, contents(t, dir), 1)
}

// A folder that cannot be used is told before the run.
func TestUnusableFolder(t *testing.T) {
	dir := t.TempDir()
	link := filepath.Join(dir, "link")
	require.NoError(t, os.Symlink(filepath.Join(dir, "nothing"), link))
	file := filepath.Join(dir, "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	bad := []string{link, filepath.Join(link, "deep"), file, filepath.Join(file, "deep")}
	if runtime.GOOS == "linux" {
		bad = append(bad, "/proc/seatwise", "/proc/seatwise/deep")
	}
	if os.Getuid() > 0 {
		closed := filepath.Join(dir, "closed")
		require.NoError(t, os.Mkdir(closed, 0o500))
		bad = append(bad, closed, filepath.Join(closed, "deep"))
	}
	for _, path := range bad {
		_, err := newFolder(path, summaryFile, "case", nil, nil, true)
		require.ErrorAs(t, err, new(*inputError), path)
		require.ErrorContains(t, err, "cannot use the folder "+path)
	}
	fine := filepath.Join(dir, "a", "b")
	look(t, fine)
	require.NoDirExists(t, filepath.Join(dir, "a"), "looking leaves nothing")
}

// All that a comparison writes has a name that was known before the run.
func TestResultNames(t *testing.T) {
	in := &choice.Case{Name: "case", Candidates: []valve.Spec{{Name: "swing"}, {Name: "spring"}}, Scenarios: []choice.Scenario{{Name: "base"}, {Name: "all-trip"}}}
	all, err := resultNames(in)
	require.NoError(t, err)
	require.Len(t, all, 2*2*2+1+2*(1+2*3))
	require.Subset(t, all, []string{"peak-surge.png", "disc-motion-all-trip.svg", "history-all-trip-spring.csv", "envelope-swing.csv"})
	require.NotContains(t, all, plots.PeakSurge+"-all-trip.png")
	in.Candidates[0].Name = "../up"
	_, err = resultNames(in)
	require.ErrorIs(t, err, export.ErrName)
	require.ErrorAs(t, err, new(*inputError))
}

func TestFileName(t *testing.T) {
	for name, want := range map[string]string{
		"lift-station": "lift-station", "a/b\\c": "a-b-c", "..": "case", "": "case", "two words": "two-words", "Pumpwerk-Süd": "Pumpwerk-Süd", ".hidden": "hidden",
	} {
		require.Equal(t, want, fileName(name))
	}
}
