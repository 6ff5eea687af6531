package craftfile

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// badFile is a file with something wrong and what is to be said about it.
type badFile struct{ name, text, want string }

// badFiles returns the cases of testdata/bad*.txt. Each begins with a line
// "==== name", then comes the file, a line "----" and the message.
func badFiles(t testing.TB) []badFile {
	paths, err := filepath.Glob("testdata/bad*.txt")
	if err != nil {
		t.Fatal(err)
	}
	var cases []badFile
	for _, path := range paths {
		all, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, one := range strings.Split(string(all), "==== ")[1:] {
			name, rest, _ := strings.Cut(one, "\n")
			text, want, ok := strings.Cut(rest, "----\n")
			if !ok {
				t.Fatalf("%s: no message for %s", path, name)
			}
			cases = append(cases, badFile{name, text, want})
		}
	}
	return cases
}

// TestBad compares what is said about each bad file, to the letter.
func TestBad(t *testing.T) {
	cases := badFiles(t)
	open := Mesh{Path: "open.stl", Unit: "mm"}
	open.load(fromLibrary)
	if len(cases) < 80 {
		t.Errorf("%d bad files, want 80 or more", len(cases))
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := read("craft.toml", []byte(c.text), fromLibrary)
			if err == nil {
				t.Fatalf("read of\n%sgives no error", c.text)
			}
			// What is wrong with a mesh is in the words of package mend.
			want := strings.ReplaceAll(c.want, "{open.stl}", open.Err.Error())
			if diff := cmp.Diff(want, err.Error()+"\n"); diff != "" {
				t.Errorf("read of\n%sgives (-want +got):\n%s", c.text, diff)
			}
			for _, leak := range []string{"craftfile.", "struct", "float64", "map[", "main.", "%!"} {
				if strings.Contains(err.Error(), leak) {
					t.Errorf("the message says %q, which is nothing to a user:\n%s", leak, err)
				}
			}
		})
	}
}
