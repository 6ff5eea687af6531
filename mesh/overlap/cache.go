package overlap

import (
	"encoding/binary"
	"math"
	"sync"

	"millpond/mesh"
)

// Keyed is a placed solid with a key that says which solid it is, for a
// [Cache]: solids with equal keys are the same. A nil key stands for the
// solid's own pointer.
type Keyed struct {
	mesh.Placed
	Key any // comparable
}

func (k *Keyed) key() any {
	if k.Key == nil {
		return k.Solid
	}
	return k.Key
}

// Cache remembers what solids share by which they are and how they lie to each
// other, so that a sweep that moves one part works out anew only what that
// changes. Its zero value is ready for use, and a nil one remembers nothing. It
// holds the last [Remembered] answers, and is safe for concurrent use.
type Cache struct {
	mu      sync.Mutex
	numbers map[any]uint32 // of keys
	answers map[string]*answer
	clock   uint64
}

// Remembered is how many answers a [Cache] holds at most.
const Remembered = 256

// mostKeys is how many solids a cache knows by number before it starts afresh.
const mostKeys = 4096

// answer is what Shared said, or will say.
type answer struct {
	once   sync.Once
	shared *mesh.Solid
	err    error
	used   uint64
}

// Shared is the function [Shared], remembered.
func (c *Cache) Shared(a Keyed, others []Keyed) (*mesh.Solid, error) {
	placed := make([]mesh.Placed, len(others))
	for i, o := range others {
		placed[i] = o.Placed
	}
	q, err := newQuestion(a.Placed, placed)
	if err != nil || len(q.near) == 0 {
		return nil, err
	}
	if c == nil {
		return q.answer()
	}
	at := c.find(a, others, q)
	at.once.Do(func() { at.shared, at.err = q.answer() })
	return at.shared, at.err
}

// find returns the place for an answer.
func (c *Cache) find(a Keyed, others []Keyed, q *question) *answer {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.answers == nil || len(c.numbers) > mostKeys {
		c.numbers, c.answers = make(map[any]uint32), make(map[string]*answer)
	}
	number := func(k any) uint32 {
		n, ok := c.numbers[k]
		if !ok {
			n = uint32(len(c.numbers))
			c.numbers[k] = n
		}
		return n
	}
	name := binary.LittleEndian.AppendUint32(nil, number(a.key()))
	for _, n := range q.near {
		name = binary.LittleEndian.AppendUint32(name, number(others[n.index].key()))
		for _, row := range n.place.M {
			for _, x := range row {
				name = binary.LittleEndian.AppendUint64(name, math.Float64bits(x))
			}
		}
		for _, x := range [3]float64{n.place.T.X, n.place.T.Y, n.place.T.Z} {
			name = binary.LittleEndian.AppendUint64(name, math.Float64bits(x))
		}
	}
	at, ok := c.answers[string(name)]
	if !ok {
		if len(c.answers) >= Remembered {
			c.forget()
		}
		at = &answer{}
		c.answers[string(name)] = at
	}
	c.clock++
	at.used = c.clock
	return at
}

// forget drops the answer that was not asked for for the longest time.
func (c *Cache) forget() {
	oldest := ""
	for name, at := range c.answers {
		if oldest == "" || at.used < c.answers[oldest].used {
			oldest = name
		}
	}
	delete(c.answers, oldest)
}
