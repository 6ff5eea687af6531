package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write testdata/BAD_INPUT.md anew")

// badInput is something wrong that a user may hand over.
type badInput struct {
	what string // in the words of who did it
	file string // name of the file
	data string // what is in it
	args string // the command; the quick form of inspect on the file if empty
}

// badGroup is bad inputs of one kind.
type badGroup struct {
	title string
	cases []badInput
}

// badInputs is the document that lists what was tried.
const badInputs = "../../testdata/BAD_INPUT.md"

// TestBadInput hands over everything in the list, and compares what the user
// sees with testdata/BAD_INPUT.md. None may end in anything but an answer with
// a warning or a clear no: status 0 or 2, or 1 where the answer is no.
func TestBadInput(t *testing.T) {
	want, err := os.ReadFile(badInputs)
	if err != nil && !*update {
		t.Fatal(err)
	}
	path, err := filepath.Abs(badInputs)
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	var doc strings.Builder
	doc.WriteString(badInputHead)
	for _, g := range badGroups() {
		fmt.Fprintf(&doc, "\n## %s\n\n| what is wrong | what the user sees | exit |\n| --- | --- | --- |\n", g.title)
		for _, c := range g.cases {
			status, seen := tryBad(t, c)
			fmt.Fprintf(&doc, "| %s | %s | %d |\n", c.what, seen, status)
		}
	}
	if *update {
		if err := os.WriteFile(path, []byte(doc.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, listed := strings.Split(doc.String(), "\n"), strings.Split(string(want), "\n")
	for i := range max(len(got), len(listed)) {
		var a, b string
		if i < len(got) {
			a = got[i]
		}
		if i < len(listed) {
			b = listed[i]
		}
		if a != b {
			t.Fatalf("BAD_INPUT.md:%d lists\n%s\nand it is now\n%s\n(if it is right: go test ./cmd/millpond -run TestBadInput -update)", i+1, b, a)
		}
	}
}

// tryBad runs the command on a bad input and returns its status and what it
// prints to standard error, fit for a cell.
func tryBad(t *testing.T, c badInput) (status int, seen string) {
	t.Helper()
	if c.file != "" {
		if err := os.WriteFile(c.file, []byte(c.data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	args := c.args
	if args == "" {
		args = "inspect " + c.file + " --unit mm"
	}
	var out, errs bytes.Buffer
	status = run(context.Background(), strings.Fields(args), strings.NewReader(""), &out, &errs)
	said := strings.TrimSpace(errs.String())
	switch {
	case said == "":
		t.Errorf("%s: nothing was said", c.what)
	case status != exitAnswered && status != exitNo && status != exitWrong:
		t.Errorf("%s: exit status %d", c.what, status)
	case status == exitWrong && out.Len() > 0:
		t.Errorf("%s: a result in spite of an error:\n%s", c.what, out.String())
	case strings.Contains(said, "goroutine ") || strings.Contains(said, "%!"):
		t.Errorf("%s: not fit for a user:\n%s", c.what, said)
	}
	var lines []string
	for line := range strings.Lines(said) {
		line = strings.TrimPrefix(strings.TrimRight(line, " \n"), "millpond: ")
		if line == "" {
			continue
		}
		lines = append(lines, "`"+strings.NewReplacer("|", `\|`, "`", "'", "\t", "  ").Replace(line)+"`")
	}
	return status, strings.Join(lines, "<br>")
}

const badInputHead = `# Bad input, and what the user sees

Every row was tried: this file is written by a test that hands each input to the
command and takes down what it prints to standard error, and the test fails when
that changes (` + "`go test ./cmd/millpond -run TestBadInput -update`" + ` writes it anew).
Exit 0: answered, with a warning; 1: the answer is no; 2: the input is wrong.
Where no command is given it is ` + "`millpond inspect FILE --unit mm`" + `.
`
