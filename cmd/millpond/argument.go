package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"millpond/hydro/design"
)

// misnamed returns an error when path is plainly no mesh file, before a flag
// that goes with a mesh is missed: a folder, or a craft file without its ending.
func misnamed(path string) error {
	within := filepath.Join(path, starterCraft)
	switch info, err := os.Stat(path); {
	case err == nil && info.IsDir() && exists(within):
		return fmt.Errorf("%s: is a folder; name the craft file in it: %s", path, within)
	case err == nil && info.IsDir():
		return fmt.Errorf("%s: is a folder; name a craft file or a mesh in it", path)
	case err != nil && exists(path+".toml"):
		return fmt.Errorf("%s: no such file; did you mean %s?", path, path+".toml")
	case os.IsNotExist(err):
		return fmt.Errorf("%s: no such file; check the name and the folder", path)
	}
	return nil
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// needsCraftFile says that a verb cannot do with a mesh alone.
func needsCraftFile(c *cobra.Command, path string) error {
	return fmt.Errorf("%s: %s takes a craft file (.toml), and a mesh alone says too little; \"millpond new DIR\" writes one to change into your own", path, c.Name())
}

// flagError explains a flag that was not understood, and what may be meant.
func flagError(c *cobra.Command, err error) error {
	hint := ""
	if _, word, ok := strings.Cut(err.Error(), "unknown flag: --"); ok {
		var known []string
		c.Flags().VisitAll(func(f *pflag.Flag) { known = append(known, "--"+f.Name) })
		if slices.Contains(quickFlags, word) {
			hint = fmt.Sprintf("; it goes with a mesh, and %s takes a craft file: write it there", c.Name())
		} else if offer := design.Offer("--"+word, known); strings.HasPrefix(offer, "did you mean") {
			hint = "; " + strings.ReplaceAll(offer, `"`, "")
		}
	} else if _, word, ok := strings.Cut(err.Error(), " in -"); ok && c.Flags().Lookup(word) != nil {
		hint = fmt.Sprintf("; a flag of more than one letter takes two dashes: --%s", word)
	}
	return fmt.Errorf("%w%s\nsee: %s --help", err, hint, c.CommandPath())
}
