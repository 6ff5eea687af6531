package main

// Names of benchmarks that several tables use; %s is the size.
const (
	cutIndex    = "Cut/tris=%s/by=index"
	cutAgain    = "Cut/tris=%s/by=index-again"
	cutStraight = "Cut/tris=%s/by=straight"
	floorClip   = "Cut/tris=%s/by=floor-clip"
	floorStream = "Cut/tris=%s/by=floor-stream"
	indexOne    = "IndexOneCore/tris=%s"
	restLevel   = "Rest/tris=%s/from=level/by=index"
	oneRest     = "OneRest/tris=%s/by="
	warm        = "Warm/tris=%s/along="
	sweep       = "Sweep/tris=%s/cores="
	load        = "Load/tris=%s/by="
	weld        = "Weld/tris=%s/by=weld"
)

func (p *printer) cuts() {
	p.heading("one cut, ms")
	p.row("triangles", "%.0f", p.of(cutIndex, "triangles"))
	p.row("of them straddling", "%.0f", p.of(cutIndex, "straddling"))
	p.row("visited by the index", "%.0f", p.of(cutIndex, "visited"))
	p.ms("index, planes in turn", p.time(cutIndex))
	p.ms("index, each plane 16 times", p.time(cutAgain))
	p.ms("floor: clip the straddling", p.time(floorClip))
	p.ms("straight pass", p.time(cutStraight))
	p.ms("floor: read all bytes once", p.time(floorStream))
	for _, name := range p.peers {
		p.ms(name+": prepare", p.of(name+"/%s", "prepare"))
		p.ms(name+": cut", p.time(name+"/%s"))
		p.row(name+": volume differs by at most", "%.1g", p.of(name+"/%s", "off"))
	}
}

func (p *printer) mesh() {
	p.heading("the rest of the mesh package, ms")
	p.ms("build the index, all cores", p.time("Index/tris=%s"))
	p.ms("build the index, one core", p.time(indexOne))
	p.row("memory of the index, bytes a triangle", "%.0f", p.of("Index/tris=%s", "B/triangle"))
	p.ms("lowest point, index", p.time("Lowest/tris=%s/by=index"))
	p.ms("lowest point, straight", p.time("Lowest/tris=%s/by=straight"))
	p.ms("wetted area, index", p.time("WetArea/tris=%s/by=index"))
	p.ms("wetted area, straight", p.time("WetArea/tris=%s/by=straight"))
}

func (p *printer) solves() {
	p.heading("rest to 1e-12 and curves to 1e-11, one float loaded in 8 ways, ms")
	for _, from := range []struct{ name, title string }{
		{"level", "rest from level, at mid height"},
		{"heeled", "rest from heel 50 and trim 10 deg"},
		{"over", "rest from upside down"},
	} {
		name := "Rest/tris=%s/from=" + from.name + "/by="
		p.row(from.title+": cuts", "%.3g", p.of(name+"index", "cuts/op"))
		p.ms(from.title+": index", p.time(name+"index"))
		p.ms(from.title+": straight pass", p.time(name+"straight"))
	}
	p.ms("one rest of a new mesh, as the command does it", p.time(oneRest+"rule"))
	p.ms("one rest of a new mesh, straight pass", p.time(oneRest+"straight"))
	p.ms("one rest of a new mesh, building the index for it", p.time(oneRest+"index"))
	for _, along := range []struct{ name, title string }{
		{"righting-30", "righting curve every 2 deg, 30 deg to both sides"},
		{"righting-180", "righting curve every 2 deg, all around"},
		{"load", "10 % more mass in 20 steps"},
		{"trim", "CG 5 % of the length ahead in 20 steps"},
	} {
		p.row(along.title+": cuts a step", "%.3g", p.of(warm+along.name, "cuts/step"))
		p.ms(along.title+": index", p.time(warm+along.name))
	}
}

func (p *printer) sweeps() {
	p.heading("sweep of 50 x 50 plugs in two floats of so many triangles each, ms")
	p.ms("one core", p.time(sweep+"one"))
	p.ms("all cores", p.time(sweep+"all"))
	p.row("one core / all cores", "%.3g", over(p.time(sweep+"one"), p.time(sweep+"all")))
	p.row("limit: loops that share nothing, one core / all cores", "%.3g",
		whole(over(p.time("Cores/cores=one"), p.time("Cores/cores=all"))))
}

func (p *printer) loads() {
	p.heading("a binary STL file in the page cache, ms")
	p.ms("its bytes", p.time(load+"bytes"))
	p.ms("bare read: the STL library's ReadFile", p.time(load+"library"))
	p.ms("read and checked", p.time(load+"read"))
	p.ms("welded", p.time(weld))
	p.ms("read and closed into a solid, with all checks and repairs", p.time(load+"read+close"))
	p.row("read, checked and welded / bare read", "%.3g", over(p.readAndWeld(), p.time(load+"library")))
	p.row("read and closed / bare read", "%.3g", over(p.time(load+"read+close"), p.time(load+"library")))
}

func (p *printer) readAndWeld() value { return plus(p.time(load+"read"), p.time(weld)) }
