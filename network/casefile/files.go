package casefile

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"path"
	"strings"

	"seatwise/network/quantity"
)

// files are the files beside the case: each is read once, in the order in which the case names them.
type files struct {
	open  func(path string) ([]byte, error)
	names []string
	bytes map[string][]byte
	errs  map[string]error
}

func newFiles(open func(string) ([]byte, error)) *files {
	return &files{open: open, bytes: map[string][]byte{}, errs: map[string]error{}}
}

// read gives the bytes of a file named in the case, or in a file in a folder below the case's.
func (f *files) read(folder, name string, e ending) ([]byte, error) {
	clean, err := local(folder, name, e)
	if err != nil {
		return nil, err
	}
	if f.open == nil {
		return nil, fmt.Errorf("there is no folder to read the file %s from", quantity.Quote(name))
	}
	if raw, ok := f.bytes[clean]; ok {
		return raw, nil
	}
	if err, ok := f.errs[clean]; ok {
		return nil, err
	}
	raw, err := f.open(clean)
	if err != nil {
		err = fmt.Errorf("cannot read the file %s: %w", quantity.Quote(name), err)
		f.errs[clean] = err
		return nil, err
	}
	f.names = append(f.names, clean)
	f.bytes[clean] = raw
	return raw, nil
}

// local is the path, from the folder of the case, of a file named in a folder of it.
func local(folder, name string, e ending) (string, error) {
	switch {
	case strings.ContainsAny(name, `\:`):
		return "", fmt.Errorf("%s is no path beside the case: write it with / and without a drive", quantity.Quote(name))
	case strings.HasPrefix(name, "/"):
		return "", fmt.Errorf("%s is an absolute path: files are named from the folder of the case", quantity.Quote(name))
	}
	if err := e.check(name); err != nil {
		return "", err
	}
	clean := path.Join(folder, name)
	if clean == ".." || strings.HasPrefix(clean, "../") {
		return "", errors.New(quantity.Quote(name) + " leaves the folder of the case")
	}
	return clean, nil
}

// sum is the SHA-256 of the case and of the files read, one after the other, and of the overrides when there are any.
func (f *files) sum(raw []byte, overrides []override) string {
	h := sha256.New()
	h.Write(raw)
	for _, name := range f.names {
		h.Write(f.bytes[name])
	}
	for _, o := range overrides {
		fmt.Fprintf(h, "\nset %s=%s", o.path, o.value)
	}
	return hex.EncodeToString(h.Sum(nil))
}
