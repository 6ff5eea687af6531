#!/usr/bin/env bash
# Times the whole command on one binary STL file of a million triangles, and the
# searches that run.sh leaves out:
#
#	testdata/bench/command.sh
#
# Needs /usr/bin/time (Debian: time) for seconds and peak memory.
set -euo pipefail
cd "$(dirname "$0")/../.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
go build -o "$work/millpond" ./cmd/millpond
go run ./cmd/demomeshes -o "$work" -n 13 | grep '/float.stl' | sed 's|.*/||'
for _ in 1 2 3; do
  /usr/bin/time -f 'millpond rest: %e s elapsed, %U s of processor time, %M kB at most' \
    "$work/millpond" rest "$work/float.stl" --unit mm --mass 1.5kg --cg 20mm,0mm,40mm >/dev/null
done
echo
echo "all attitudes and loads, on 200,000 triangles"
go test ./hydro -run '^$' -bench 'Attitudes|Throttle' -benchtime 3x | grep '^Bench'
