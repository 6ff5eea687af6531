package main

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"millpond/hydro/craftfile"
	"millpond/mesh/mend"
	"millpond/mesh/meshfile"
)

// repaired is the mended mesh as a file, where it is asked for.
type repaired struct {
	path  string
	force bool

	triangles int // written
}

func (r *repaired) flags(c *cobra.Command) {
	c.Flags().StringVar(&r.path, "repaired", "", "also write the mended mesh to `FILE` (.stl), in the unit it was drawn in")
	c.Flags().BoolVar(&r.force, "force", false, "write over files that exist")
	if err := c.MarkFlagFilename("repaired", "stl"); err != nil {
		panic(err) // a flag of our own
	}
}

// check returns an error for what cannot be written, before anything is read.
func (r *repaired) check(input string) error {
	if r.path == "" {
		return nil
	}
	if isCraftFile(input) {
		return errors.New("--repaired goes with one mesh, not with a craft file: name the mesh, with --weld and the like as its part has them")
	}
	if !strings.EqualFold(filepath.Ext(r.path), ".stl") {
		return fmt.Errorf("--repaired writes STL: name the file %s.stl", strings.TrimSuffix(r.path, filepath.Ext(r.path)))
	}
	in, err := os.Stat(input)
	if err != nil {
		return nil // the reader has better words
	}
	if out, err := os.Stat(r.path); err == nil && os.SameFile(in, out) {
		return fmt.Errorf("--repaired would write over %s itself: choose another name", input)
	}
	return nil
}

// sameBody is how far the volume of what is written may be from that of what
// was mended. STL rounds coordinates to 7 digits.
const sameBody = 1e-6

// write writes the mended mesh, if it is the same body when it is read again.
func (r *repaired) write(m *craftfile.Mesh) error {
	n, triangle := (&mend.Result{Solid: m.Solid, Report: *m.Report}).Repaired()
	var data bytes.Buffer
	if err := meshfile.WriteSTL(&data, filepath.Base(r.path), n, triangle); err != nil {
		return err
	}
	again, err := meshfile.ReadFrom(bytes.NewReader(data.Bytes()), int64(data.Len()), r.path)
	if err != nil {
		return err
	}
	closed, err := mend.Close(again.Mesh, mend.Options{Unit: m.Unit, MaxHole: -1})
	if err != nil {
		return fmt.Errorf("the mended mesh falls apart when its coordinates are rounded as STL does, so it was not written: %w", err)
	}
	off := max(math.Abs(closed.Volume-m.Report.Volume), math.Abs(closed.Material-m.Report.Material))
	if off > sameBody*m.Report.Volume {
		return fmt.Errorf("%s was not written: read again it would be another body, its volume off by %.2g %%; if it lies far from the origin, move it there in the CAD program, and if a cavity touches the outside, close the wall", r.path, 100*off/m.Report.Volume)
	}
	r.triangles = n
	return writeWhole(r.path, r.force, data.Bytes())
}
