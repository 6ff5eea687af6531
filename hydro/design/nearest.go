package design

import (
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
)

// Offer returns a phrase that offers the known words nearest to one that is
// not known: "did you mean ...?", or the whole list where none is near.
func Offer(word string, known []string) string {
	if near := nearest(word, known); len(near) > 0 {
		return "did you mean " + quoted(near) + "?"
	}
	if len(known) == 0 {
		return "there are none"
	}
	return "known are " + quoted(known)
}

// listed returns the names, or the nearest ones with an offer.
func listed(all []string, word string) string {
	if len(all) == 0 {
		return "the craft's: it has none"
	}
	s := quoted(all)
	if near := nearest(word, all); len(near) > 0 && len(all) > 3 {
		s = "the craft's; " + "did you mean " + quoted(near) + "?"
	}
	return s
}

// nearest returns up to three known words within a third of the word's length
// in edits, or that hold it or are held by it, nearest first.
func nearest(word string, known []string) []string {
	type near struct {
		word string
		d    int
	}
	var found []near
	for _, k := range known {
		d := levenshtein.ComputeDistance(strings.ToLower(word), strings.ToLower(k))
		if d <= max(2, len(word)/3) || len(word) > 2 && (strings.Contains(k, word) || strings.Contains(word, k)) {
			found = append(found, near{k, d})
		}
	}
	slices.SortStableFunc(found, func(a, b near) int { return a.d - b.d })
	var out []string
	for _, f := range found[:min(3, len(found))] {
		out = append(out, f.word)
	}
	return out
}

func quoted(words []string) string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = `"` + w + `"`
	}
	return strings.Join(q, ", ")
}
