#!/usr/bin/env python3
"""Checks the stored references against closed forms and a plain second summation.

Needs nothing but Python 3.9 and the files in this folder. Exits 1 when a
check fails.
"""
import hashlib
import json
import math
import struct
import sys
from fractions import Fraction
from pathlib import Path

HERE = Path(__file__).parent
failures = 0
checks = 0


def expect(what, got, want, tolerance):
    """got and want are numbers or lists of them; the tolerance is absolute."""
    global failures, checks
    checks += 1
    pairs = zip(got, want) if isinstance(got, (list, tuple)) else [(got, want)]
    worst = max(abs(float(g) - float(w)) for g, w in pairs)
    if not worst <= tolerance:
        failures += 1
        print(f"{what}: got {got}, want {want}, off by {worst:.3g}")


def f32(x):
    return struct.unpack("<f", struct.pack("<f", x))[0]


def read(path):
    """Triangles of an STL file, each three points of float32 values."""
    raw = path.read_bytes()
    if len(raw) >= 84 and len(raw) == 84 + 50 * struct.unpack_from("<I", raw, 80)[0]:
        return [
            (t[3:6], t[6:9], t[9:12])
            for t in struct.iter_unpack("<12fH", raw[84:])
        ]
    points = [
        tuple(f32(float(w)) for w in line.split()[1:4])
        for line in raw.decode().splitlines()
        if line.strip().startswith("vertex")
    ]
    return list(zip(points[0::3], points[1::3], points[2::3]))


def below(tris, n, d):
    """Volume and moment of what lies below the plane, in floats, by fsum."""
    l2 = sum(c * c for c in n)
    apex = [-d * c / l2 for c in n]
    mid = [math.fsum(t[0][k] for t in tris) / len(tris) for k in range(3)]
    off = sum(n[k] * (mid[k] - apex[k]) for k in range(3)) / l2
    apex = [mid[k] - off * n[k] for k in range(3)]
    terms = [[], [], [], []]
    for t in tris:
        h = [n[0] * p[0] + n[1] * p[1] + n[2] * p[2] + d for p in t]
        poly = []
        for k in range(3):
            j = (k + 1) % 3
            if h[k] < 0:
                poly.append(t[k])
            if (h[k] < 0) != (h[j] < 0):
                w = h[k] / (h[k] - h[j])
                poly.append([t[k][c] + w * (t[j][c] - t[k][c]) for c in range(3)])
        poly = [[p[c] - apex[c] for c in range(3)] for p in poly]
        for k in range(1, len(poly) - 1):
            a, b, c = poly[0], poly[k], poly[k + 1]
            v = (
                a[0] * (b[1] * c[2] - b[2] * c[1])
                + a[1] * (b[2] * c[0] - b[0] * c[2])
                + a[2] * (b[0] * c[1] - b[1] * c[0])
            ) / 6
            terms[0].append(v)
            for i in range(3):
                terms[1 + i].append(v * (a[i] + b[i] + c[i]) / 4)
    volume = math.fsum(terms[0])
    return volume, [math.fsum(terms[1 + i]) + volume * apex[i] for i in range(3)]


def box_below(lo, hi, n, d):
    """Volume and moment of a box below a plane, exactly.

    Inclusion and exclusion over the corners of the box: what lies below the
    plane in the octant at a corner is a simplex. Axes the plane runs along
    factor out.
    """
    lo, hi, n = list(lo), list(hi), list(n)
    flipped = [c < 0 for c in n]
    for k in range(3):
        if flipped[k]:
            lo[k], hi[k], n[k] = -hi[k], -lo[k], -n[k]
    live = [k for k in range(3) if n[k] != 0]
    rest = [k for k in range(3) if n[k] == 0]
    k = len(live)
    scale = Fraction(1)
    for i in live:
        scale /= n[i]
    for i in rest:
        scale *= hi[i] - lo[i]
    scale /= math.factorial(k)
    volume, moment = Fraction(0), [Fraction(0)] * 3
    for mask in range(2**k):
        corner = list(lo)
        for q, i in enumerate(live):
            if mask >> q & 1:
                corner[i] = hi[i]
        t = -(sum(n[i] * corner[i] for i in live) + d)
        if t <= 0:
            continue
        v = scale * t**k * (-1) ** bin(mask).count("1")
        volume += v
        for i in live:
            moment[i] += v * (corner[i] + t / (n[i] * (k + 1)))
        for i in rest:
            moment[i] += v * (lo[i] + hi[i]) / 2
    return volume, [-m if f else m for m, f in zip(moment, flipped)]


