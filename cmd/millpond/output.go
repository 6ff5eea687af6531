package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"

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
		return fmt.Errorf("%s exists and is kept: choose another name or add --force", path)
	}
	return err
}

// plotFlags are the flags of verbs that draw.
type plotFlags struct {
	path  string
	force bool
}

func (p *plotFlags) flags(c *cobra.Command, what string) {
	c.Flags().StringVar(&p.path, "plot", "", "also draw "+what+" to `FILE` (.png, .svg or .pdf)")
	c.Flags().BoolVar(&p.force, "force", false, "write over files that exist")
	if err := c.MarkFlagFilename("plot", "png", "svg", "pdf"); err != nil {
		panic(err) // a flag of our own
	}
}

// check returns an error for a file name that no figure can be written to,
// before anything is computed for it.
func (p *plotFlags) check() error {
	if p.path == "" {
		return nil
	}
	_, err := plots.FormatOf(p.path)
	return err
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
