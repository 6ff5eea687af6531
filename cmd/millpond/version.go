package main

import (
	"fmt"
	"io"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

func newVersion(t terminal) *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:     "version",
		Short:   "Which build this is",
		Example: "  millpond version",
		Args:    cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			v := version()
			return t.show(reply{
				text: func(w io.Writer) {
					fmt.Fprintf(w, "millpond %s, %s, %s/%s\n", v, runtime.Version(), runtime.GOOS, runtime.GOARCH)
				},
				json: object{{"version", v}, {"go", runtime.Version()}, {"os", runtime.GOOS}, {"arch", runtime.GOARCH}},
			}, asJSON)
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	return c
}

// version returns the module's version as built: a release's tag, or the
// commit, with a mark when the tree had changes.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	rev, dirty := "", ""
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			rev = s.Value[:min(12, len(s.Value))]
		case "vcs.modified":
			if s.Value == "true" {
				dirty = "+changes"
			}
		}
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	if rev == "" {
		return "development build"
	}
	return rev + dirty
}
