#!/bin/sh
# Makes the reference meshes and results in this folder anew, then checks them.
# Needs python3, node 20 or later with npm, and from Debian 12: g++ libcgal-dev
# libgmp-dev libmpfr-dev openscad (fetched by apt-get when missing). Takes a few
# minutes, most of them to compile.
#
#   ./make.sh            everything
#   ./make.sh NAME...    only the named bodies
#
# Large meshes and the programs go to $REFERENCE_SCRATCH, or to a passing folder.
# The stored exports of openscad are kept: remove one to draw it anew.
set -eu
here=$(CDPATH= cd -- "$(dirname -- "$0")" && pwd)
scratch=${REFERENCE_SCRATCH:-}
if [ -z "$scratch" ]; then
  scratch=$(mktemp -d)
  trap 'rm -rf "$scratch"' EXIT
fi
mkdir -p "$scratch"

need() { dpkg -s "$@" >/dev/null 2>&1 || apt-get install -y "$@"; }
need g++ libcgal-dev libgmp-dev libmpfr-dev openscad

# The modules are copied beside node_modules, where their import finds it.
npm install --silent --no-audit --no-fund --prefix "$scratch" manifold-3d@3.5.4
if [ ! "$scratch/reference" -nt "$here/reference.cpp" ]; then
  g++ -std=c++17 -O2 -o "$scratch/reference" "$here/reference.cpp" -lgmpxx -lmpfr -lgmp
fi
cp "$here"/*.mjs "$scratch"
node --max-old-space-size=8000 "$scratch/make.mjs" "$here" "$scratch" "$scratch/reference" "$@"
python3 "$here/check.py"
