#!/usr/bin/env bash
# Runs the benchmarks of cuts, rests, curves, sweeps and loading and, where they
# are installed, other geometry libraries on the same meshes and planes, and
# prints one table:
#
#	testdata/bench/run.sh [ROUNDS]
#
# Every benchmark runs ROUNDS times (3 by default), spread over the whole run.
# The table takes the least time of each plane, and the mean of these over the
# planes: what else the machine does can only add to it.
#
# CGAL needs g++ and libcgal-dev, VTK python3-vtk9 (Debian); manifold-3d is
# fetched from npm into a folder of the run. What is absent is skipped with a word.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
cd "$here/../.."
rounds=${1:-3}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
say() { printf '%s\n' "$*" >&2; }

say "writing the meshes and planes"
MILLPOND_BENCH_DIR=$work go test ./mesh -count 1 -run '^TestWriteBenchMeshes$' >/dev/null

for round in $(seq "$rounds"); do
  say "go test -bench, round $round of $rounds"
  go test ./mesh -run '^$' -bench . -benchtime 0.5s >>"$work/out"
  go test ./hydro -run '^$' -bench '^Benchmark(Rest|Warm)$' -benchtime 24x >>"$work/out"
  go test ./hydro -run '^$' -bench '^BenchmarkOneRest$' -benchtime 8x >>"$work/out"
  go test ./hydro/design -run '^$' -bench '^Benchmark(Sweep|Cores)$' -benchtime 1x >>"$work/out"
  go test ./mesh/meshfile ./mesh/mend -run '^$' -bench '^Benchmark(Load|Weld)$' -benchtime 3x >>"$work/out"
done
say "the index on one core"
GOMAXPROCS=1 go test ./mesh -run '^$' -bench 'Index' -benchtime 3x -count "$rounds" |
  sed -n 's/^BenchmarkIndex/BenchmarkIndexOneCore/p' >>"$work/out"

if command -v g++ >/dev/null && [ -e /usr/include/CGAL/version.h ]; then
  say "CGAL"
  echo "version CGAL $(sed -n 's/^#define CGAL_VERSION //p' /usr/include/CGAL/version.h)" >>"$work/out"
  g++ -std=c++17 -O3 -DNDEBUG -o "$work/cgal" "$here/peers/cgal.cpp" -lgmp -lmpfr
  "$work/cgal" "$work" 1e4 8 >>"$work/out"
  "$work/cgal" "$work" 1e5 4 >>"$work/out"
  "$work/cgal" "$work" 1e6 2 >>"$work/out"
else
  say "CGAL skipped: needs g++ and libcgal-dev"
fi

# Not the python3 of the path, which need not be Debian's.
if /usr/bin/python3 -c 'import vtkmodules' 2>/dev/null; then
  say "VTK"
  vtk() { /usr/bin/python3 "$here/peers/vtk.py" "$@"; }
  echo "version VTK $(vtk version)" >>"$work/out"
  (vtk "$work" 1e4 16 && vtk "$work" 1e5 16 && vtk "$work" 1e6 16) >>"$work/out"
else
  say "VTK skipped: needs python3-vtk9"
fi

if command -v node >/dev/null && command -v npm >/dev/null; then
  say "manifold-3d"
  cp "$here"/peers/package.json "$here"/peers/manifold.mjs "$work"
  if (cd "$work" && npm install --silent >/dev/null 2>&1); then
    echo "version manifold $(sed -n 's/.*"version": "\(.*\)".*/\1/p' "$work/node_modules/manifold-3d/package.json")" >>"$work/out"
    (cd "$work" && node manifold.mjs "$work" 1e4 8 && node manifold.mjs "$work" 1e5 4 && node manifold.mjs "$work" 1e6 2) >>"$work/out"
  else
    say "manifold-3d skipped: npm cannot install it"
  fi
else
  say "manifold-3d skipped: needs node and npm"
fi

go run ./testdata/bench/table <"$work/out"
