package main

import (
	"fmt"
	"strings"
)

// draw draws today's design and the sized one to the file that the flag names,
// if any.
func (r *sizeReport) draw() error {
	if r.plot.path == "" {
		return nil
	}
	var what []string
	for k, span := range r.spans {
		what = append(what, span.Text()+" "+found(span, r.got.Values[k], r.got.Beyond, k))
	}
	fig, err := overlayOf(r.trial, r.got.Trial, "today", strings.Join(what, ", "))
	if err != nil {
		return fmt.Errorf("--plot: today's design has no rest to draw: %w", err)
	}
	w, h := fig.Size()
	return r.plot.write(w, h, fig.Draw)
}
