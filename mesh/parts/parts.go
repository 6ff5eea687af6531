// Package parts shares loops over large meshes among the processors.
package parts

import (
	"runtime"
	"sync"
)

// Least is how many triangles or vertices make it worth to start a goroutine
// for them: even light work on them takes some tenths of a millisecond.
const Least = 1 << 14

// Do calls f for parts of 0 to n that cover it once, in order and one after the
// other where n is small, else at once. What f does for one number must not
// depend on how the others are shared out.
func Do(n int, f func(from, to int)) {
	Each(Count(n), n, func(_, from, to int) { f(from, to) })
}

// Blocks is Do where each number stands for so many triangles or vertices.
func Blocks(n, each int, f func(from, to int)) {
	Each(Count(n*each), n, func(_, from, to int) { f(from, to) })
}

// Count returns how many parts are worth making of 0 to n, at least one.
func Count(n int) int { return max(1, min(runtime.GOMAXPROCS(0), n/Least)) }

// Each calls f for so many parts of 0 to n at once, with the number of each
// part: the first has the lowest numbers.
func Each(count, n int, f func(part, from, to int)) {
	if count == 1 {
		f(0, 0, n)
		return
	}
	var all sync.WaitGroup
	for i := range count {
		all.Go(func() { f(i, n*i/count, n*(i+1)/count) })
	}
	all.Wait()
}
