package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"millpond/testdata"
)

func newNew(t terminal) *cobra.Command {
	var force bool
	c := &cobra.Command{
		Use:   "new DIR",
		Short: "Write a commented starter craft with its meshes, to change into your own",
		Long: `Makes the folder DIR and puts a commented craft file and the meshes it names into
it. It runs as it is. Files that exist are kept unless --force is given.`,
		Example: `  millpond new heron
  millpond rest heron/craft.toml`,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) != 1 {
				return fmt.Errorf("%s needs the name of one folder to make, such as: %s heron", c.CommandPath(), c.CommandPath())
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			written, err := writeStarter(args[0], force)
			if err != nil {
				return err
			}
			return t.show(reply{text: func(w io.Writer) {
				for _, path := range written {
					fmt.Fprintln(w, path)
				}
				fmt.Fprintf(w, "\nnext: millpond rest %s\n", filepath.Join(args[0], starterCraft))
			}}, false)
		},
	}
	c.Flags().BoolVar(&force, "force", false, "write over files that exist")
	return c
}

// starterCraft is what the starter's craft file is called.
const starterCraft = "craft.toml"

// writeStarter copies the starter into dir, all of it or none, and returns the
// paths written.
func writeStarter(dir string, force bool) ([]string, error) {
	files := testdata.Starter()
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return nil, fmt.Errorf("%s is a file, and a folder is wanted: choose another name", dir)
	}
	if !force {
		for _, f := range files {
			path := filepath.Join(dir, f.Name)
			if _, err := os.Lstat(path); err == nil {
				return nil, fmt.Errorf("%s exists: nothing was written; choose another folder or add --force", path)
			} else if !errors.Is(err, fs.ErrNotExist) {
				return nil, err
			}
		}
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("%s: the folder cannot be made: %w; choose another", dir, errors.Unwrap(err))
	}
	var written []string
	for _, f := range files {
		path := filepath.Join(dir, f.Name)
		if err := writeWhole(path, true, f.Data); err != nil {
			for _, p := range written {
				os.Remove(p)
			}
			return nil, err
		}
		written = append(written, path)
	}
	return written, nil
}
