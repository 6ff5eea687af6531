package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro"
	"millpond/hydro/craft"
	"millpond/hydro/craftfile"
	"millpond/hydro/design"
	"millpond/hydro/unit"
)

func newBallast(t terminal) *cobra.Command {
	var asJSON bool
	var load loadingFlag
	var flags ballastFlags
	c := &cobra.Command{
		Use:   "ballast CRAFT.toml",
		Short: "Where to put weight, and how much, for a wanted trim or angle of attack",
		Long: `Finds the weight that makes the craft rest at the trim or the angle of attack
asked for, sinking and heeling as it then does:

  --at x,y,z            how much at this place
  --mass 100g           where along the flotation, on its own line
  --mass 100g --at ...  where along x, y and z as given
  --within float        how much at the better end of a part; or of a stretch of
                        it, as float/-200mm..300mm along the craft's x
  --move battery        where along x an item of the craft goes instead

With none of these it offers ballast at either end of the flotation and the
heaviest items moved. Exits 1 when the angle is out of reach.`,
		Example: `  millpond ballast craft.toml --trim 3deg
  millpond ballast craft.toml --angle-of-attack 4deg --move battery --within -110mm..60mm
  millpond ballast craft.toml --trim 1deg --mass 80g`,
		Args: oneCraft,
		RunE: func(c *cobra.Command, args []string) error {
			if !isCraftFile(args[0]) {
				if err := misnamed(args[0]); err != nil {
					return err
				}
				return needsCraftFile(c, args[0])
			}
			// Not through source: --mass here is the ballast's.
			f, err := craftfile.Read(args[0])
			if err != nil {
				return err
			}
			trial, err := design.New(f.Craft)
			if err != nil {
				return fmt.Errorf("%s: %w", args[0], err)
			}
			trials, err := load.trials(trial)
			if err != nil {
				return err
			}
			if len(trials) > 1 {
				return fmt.Errorf("ballast is for one loading: name one with --loading")
			}
			trial = trials[0]
			r := ballastReport{trial: trial}
			if r.aim, err = flags.aim(trial.Craft); err != nil {
				return err
			}
			if r.now, err = r.aim.Value(trial); err != nil {
				return err
			}
			if r.ways, err = flags.answers(r.aim, trial); err != nil {
				return err
			}
			return t.show(reply{
				warnings: append(f.Warnings, r.doubts()...),
				no:       !r.reached() || !stands(r.best().trial), text: r.text, json: r.json(),
			}, asJSON)
		},
	}
	flags.flags(c)
	load.flags(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object, SI units, full precision")
	return c
}

// ballastFlags say what is wanted and what may be done for it, as written.
type ballastFlags struct {
	trim, attack             string
	mass, at, within, moving string
}

func (b *ballastFlags) flags(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&b.trim, "trim", "", "the `angle` of trim wanted, nose up positive, as 2deg")
	f.StringVar(&b.attack, "angle-of-attack", "", "the `angle` of attack wanted, of the line marked chord = true")
	f.StringVar(&b.mass, "mass", "", "the `mass` of the ballast, as 100g")
	f.StringVar(&b.at, "at", "", "the place of the ballast as `x,y,z`, craft axes")
	f.StringVar(&b.within, "within", "", "a `PART`, or a stretch along x as -100mm..60mm or PART/-100mm..60mm")
	f.StringVar(&b.moving, "move", "", "the `ITEM` to move along x instead of adding ballast")
}

// aim reads the angle wanted.
func (b *ballastFlags) aim(c *craft.Craft) (design.Aim, error) {
	key, text, flag := "trim", b.trim, "--trim"
	switch {
	case b.trim != "" && b.attack != "":
		return design.Aim{}, errors.New("--trim and --angle-of-attack are one wish too many: the craft has one attitude; leave one out")
	case b.trim == "" && b.attack == "":
		return design.Aim{}, errors.New("say what is wanted: --trim 2deg or --angle-of-attack 4deg")
	case b.attack != "":
		key, text, flag = "angle of attack", b.attack, "--angle-of-attack"
		if _, ok := c.Chord(); !ok {
			return design.Aim{}, errors.New("--angle-of-attack: the craft has no wing chord: mark a [[line]] with chord = true, or ask for a --trim")
		}
	}
	want, err := unit.Parse(unit.Angle, text)
	if err != nil {
		return design.Aim{}, fmt.Errorf("%s: %w", flag, err)
	}
	asked, err := design.Find(c, key)
	return design.Aim{Asked: asked, Want: want}, err
}

// ballastWay is one way to get there, and how it comes out.
type ballastWay struct {
	item   string      // moved; empty for ballast added
	mass   float64     // added, kg
	at     r3.Vec      // of the ballast or the item, then
	from   r3.Vec      // of the item, now
	answer *hydro.Rest // nil when out of reach
	trial  *design.Trial
	why    error // of that
}

