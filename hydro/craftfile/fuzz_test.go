package craftfile

import (
	"errors"
	"os"
	"strings"
	"testing"
)

// FuzzRead reads any text without a panic, and gives either a craft that can
// be worked with or errors that point into the text.
func FuzzRead(f *testing.F) {
	full, err := os.ReadFile("testdata/full.toml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(full))
	for _, c := range badFiles(f) {
		f.Add(c.text)
	}
	f.Add(of("a", "filled.stl", "") + of("b", "stated.unknown", "mirror = true"))
	f.Fuzz(func(t *testing.T, text string) {
		file, err := read("c.toml", []byte(text), fromLibrary)
		if err == nil {
			if _, err := file.Craft.Hull(); err != nil {
				t.Errorf("a craft read without error makes no hull: %v", err)
			}
			file.Craft.Loaded()
			return
		}
		var all Errors
		if !errors.As(err, &all) || len(all) == 0 {
			t.Fatalf("error of type %T: %v", err, err)
		}
		lines := strings.Split(strings.TrimPrefix(text, "\xef\xbb\xbf"), "\n")
		for _, e := range all {
			if e.Path != "c.toml" {
				continue // a base that the text names
			}
			if e.Line < 0 || e.Line > len(lines) || e.Line > 0 && (e.Column < 1 || e.Column > len(lines[e.Line-1])+1) {
				t.Errorf("an error points to %d:%d, outside the text: %v", e.Line, e.Column, e)
			}
			if !printable(e.Message) {
				t.Errorf("a message does not print: %q", e.Message)
			}
		}
	})
}
