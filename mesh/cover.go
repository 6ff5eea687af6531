package mesh

// loopsOf returns the sides of a cut face as closed walks, anticlockwise seen
// from above. As many sides end at a vertex as begin there, since they bound
// what is left of a closed chain; so every walk that begins somewhere gets back
// there, whatever crosses or touches.
func loopsOf(sides []rim) [][]uint32 {
	leaving := make(map[uint32][]uint32, len(sides))
	for _, e := range sides {
		leaving[e.to] = append(leaving[e.to], e.from)
	}
	var loops [][]uint32
	for _, e := range sides {
		start := e.to
		for len(leaving[start]) > 0 {
			var loop []uint32
			for at := start; ; {
				loop = append(loop, at)
				next := leaving[at]
				at, leaving[loop[len(loop)-1]] = next[len(next)-1], next[:len(next)-1]
				if at == start {
					break
				}
			}
			loops = append(loops, loop)
		}
	}
	return loops
}

// cover returns triangles whose boundary is the given loops. Each loop is
// halved again and again: a line across a convex face then meets only some
// log n of its n triangles, which keeps cuts through the face cheap. Over a
// dent the triangles lie over one another with opposite signs, over a hole too.
func cover(loops [][]uint32) [][3]uint32 {
	var f faces
	for _, loop := range loops {
		var fill func(i, j int)
		fill = func(i, j int) {
			if j-i < 2 {
				return
			}
			m := (i + j) / 2
			f.add([3]uint32{loop[i], loop[m], loop[j]})
			fill(i, m)
			fill(m, j)
		}
		fill(0, len(loop)-1)
	}
	return f.triangles
}

// reversed returns the triangles turned over.
func reversed(triangles [][3]uint32) [][3]uint32 {
	out := make([][3]uint32, len(triangles))
	for i, t := range triangles {
		out[i] = [3]uint32{t[0], t[2], t[1]}
	}
	return out
}
