package main

import (
	"fmt"
	"io"
	"math"
)

// sizes are the triangle counts, as they are written in benchmark names.
var sizes = []string{"1e4", "1e5", "1e6"}

// value is a number for each size; NaN where it was not measured.
type value func(size string) float64

// of returns what a benchmark reports in a unit. The name has %s for the size.
func (r *results) of(name, unit string) value {
	return func(size string) float64 {
		full := name
		if size != "" {
			full = fmt.Sprintf(name, size)
		}
		if x, ok := r.least[key{full, unit}]; ok {
			return x
		}
		return math.NaN()
	}
}

// time returns the least time of a benchmark, ns.
func (r *results) time(name string) value { return r.of(name, leastTime) }

// whole returns a value that does not depend on the size.
func whole(v value) value { return func(string) float64 { return v("") } }

func over(a, b value) value { return func(size string) float64 { return a(size) / b(size) } }

func plus(a, b value) value { return func(size string) float64 { return a(size) + b(size) } }

func scaled(by float64, a value) value { return func(size string) float64 { return by * a(size) } }

// printer prints tables.
type printer struct {
	*results
	out io.Writer
}

func (p *printer) heading(title string) {
	fmt.Fprintf(p.out, "\n| %s | 1e4 | 1e5 | 1e6 |\n| --- | --- | --- | --- |\n", title)
}

// row prints a line of a table: a value at every size, by a format such as
// "%.3g", and nothing where it was not measured. A line with nothing at all is
// left out.
func (p *printer) row(title, format string, v value) {
	line, any := "| "+title+" |", false
	for _, s := range sizes {
		x := v(s)
		if math.IsNaN(x) {
			line += " |"
			continue
		}
		line, any = line+" "+fmt.Sprintf(format, x)+" |", true
	}
	if any {
		fmt.Fprintln(p.out, line)
	}
}

// ms prints a line of times in milliseconds.
func (p *printer) ms(title string, ns value) { p.row(title, "%.3g", scaled(1e-6, ns)) }

// exponent returns the power of x that fits y best: the slope of the least
// squares line through their logarithms.
func exponent(x, y value) float64 {
	var n, sx, sy, sxx, sxy float64
	for _, s := range sizes {
		a, b := math.Log(x(s)), math.Log(y(s))
		n, sx, sy, sxx, sxy = n+1, sx+a, sy+b, sxx+a*a, sxy+a*b
	}
	return (n*sxy - sx*sy) / (n*sxx - sx*sx)
}
