package mesh

import (
	"runtime"
	"sync"
)

// worthSharing is how many triangles make it worth to start a goroutine for
// them: their part of building an index takes some milliseconds.
const worthSharing = 1 << 15

// share calls f for parts of 0 to n, at once where they come to many triangles
// at each so many. What f does for one number must not depend on the others.
func share(n, each int, f func(from, to int)) {
	parts := min(runtime.GOMAXPROCS(0), n*each/worthSharing)
	if parts <= 1 {
		f(0, n)
		return
	}
	var wait sync.WaitGroup
	for i := range parts {
		from, to := n/parts*i, n/parts*(i+1)
		if i == parts-1 {
			to = n
		}
		wait.Go(func() { f(from, to) })
	}
	wait.Wait()
}
