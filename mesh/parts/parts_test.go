package parts

import (
	"runtime"
	"sync/atomic"
	"testing"
)

func TestDo(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(3))
	for _, n := range []int{0, 1, Least, 2*Least - 1, 2 * Least, 3*Least + 1, 7*Least + 5} {
		seen := make([]byte, n)
		var calls atomic.Int64
		Do(n, func(from, to int) {
			calls.Add(1)
			for i := from; i < to; i++ {
				seen[i]++
			}
		})
		for i, s := range seen {
			if s != 1 {
				t.Fatalf("Do(%d): %d is in %d parts, want 1", n, i, s)
			}
		}
		if got, want := int(calls.Load()), max(1, min(3, n/Least)); got != want {
			t.Errorf("Do(%d) makes %d parts, want %d", n, got, want)
		}
	}
}
