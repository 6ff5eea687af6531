// Command readmecheck runs the examples of a README and compares what they
// print with what the README shows.
//
//	readmecheck README.md         compare, exit 1 on a difference
//	readmecheck -write README.md  put today's output in
//
// An example is a fenced block of the language "console". Its lines that begin
// with "$ " are commands, run by sh in a folder of their own with millpond
// built and on the path and the demo craft beside; the other lines are what
// the commands print, both streams together, in order. A command whose line
// ends in "# exit 1" must exit with that status. Blocks of other languages are
// left alone.
//
// A picture that the README shows from testdata/pictures must be a file of that
// name that an example writes, byte for byte.
package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

func main() {
	write := flag.Bool("write", false, "put today's output in")
	flag.Parse()
	if err := check(flag.Arg(0), *write); err != nil {
		fmt.Fprintln(os.Stderr, "readmecheck:", err)
		os.Exit(1)
	}
}

// check runs the examples of the README at path.
func check(path string, write bool) error {
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "readme")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	bin := filepath.Join(dir, "bin")
	if out, err := exec.Command("go", "build", "-o", filepath.Join(bin, "millpond"), "./cmd/millpond").CombinedOutput(); err != nil {
		return fmt.Errorf("building millpond: %w\n%s", err, out)
	}
	work := filepath.Join(dir, "work")
	if err := os.CopyFS(work, os.DirFS(filepath.Join("testdata", "demo"))); err != nil {
		return err
	}
	fresh, commands, err := rerun(string(text), work, bin)
	if err != nil {
		return err
	}
	if err := comparePictures(fresh, work, write); err != nil {
		return err
	}
	if write {
		return os.WriteFile(path, []byte(fresh), 0o644)
	}
	if fresh != string(text) {
		return fmt.Errorf("%s shows what the commands no longer print:\n%s", path, difference(string(text), fresh))
	}
	fmt.Printf("%d example commands print what %s shows\n", commands, path)
	return nil
}

// pictures is where the pictures that a README shows are kept.
const pictures = "testdata/pictures"

// comparePictures compares every picture that the text shows with the one that
// the examples made in work, or with write copies it from there.
func comparePictures(text, work string, write bool) error {
	for _, m := range regexp.MustCompile(`\]\(`+pictures+`/([^)]+)\)`).FindAllStringSubmatch(text, -1) {
		made, err := os.ReadFile(filepath.Join(work, m[1]))
		if err != nil {
			return fmt.Errorf("no example makes the picture %s: %w", m[1], err)
		}
		kept := filepath.Join(filepath.FromSlash(pictures), m[1])
		if write {
			if err := os.MkdirAll(filepath.Dir(kept), 0o755); err != nil {
				return err
			}
			if err := os.WriteFile(kept, made, 0o644); err != nil {
				return err
			}
			continue
		}
		if old, err := os.ReadFile(kept); err != nil || !bytes.Equal(old, made) {
			return fmt.Errorf("%s is not the picture that the example makes today (%v)", kept, err)
		}
	}
	return nil
}

// rerun returns the text with the output of every example as it is today, and
// how many commands were run.
func rerun(text, work, bin string) (string, int, error) {
	var out strings.Builder
	inside := false
	commands := 0
	for line := range strings.Lines(text) {
		bare := strings.TrimRight(line, "\n")
		switch {
		case !inside:
			inside = bare == "```console"
			out.WriteString(line)
		case bare == "```":
			inside = false
			out.WriteString(line)
		case strings.HasPrefix(bare, "$ "):
			out.WriteString(line)
			printed, err := runExample(strings.TrimPrefix(bare, "$ "), work, bin)
			if err != nil {
				return "", 0, err
			}
			commands++
			out.WriteString(printed)
		}
	}
	if inside {
		return "", 0, fmt.Errorf("a console block is not closed")
	}
	if commands == 0 {
		return "", 0, fmt.Errorf("no example commands found")
	}
	return out.String(), commands, nil
}

// runExample runs one command and returns what it printed.
func runExample(line, work, bin string) (string, error) {
	command, want := line, 0
	if before, status, ok := strings.Cut(line, " # exit "); ok {
		var err error
		if want, err = strconv.Atoi(status); err != nil {
			return "", fmt.Errorf("%s: the exit status is no number", line)
		}
		command = before
	}
	c := exec.Command("sh", "-c", command)
	c.Dir = work
	c.Env = append(os.Environ(), "PATH="+bin+string(os.PathListSeparator)+os.Getenv("PATH"))
	var printed bytes.Buffer
	c.Stdout, c.Stderr = &printed, &printed
	err := c.Run()
	if got := c.ProcessState.ExitCode(); got != want {
		return "", fmt.Errorf("%s: exit status %d, want %d (%v)\n%s", line, got, want, err, printed.String())
	}
	s := printed.String()
	if s != "" && !strings.HasSuffix(s, "\n") {
		s += "\n"
	}
	return s, nil
}

// difference shows the first place where two texts part.
func difference(shown, printed string) string {
	a, b := strings.Split(shown, "\n"), strings.Split(printed, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return fmt.Sprintf("line %d shows   %s\nbut it prints  %s", i+1, a[i], b[i])
		}
	}
	return fmt.Sprintf("%d lines shown, %d printed", len(a), len(b))
}
