package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// allowed says which folders of the project each may import. Imports go one
// way: cmd -> plots -> hydro -> mesh, and inside hydro: craftfile -> design ->
// craft -> hydro -> unit. A package below a listed one follows its rule unless
// it has a row of its own.
var allowed = map[string][]string{
	"mesh":            {},
	"mesh/polygon":    {},
	"mesh/meshfile":   {"mesh", "mesh/parts", "mesh/polygon"},
	"mesh/parts":      {},
	"mesh/overlap":    {"mesh", "mesh/parts"},
	"mesh/mend":       {"mesh", "mesh/overlap", "mesh/parts", "mesh/polygon"},
	"mesh/shape":      {"mesh"},
	"mesh/bench":      {"mesh", "mesh/shape"},
	"hydro":           {"mesh", "mesh/shape"},
	"hydro/unit":      {},
	"hydro/craft":     {"hydro", "hydro/unit", "mesh", "mesh/mend", "mesh/overlap"},
	"hydro/design":    {"hydro/craft", "hydro", "hydro/unit", "mesh"},
	"hydro/craftfile": {"hydro/design", "hydro/craft", "hydro", "hydro/unit", "mesh", "mesh/meshfile", "mesh/mend", "mesh/overlap", "mesh/shape"},
	"plots":           {"hydro", "hydro/unit", "mesh"},
	"plots/page":      {"plots", "hydro", "hydro/unit", "mesh"},
	"cmd":             {"*"},
	"testdata":        {},
}

// rule returns the row that holds for a package.
func rule(pkg string) (string, []string, bool) {
	for name := pkg; ; {
		if to, ok := allowed[name]; ok {
			return name, to, true
		}
		i := strings.LastIndex(name, "/")
		if i < 0 {
			return "", nil, false
		}
		name = name[:i]
	}
}

func TestImportsGoOneWay(t *testing.T) {
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", "millpond/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	dec := json.NewDecoder(strings.NewReader(string(out)))
	seen := 0
	for {
		var p struct {
			ImportPath string
			Imports    []string
		}
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		seen++
		from := strings.TrimPrefix(p.ImportPath, "millpond/")
		name, to, ok := rule(from)
		if !ok {
			t.Errorf("%s has no row: say in this test what it may import", from)
			continue
		}
		for _, imp := range p.Imports {
			if (imp == "github.com/hschendel/stl" || strings.HasPrefix(imp, "github.com/hpinc/go3mf")) && from != "mesh/meshfile" {
				t.Errorf("%s imports %s: only mesh/meshfile may", from, imp)
			}
			in, ok := strings.CutPrefix(imp, "millpond/")
			// A package may use those below itself.
			if !ok || slices.Contains(to, "*") || slices.Contains(to, in) || strings.HasPrefix(in, name+"/") && name == from {
				continue
			}
			t.Errorf("%s imports %s, which goes against the one way", from, in)
		}
	}
	if seen < 10 {
		t.Fatalf("go list found %d packages", seen)
	}
}
