// Command table turns the output of run.sh into the tables of RESULTS.md. It
// takes the least time of every benchmark: whatever else a machine does can
// only add to it.
package main

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
)

// sizes are the triangle counts, as they are written in benchmark names.
var sizes = []string{"1e4", "1e5", "1e6"}

// results holds the least value of each unit of each benchmark, by the
// benchmark's name and the unit.
type results map[[2]string]float64

func main() {
	r := results{}
	var versions, peers []string
	in := bufio.NewScanner(os.Stdin)
	for in.Scan() {
		f := strings.Fields(in.Text())
		switch {
		case len(f) >= 4 && strings.HasPrefix(f[0], "Benchmark"):
			name := withoutProcs(strings.TrimPrefix(f[0], "Benchmark"))
			for i := 2; i+1 < len(f); i += 2 {
				r.least(name, f[i+1], number(f[i]))
			}
		case len(f) == 6 && f[0] == "peer":
			r.least(f[1]+"/"+f[2], "prepare", number(f[3])*1e6)
			r.least(f[1]+"/"+f[2], "least-ns/op", number(f[4])*1e6)
			r.least(f[1]+"/"+f[2], "off", number(f[5]))
			if len(peers) == 0 || peers[len(peers)-1] != f[1] {
				peers = append(peers, f[1])
			}
		case len(f) >= 2 && f[0] == "version":
			versions = append(versions, strings.Join(f[1:], " "))
		case len(f) >= 2 && f[0] == "cpu:":
			if v := strings.Join(f[1:], " "); len(versions) == 0 || versions[0] != v {
				versions = append([]string{v}, versions...)
			}
		}
	}
	if err := in.Err(); err != nil {
		fmt.Fprintln(os.Stderr, "table:", err)
		os.Exit(1)
	}
	fmt.Println(strings.Join(versions, "; "))
	r.cuts(peers)
	r.others()
	r.ratios(peers)
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

func number(s string) float64 {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		fmt.Fprintf(os.Stderr, "table: %q is no number\n", s)
		os.Exit(1)
	}
	return x
}

func (r results) least(name, unit string, x float64) {
	k := [2]string{name, unit}
	if old, ok := r[k]; !ok || x < old {
		r[k] = x
	}
}

// row prints one line of a table: what f gives for every size.
func row(title string, f func(size string) string) {
	fmt.Printf("| %s |", title)
	for _, s := range sizes {
		fmt.Printf(" %s |", f(s))
	}
	fmt.Println()
}

func heading(title string) {
	fmt.Printf("\n| %s | 1e4 | 1e5 | 1e6 |\n| --- | --- | --- | --- |\n", title)
}

// time returns a row's function for times in milliseconds; the name has %s for
// the size.
func (r results) time(name, unit string) func(string) string {
	return func(size string) string {
		ns, ok := r[[2]string{fmt.Sprintf(name, size), unit}]
		if !ok {
			return ""
		}
		return fmt.Sprintf("%.3g", ns/1e6)
	}
}

// count returns a row's function for plain numbers.
func (r results) count(name, unit string) func(string) string {
	return func(size string) string {
		return fmt.Sprintf("%.0f", r[[2]string{fmt.Sprintf(name, size), unit}])
	}
}

func (r results) cuts(peers []string) {
	heading("one cut, ms")
	row("triangles", r.count("Cut/tris=%s/by=index", "triangles"))
	row("of them straddling", r.count("Cut/tris=%s/by=index", "straddling"))
	row("visited by the index", r.count("Cut/tris=%s/by=index", "visited"))
	row("index, planes in turn", r.time("Cut/tris=%s/by=index", "least-ns/op"))
	row("index, each plane 16 times", r.time("Cut/tris=%s/by=index-again", "least-ns/op"))
	row("floor: clip the straddling", r.time("Cut/tris=%s/by=floor-clip", "least-ns/op"))
	row("straight pass", r.time("Cut/tris=%s/by=straight", "least-ns/op"))
	row("floor: read all bytes once", r.time("Cut/tris=%s/by=floor-stream", "least-ns/op"))
	for _, p := range peers {
		row(p+": prepare", r.time(p+"/%s", "prepare"))
		row(p+": cut", r.time(p+"/%s", "least-ns/op"))
		row(p+": volume differs by at most", func(size string) string {
			return fmt.Sprintf("%.1g", r[[2]string{p + "/" + size, "off"}])
		})
	}
}

func (r results) others() {
	heading("the rest of the mesh package, ms")
	row("build the index, all cores", r.time("Index/tris=%s", "least-ns/op"))
	row("build the index, one core", r.time("IndexOneCore/tris=%s", "least-ns/op"))
	row("memory of the index, bytes a triangle", r.count("Index/tris=%s", "B/triangle"))
	row("lowest point, index", r.time("Lowest/tris=%s/by=index", "least-ns/op"))
	row("lowest point, straight", r.time("Lowest/tris=%s/by=straight", "least-ns/op"))
	row("wetted area, index", r.time("WetArea/tris=%s/by=index", "least-ns/op"))
	row("wetted area, straight", r.time("WetArea/tris=%s/by=straight", "least-ns/op"))
}

// ratios prints what issues and commit messages quote.
func (r results) ratios(peers []string) {
	index := "Cut/tris=%s/by=index"
	over := func(a, b string) func(string) string {
		return func(size string) string {
			x, y := r[[2]string{fmt.Sprintf(a, size), "least-ns/op"}], r[[2]string{fmt.Sprintf(b, size), "least-ns/op"}]
			if x == 0 || y == 0 {
				return ""
			}
			return fmt.Sprintf("%.3g", x/y)
		}
	}
	heading("ratios")
	row("index, planes in turn / clip floor", over(index, "Cut/tris=%s/by=floor-clip"))
	row("index, each plane 16 times / clip floor", over("Cut/tris=%s/by=index-again", "Cut/tris=%s/by=floor-clip"))
	row("straight pass / index", over("Cut/tris=%s/by=straight", index))
	row("read floor / straight pass: share of memory bandwidth", over("Cut/tris=%s/by=floor-stream", "Cut/tris=%s/by=straight"))
	for _, p := range peers {
		row(p+" / index", over(p+"/%s", index))
	}
	row("cuts after which the index, on one core, has paid", func(size string) string {
		at := func(name string) float64 { return r[[2]string{fmt.Sprintf(name, size), "least-ns/op"}] }
		return fmt.Sprintf("%.0f", at("IndexOneCore/tris=%s")/(at("Cut/tris=%s/by=straight")-at(index)))
	})
	fmt.Println()
	for _, unit := range []string{"visited", "least-ns/op"} {
		var x, y []float64
		for _, s := range sizes {
			x = append(x, r[[2]string{fmt.Sprintf(index, s), "triangles"}])
			y = append(y, r[[2]string{fmt.Sprintf(index, s), unit}])
		}
		fmt.Printf("A cut by the index grows as the triangle count to the power of %.2f by %s.\n",
			exponent(x, y), map[string]string{"visited": "triangles visited", "least-ns/op": "time"}[unit])
	}
}

// exponent returns the power of x that fits y best: the slope of the least
// squares line through their logarithms.
func exponent(x, y []float64) float64 {
	var n, sx, sy, sxx, sxy float64
	for i := range x {
		a, b := math.Log(x[i]), math.Log(y[i])
		n, sx, sy, sxx, sxy = n+1, sx+a, sy+b, sxx+a*a, sxy+a*b
	}
	return (n*sxy - sx*sy) / (n*sxx - sx*sx)
}
