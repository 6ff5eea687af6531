package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/spf13/cobra"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"millpond/mesh/meshfile"
	"millpond/plots"
)

// writeWhole writes a file whole or not at all. One that exists is kept unless
// force is set.
func writeWhole(path string, force bool, data []byte) error {
	return writeTo(path, force, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// writeTo is writeWhole for what is written piece by piece.
func writeTo(path string, force bool, write func(io.Writer) error) error {
	err := meshfile.WriteWhole(path, force, write)
	if errors.Is(err, fs.ErrExist) {
		return keptError(path)
	}
	return err
}

// keptError says that a file is kept, or that a folder is in the way.
func keptError(path string) error {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return fmt.Errorf("%s is a folder: name a file in it", path)
	}
	return fmt.Errorf("%s exists and is kept: choose another name or add --force", path)
}

// plotFlags are the flags of verbs that draw.
type plotFlags struct {
	path  string
	force bool
}

func (p *plotFlags) flags(c *cobra.Command, what string) {
	p.pathFlag(c, what)
	c.Flags().BoolVar(&p.force, "force", false, "write over files that exist")
}

// pathFlag adds the flag of the file only, to verbs with a --force of their
// own.
func (p *plotFlags) pathFlag(c *cobra.Command, what string) {
	c.Flags().StringVar(&p.path, "plot", "", "also draw "+what+" to `FILE` (.png, .svg or .pdf)")
	if err := c.MarkFlagFilename("plot", "png", "svg", "pdf"); err != nil {
		panic(err) // a flag of our own
	}
}

// check returns an error for a file name that no figure can be written to, and
// for a file that is there and is to be kept, before anything is computed.
func (p *plotFlags) check() error {
	if p.path == "" {
		return nil
	}
	if _, err := plots.FormatOf(p.path); err != nil {
		return err
	}
	if _, err := os.Lstat(p.path); err == nil && !p.force {
		return keptError(p.path)
	}
	return nil
}

// write draws a figure of the given size to the file that the flag names.
func (p *plotFlags) write(width, height vg.Length, fig func(draw.Canvas)) error {
	format, err := plots.FormatOf(p.path)
	if err != nil {
		return err
	}
	return writeTo(p.path, p.force, func(w io.Writer) error {
		return plots.Write(w, format, width, height, fig)
	})
}
