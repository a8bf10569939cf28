package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
)

// errManifest is a JSON object that does not end as expected.
var errManifest = errors.New("seatwise: the summary is not an object over several lines")

// key is a key of a JSON object with its value.
type key struct {
	name  string
	value any
}

// listed is the JSON object that write makes with further keys at its end, by which a later run knows what belongs to this one.
func listed(write func(io.Writer) error, keys ...key) ([]byte, error) {
	var buf bytes.Buffer
	if err := write(&buf); err != nil {
		return nil, err
	}
	raw, ok := bytes.CutSuffix(buf.Bytes(), []byte("\n}\n"))
	if !ok || raw[0] != '{' {
		return nil, errManifest
	}
	for _, k := range keys {
		name, err := json.Marshal(k.name)
		if err != nil {
			return nil, err
		}
		value, err := json.MarshalIndent(k.value, "  ", "  ")
		if err != nil {
			return nil, err
		}
		raw = append(append(append(append(raw, ",\n  "...), name...), ": "...), value...)
	}
	return append(raw, "\n}\n"...), nil
}

// names are those of files.
func names(files []artefact) []string {
	list := []string{}
	for _, f := range files {
		list = append(list, f.name)
	}
	return list
}

// whole is an artefact of bytes that are ready.
func whole(name string, raw []byte) artefact {
	return artefact{name, func(w io.Writer) error {
		_, err := w.Write(raw)
		return err
	}}
}