def cells(boxes):
    """Disjoint boxes that together are the union of boxes."""
    cuts = [sorted({b[e][k] for b in boxes for e in (0, 1)}) for k in range(3)]
    for x in zip(cuts[0], cuts[0][1:]):
        for y in zip(cuts[1], cuts[1][1:]):
            for z in zip(cuts[2], cuts[2][1:]):
                if any(
                    all(b[0][k] <= s[0] and s[1] <= b[1][k] for k, s in enumerate((x, y, z)))
                    for b in boxes
                ):
                    yield (x[0], y[0], z[0]), (x[1], y[1], z[1])


def boxes_of(tris):
    """Corners of the boxes in a file of axis-aligned boxes, 12 triangles each."""
    for i in range(0, len(tris), 12):
        points = [p for t in tris[i : i + 12] for p in t]
        yield tuple(
            tuple(Fraction(f(p[k] for p in points)) for k in range(3)) for f in (min, max)
        )


def circle(j, m):
    k = m // 4
    q, t = j // k % 4, (j % k) / k
    c, s = (1 - t * t) / (1 + t * t), (2 * t) / (1 + t * t)
    return ((c, s), (-s, c), (-c, -s), (s, -c))[q]


def generated(g):
    """Triangles of a part given by formula."""
    n, m = g["n"], g["m"]

    def point(C, S, c, s):
        x = g["L"] * C
        y = g["y"] + g["B"] * (S * c)
        z = g["z"] + (g["H"] * (S * s) + g["R"] * (C * C))
        x, y = (g["cos"] * x - g["sin"] * y) / g["div"], (g["sin"] * x + g["cos"] * y) / g["div"]
        return tuple(f32(v) + 0.0 for v in (x, -y if g.get("mirrored") else y, z))

    verts = [
        point(*circle(i, 2 * n), *circle(j, m)) for i in range(1, n) for j in range(m)
    ]
    verts += [point(1, 0, 1, 0), point(-1, 0, 1, 0)]
    first, last = (n - 1) * m, (n - 1) * m + 1
    tris = []
    for j in range(m):
        k = (j + 1) % m
        tris.append((first, j, k))
        for i in range(n - 2):
            a, b = i * m + j, i * m + k
            tris += [(a, a + m, b + m), (a, b + m, b)]
        tris.append((last, (n - 2) * m + k, (n - 2) * m + j))
    if g.get("mirrored"):
        tris = [(a, c, b) for a, b, c in tris]
    return [(verts[a], verts[b], verts[c]) for a, b, c in tris]


def result(plane):
    """The exact result of a plane: by CGAL, or where it gave none, the direct one."""
    return plane["cgal"] or plane["direct"]


def moment(r):
    return [0, 0, 0] if r["centroid"] is None else [c * r["volume"] for c in r["centroid"]]


def far(tris):
    return max(abs(c) for t in tris for p in t for c in p)


