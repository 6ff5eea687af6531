package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"millpond/hydro/craftfile"
	"millpond/hydro/design"
)

// source is where a verb gets its craft from: a craft file, or one mesh and
// the flags of the quick form.
type source struct {
	quick craftfile.QuickOptions
}

// quickFlags are the flags that only make sense with a mesh.
var quickFlags = []string{"unit", "mass", "cg", "water", "forward", "up", "weld", "close-holes", "close-curved-holes"}

// flags adds the flags of the quick form to a verb.
func (s *source) flags(c *cobra.Command) {
	s.meshFlags(c)
	f := c.Flags()
	f.StringVar(&s.quick.Mass, "mass", "", "all-up `mass`, as 1.2kg")
	f.StringVar(&s.quick.CG, "cg", "", "center of gravity as `x,y,z`, as 10mm,0mm,35mm")
	f.StringVar(&s.quick.Water, "water", "", "`water`: fresh, salt or a density as 1003kg/m3 (default fresh)")
	complete(c, "water", "fresh", "salt")
}

// meshFlags adds the flags that say how a mesh was drawn.
func (s *source) meshFlags(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&s.quick.Unit, "unit", "", "`unit` of the mesh's numbers: mm, cm, m, in, ft (3MF states its own)")
	f.StringVar(&s.quick.Forward, "forward", "", "the mesh's `axis` that points forward: +x, -x, +y ... (default +x)")
	f.StringVar(&s.quick.Up, "up", "", "the mesh's `axis` that points up (default +z)")
	f.StringVar(&s.quick.Weld, "weld", "", "merge vertices on open edges within this `distance` of each other, as 0.01mm")
	f.StringVar(&s.quick.CloseHoles, "close-holes", "", "close flat holes up to this `share` of the surface (default 1%; 0% for none)")
	f.BoolVar(&s.quick.CurvedHoles, "close-curved-holes", false, "close holes whose edge is not flat too")
	complete(c, "unit", "mm", "cm", "m", "in", "ft")
	complete(c, "forward", axisNames...)
	complete(c, "up", axisNames...)
}

// complete offers the values of a flag to shell completion.
func complete(c *cobra.Command, flag string, values ...string) {
	if err := c.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp)); err != nil {
		panic(err) // a flag of our own that does not exist
	}
}

var axisNames = []string{"+x", "-x", "+y", "-y", "+z", "-z"}

// meshes reads the craft that the argument names, for a look at its meshes
// alone: a mesh then needs no mass and no CG.
func (s *source) meshes(c *cobra.Command, path string) (*craftfile.File, error) {
	if isCraftFile(path) {
		return s.read(c, path)
	}
	if err := misnamed(path); err != nil {
		return nil, err
	}
	s.quick.Mesh = path
	return craftfile.QuickMesh(s.quick)
}

// isCraftFile reports whether a path is that of a craft file; all else is
// taken for a mesh, whose format shows in its content.
func isCraftFile(path string) bool { return strings.HasSuffix(strings.ToLower(path), ".toml") }

// read reads the craft that the argument names.
func (s *source) read(c *cobra.Command, path string) (*craftfile.File, error) {
	if isCraftFile(path) {
		for _, name := range quickFlags {
			if f := c.Flags().Lookup(name); f != nil && f.Changed {
				return nil, fmt.Errorf("--%s goes with a mesh, not with a craft file: write it in %s", name, path)
			}
		}
		return craftfile.Read(path)
	}
	if err := misnamed(path); err != nil {
		return nil, err
	}
	if c.Flags().Lookup("mass") == nil {
		return nil, needsCraftFile(c, path)
	}
	s.quick.Mesh = path
	return craftfile.Quick(s.quick)
}

// trial reads the craft and sets up its trial.
func (s *source) trial(c *cobra.Command, path string) (*craftfile.File, *design.Trial, error) {
	f, err := s.read(c, path)
	if err != nil {
		return nil, nil, err
	}
	t, err := design.New(f.Craft)
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", path, err)
	}
	return f, t, nil
}

// oneCraft accepts exactly one argument and says what it is when it is absent.
func oneCraft(c *cobra.Command, args []string) error {
	switch len(args) {
	case 1:
		return nil
	case 0:
		return fmt.Errorf("%s needs a craft file or a mesh\nsee: %s --help", c.CommandPath(), c.CommandPath())
	}
	return fmt.Errorf("%s takes one craft, not %d: %s", c.CommandPath(), len(args), strings.Join(args, " "))
}