// answers works out what the flags ask for. An angle out of reach is a way
// without an answer.
func (b *ballastFlags) answers(aim design.Aim, t *design.Trial) ([]ballastWay, error) {
	line, err := b.line(t)
	if err != nil {
		return nil, err
	}
	at := r3.Vec{X: t.Body.CG.X, Y: line.at.Y, Z: line.at.Z}
	if b.at != "" {
		if at, err = unit.ParseVector(b.at, ""); err != nil {
			return nil, fmt.Errorf("--at: %w", err)
		}
	}
	mass := 0.0
	if b.mass != "" {
		if mass, err = unit.Parse(unit.Mass, b.mass); err != nil {
			return nil, fmt.Errorf("--mass: %w", err)
		}
		if mass <= 0 {
			return nil, fmt.Errorf("--mass must be over zero: %q", b.mass)
		}
	}
	switch {
	case b.moving != "" && (b.mass != "" || b.at != ""):
		return nil, errors.New("--move keeps the item's mass, height and side: leave --mass and --at out; --within bounds where it may go")
	case b.moving != "":
		i, err := b.item(t.Craft)
		if err != nil {
			return nil, err
		}
		return b.moved(aim, t, []int{i}, line)
	case b.mass != "":
		return one(added(aim, t, mass, at, line))
	case b.at != "" && b.within != "":
		return nil, errors.New("--at and --within are two places: leave one out")
	case b.at != "":
		return one(amount(aim, t, at))
	}
	// The better of the two ends, or both of them where nothing was said.
	var ways []ballastWay
	for _, x := range []float64{line.hi, line.lo} {
		w, err := amount(aim, t, r3.Vec{X: x, Y: line.at.Y, Z: line.at.Z})
		if err != nil {
			return nil, err
		}
		ways = append(ways, w)
	}
	slices.SortStableFunc(ways, func(a, b ballastWay) int {
		switch {
		case (a.why == nil) != (b.why == nil):
			if a.why == nil {
				return -1
			}
			return 1
		case a.mass < b.mass:
			return -1
		case a.mass > b.mass:
			return 1
		}
		return 0
	})
	if b.within != "" {
		return ways[:1], nil
	}
	moved, err := b.moved(aim, t, heaviest(t.Craft, 3), line)
	return append(ways, moved...), err
}

func one(w ballastWay, err error) ([]ballastWay, error) { return []ballastWay{w}, err }

// amount is how much at a place.
func amount(aim design.Aim, t *design.Trial, at r3.Vec) (ballastWay, error) {
	w := ballastWay{at: at}
	found, err := aim.AddMass(t, at)
	w.mass = found.Value
	return w, w.settle(found, err)
}

// added is where a mass goes.
func added(aim design.Aim, t *design.Trial, mass float64, at r3.Vec, line stretch) (ballastWay, error) {
	w := ballastWay{mass: mass, at: at}
	found, err := aim.AddAt(t, mass, at, line.lo, line.hi)
	if err == nil {
		w.at.X = found.Value
	}
	return w, w.settle(found, err)
}

// moved is where items go.
func (b *ballastFlags) moved(aim design.Aim, t *design.Trial, items []int, line stretch) ([]ballastWay, error) {
	lo, hi := line.lo, line.hi
	if b.within == "" { // an item may go wherever there is something to fix it to
		lo, hi = extent(t.Craft)
	}
	var out []ballastWay
	for _, i := range items {
		it := t.Craft.Items[i]
		w := ballastWay{item: it.Name, mass: it.Mass, at: it.At, from: it.At}
		found, err := aim.Move(t, i, lo, hi)
		if err == nil {
			w.at.X = found.Value
		}
		if err := w.settle(found, err); err != nil {
			return nil, err
		}
		out = append(out, w)
	}
	return out, nil
}

// settle takes over an answer, or the reason that there is none.
func (w *ballastWay) settle(found design.Balanced, err error) error {
	if errors.As(err, new(*design.OutOfReachError)) {
		w.why = err
		return nil
	}
	if err != nil {
		return err
	}
	w.trial = found.Trial
	w.answer, err = found.Trial.Rest()
	return err
}

// item returns the index of the item to move.
func (b *ballastFlags) item(c *craft.Craft) (int, error) {
	var names []string
	for i, it := range c.Items {
		if strings.EqualFold(it.Name, b.moving) {
			if it.Mass == 0 {
				return 0, fmt.Errorf("--move: %s weighs nothing here, so that moving it changes nothing", it.Name)
			}
			return i, nil
		}
		names = append(names, it.Name)
	}
	return 0, fmt.Errorf("--move: no item is called %q; %s", b.moving, design.Offer(b.moving, names))
}

// heaviest returns the indices of the n heaviest items.
func heaviest(c *craft.Craft, n int) []int {
	var all []int
	for i, it := range c.Items {
		if it.Mass > 0 && c.Stated == nil {
			all = append(all, i)
		}
	}
	slices.SortStableFunc(all, func(a, b int) int {
		switch ma, mb := c.Items[a].Mass, c.Items[b].Mass; {
		case ma > mb:
			return -1
		case ma < mb:
			return 1
		}
		return 0
	})
	return all[:min(n, len(all))]
}