# Every cut against a plain summation of the stored mesh. Rounding in the
# heights moves it by a few 1e-16 of the distance from the origin.
everything = [0, 0, 1]
for path in sorted((HERE / "cut").glob("*.json")):
    ref = json.loads(path.read_text())
    stl = path.with_name(ref["file"])
    assert hashlib.sha256(stl.read_bytes()).hexdigest() == ref["sha256"], stl
    tris = read(stl)
    v, reach = ref["whole"]["cgal"]["volume"], far(tris)
    scale = reach / ref["size"]
    got, _ = below(tris, everything, -10 * reach)
    expect(f"{ref['name']} whole", v, got, 1e-14 * v * scale)
    for i, p in enumerate(ref["planes"]):
        what = f"{ref['name']} plane {i} ({p['kind']})"
        assert abs(sum(c * c for c in p["n"]) - 1) < 1e-15, what
        volume, m = below(tris, p["n"], p["d"])
        r = result(p)
        expect(what + " volume", r["volume"], volume, 1e-14 * v * scale)
        expect(what + " moment", moment(r), m, 1e-14 * v * reach * scale)
        if p["cgal"]:
            d = p["direct"]
            expect(what + " cut area, two ways", p["cgal"]["cut_area"], d["cut_area"], 1e-15 * ref["size"] ** 2)

# Boxes and unions of boxes against exact closed forms, whole and cut.
for name in ("cut/box", "union/coplanar_boxes", "union/flush", "union/identical_boxes",
             "union/edge_contact", "union/cell_boxes", "union/hair"):
    ref = json.loads((HERE / f"{name}.json").read_text())
    folder = (HERE / name).parent
    files = [ref["file"]] if "file" in ref else [p["file"] for p in ref["parts"]]
    boxes = [b for f in files for b in boxes_of(read(folder / f))]
    grid = list(cells(boxes))
    v = sum(math.prod(h - l for l, h in zip(*c)) for c in grid)
    expect(f"{name} whole", ref["whole"]["cgal"]["volume"], v, 2e-16 * float(v))
    reach = max(abs(float(c)) for b in boxes for e in b for c in e)
    for i, p in enumerate(ref["planes"]):
        n, d = [Fraction(c) for c in p["n"]], Fraction(p["d"])
        volume, m = Fraction(0), [Fraction(0)] * 3
        for lo, hi in grid:
            a, b = box_below(lo, hi, n, d)
            volume += a
            m = [x + y for x, y in zip(m, b)]
        r = result(p)
        what = f"{name} plane {i} ({p['kind']})"
        expect(what + " volume", r["volume"], volume, 2e-16 * float(volume))
        expect(what + " moment", moment(r), m, 1e-15 * float(volume) * reach)


def union(name):
    ref = json.loads((HERE / "union" / f"{name}.json").read_text())
    parts = []
    for p in ref["parts"]:
        if "file" in p:
            file = HERE / "union" / p["file"]
            assert hashlib.sha256(file.read_bytes()).hexdigest() == p["sha256"], file
            parts.append(read(file))
        else:
            tris = generated(p["generated"])
            raw = b"".join(struct.pack("<9f", *a, *b, *c) for a, b, c in tris)
            assert hashlib.sha256(raw).hexdigest() == p["sha256_coordinates"], (name, p["name"])
            parts.append(tris)
        assert len(parts[-1]) == p["triangles"]
    return ref, parts


def section(tris, axis):
    """Corners of the flat end of a prism along an axis, in turn, about its axis."""
    least = min(p[axis] for t in tris for p in t)
    points = {p for t in tris for p in t if p[axis] == least}
    return [tuple(p[k] for k in range(3) if k != axis) for p in points]


def shoelace(points):
    mid = [sum(p[k] for p in points) / len(points) for k in (0, 1)]
    points = sorted(points, key=lambda p: math.atan2(p[1] - mid[1], p[0] - mid[0]))
    pairs = zip(points, points[1:] + points[:1])
    return sum(Fraction(a[0]) * Fraction(b[1]) - Fraction(b[0]) * Fraction(a[1]) for a, b in pairs) / 2


