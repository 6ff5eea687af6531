package main

import (
	"fmt"
	"io"
	"strings"
)

// printAssumed lists, one to a line, what an answer was reckoned with.
func printAssumed(w io.Writer, all []string) {
	fmt.Fprintln(w, "\nAssumed:")
	for _, one := range all {
		fmt.Fprintln(w, "  "+one)
	}
}

// assumedText is the same in a sentence.
func assumedText(all []string) string { return "Assumed: " + strings.Join(all, "; ") + "." }
