// Command table turns the output of run.sh into the tables of RESULTS.md. It
// takes the least time of every benchmark: whatever else a machine does can
// only add to it.
package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
)

func main() {
	r, err := read(os.Stdin)
	if err != nil {
		fmt.Fprintln(os.Stderr, "table:", err)
		os.Exit(1)
	}
	p := printer{results: r, out: os.Stdout}
	fmt.Println(strings.Join(r.versions, "; "))
	p.cuts()
	p.mesh()
	p.solves()
	p.sweeps()
	p.loads()
	p.ratios()
	p.growth()
	p.targets()
}

// results is what run.sh collected.
type results struct {
	versions []string // the processor first
	peers    []string // the other libraries
	least    map[key]float64
}

// key is the name of a benchmark and a unit that it reports.
type key struct{ name, unit string }

// leastTime is the unit of the times that count, ns.
const leastTime = "least-ns/op"

// read reads the output of go test -bench, and lines of other libraries:
//
//	peer NAME SIZE PREPARE-MS CUT-MS DIFFERENCE
//	version TEXT
func read(in io.Reader) (*results, error) {
	r := &results{least: map[key]float64{}}
	lines := bufio.NewScanner(in)
	for lines.Scan() {
		f := strings.Fields(lines.Text())
		var err error
		switch {
		case len(f) >= 4 && strings.HasPrefix(f[0], "Benchmark"):
			name := withoutProcs(strings.TrimPrefix(f[0], "Benchmark"))
			for i := 2; i+1 < len(f) && err == nil; i += 2 {
				err = r.take(name, f[i+1], f[i], 1)
			}
		case len(f) == 6 && f[0] == "peer":
			name := f[1] + "/" + f[2]
			for i, u := range []struct {
				name  string
				scale float64
			}{{"prepare", 1e6}, {leastTime, 1e6}, {"off", 1}} {
				if err == nil {
					err = r.take(name, u.name, f[3+i], u.scale)
				}
			}
			if !slices.Contains(r.peers, f[1]) {
				r.peers = append(r.peers, f[1])
			}
		case len(f) >= 2 && f[0] == "version":
			r.versions = append(r.versions, strings.Join(f[1:], " "))
		case len(f) >= 2 && f[0] == "cpu:":
			if cpu := strings.Join(f[1:], " "); !slices.Contains(r.versions, cpu) {
				r.versions = slices.Insert(r.versions, 0, cpu)
			}
		}
		if err != nil {
			return nil, fmt.Errorf("in %q: %w", lines.Text(), err)
		}
	}
	return r, lines.Err()
}

// take keeps a value, if it is the least so far.
func (r *results) take(name, unit, text string, scale float64) error {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return err
	}
	k := key{name, unit}
	if old, ok := r.least[k]; !ok || x*scale < old {
		r.least[k] = x * scale
	}
	return nil
}

// withoutProcs returns a benchmark's name without the number of processors
// that go test adds where it is not one.
func withoutProcs(name string) string {
	if i := strings.LastIndex(name, "-"); i >= 0 {
		if _, err := strconv.Atoi(name[i+1:]); err == nil {
			return name[:i]
		}
	}
	return name
}