# Every union lies between its largest solid and the sum of its solids, and
# both libraries agree on the whole; sizes of files and hashes hold.
for path in sorted((HERE / "union").glob("*.json")):
    ref, parts = union(path.stem)
    v = ref["whole"]["cgal"]["volume"]
    alone = [s["volume"] for s in ref["solids_alone"]]
    expect(f"{path.stem} bounds", v, min(max(v, max(alone)), math.fsum(alone)), 1e-15 * v)
    # float32 tolerances of manifold-3d: 1e-7 of the size where faces nearly coincide
    expect(f"{path.stem} libraries", v, ref["whole"]["manifold"]["volume"], 1e-7 * v)
    for i, p in enumerate(ref["planes"]):
        what = f"{path.stem} plane {i} ({p['kind']})"
        expect(what + " libraries", result(p)["volume"], p["manifold"]["volume"], 1e-7 * v)
        expect(what + " two ways", result(p)["volume"], p["direct"]["volume"], 1e-15 * v)

# A pod through a hollow cube, by areas and lengths.
ref, (hollow, pod) = union("cavity_pod")
area = shoelace(section(pod, 0))
expect("cavity_pod", ref["whole"]["cgal"]["volume"], 100**3 - 80**3 + area * (30 + 30 + 80), 1e-9)
ref, _ = union("cavity_filled")
expect("cavity_filled", ref["whole"]["cgal"]["volume"], 100**3 + area * (30 + 30), 1e-9)

# Crossed prisms: at a height both are some width, linear between corners.
ref, (px, py) = union("crossed_cylinders")


def width(points):
    """Heights of the corners of a convex section, and its width at a height."""
    points = [(Fraction(y), Fraction(z)) for y, z in points]

    def edge(side, z):
        chain = [p for p in points if side * p[0] >= 0]
        a = max((p for p in chain if p[1] <= z), key=lambda p: p[1])
        b = min((p for p in chain if p[1] >= z), key=lambda p: p[1])
        return a[0] if a == b else a[0] + (b[0] - a[0]) * (z - a[1]) / (b[1] - a[1])

    return {p[1] for p in points}, lambda z: edge(1, z) - edge(-1, z)


(zx, wx), (zy, wy) = width(section(px, 0)), width(section(py, 1))
heights = sorted({*zx, *zy})
shared = Fraction(0)
for a, b in zip(heights, heights[1:]):
    u, v, p, q = wx(a), wx(b), wy(a), wy(b)
    shared += (b - a) * (2 * u * p + u * q + v * p + 2 * v * q) / 6
expect("crossed_cylinders", ref["whole"]["cgal"]["volume"],
       shoelace(section(px, 0)) * 100 + shoelace(section(py, 1)) * 120 - shared, 1e-9)
# and their common part tends to 16 r^3 / 3 (Archimedes)
expect("crossed_cylinders limit", shared, 16 * 20**3 / 3, 2e-3 * 16 * 20**3 / 3)

# Two balls of radius r at distance c share pi (4 r + c) (2 r - c)^2 / 12; faceted, less.
ref, _ = union("spheres")
ball, lens = 4 / 3 * math.pi * 50**3, math.pi * (200 + 60) * (100 - 60) ** 2 / 12
expect("spheres limit", ref["whole"]["cgal"]["volume"], 2 * ball - lens, 0.02 * ball)

# Mirrored pairs: what lies to port of the centerline, twice. Where the halves
# overlap by 3 mm a side, the deeper section shows: y in (-3, 0) instead of (0, 3).
ref, parts = union("halves_overlap")
inner, _ = below(parts[0], [0, 1, 0], 0.0)
outer, _ = below(parts[0], [0, -1, 0], 3.0)
expect("halves_overlap", ref["whole"]["cgal"]["volume"], 2 * (inner + outer), 1e-13 * outer)
for name in ("halves_meet", "big_mirrored"):
    ref, parts = union(name)
    port, _ = below(parts[0], [0, -1, 0], 0.0)
    expect(name, ref["whole"]["cgal"]["volume"], 2 * port, 1e-13 * port)

print(f"{checks} checks, {failures} failed")
sys.exit(1 if failures else 0)
