package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"millpond/hydro"
)

// The exit statuses. They are part of what users script against.
const (
	exitAnswered = 0 // the answer is yes, or there was no question
	exitNo       = 1 // the answer is no: it sinks, a requirement is missed
	exitWrong    = 2 // the input or the call is wrong
)

// errNo ends a verb whose answer is no and has been printed.
var errNo = errors.New("the answer is no")

// terminal is what a verb may read from and write to.
type terminal struct {
	in        io.Reader
	out, errs io.Writer
}

// run runs the command line args and returns its exit status.
func run(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	root := newRoot(terminal{in, out, errs})
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errs)
	err := root.ExecuteContext(ctx)
	switch {
	case err == nil:
		return exitAnswered
	case errors.Is(err, errNo):
		return exitNo
	}
	fmt.Fprintf(errs, "millpond: %s\n", strings.TrimSuffix(err.Error(), "\n"))
	if len(args) > 0 && strings.HasPrefix(err.Error(), "unknown command") && exists(args[0]) {
		fmt.Fprintf(errs, "a verb comes first, such as: millpond rest %s\n", args[0])
	}
	if isNo(err) {
		return exitNo
	}
	return exitWrong
}

// isNo reports whether an error is an answer, or that there was no time for one,
// rather than a mistake.
func isNo(err error) bool {
	return errors.As(err, new(*hydro.SinksError)) ||
		errors.As(err, new(*hydro.AxisError)) ||
		errors.Is(err, hydro.ErrNeutral) ||
		errors.As(err, new(*stoppedError)) ||
		errors.As(err, new(*haltedError))
}

// verbs are the command's verbs, one a line.
var verbs = []func(terminal) *cobra.Command{
	newNew,
	newInspect,
	newWeigh,
	newRest,
	newFlood,
	newBallast,
	newTable,
	newTub,
	newCheck,
	newAttitudes,
	newRight,
	newGrow,
	newReview,
	newSure,
	newSweep,
	newSize,
	newThrottle,
	newWind,
	newVersion,
}

// newRoot returns the command with all its verbs.
func newRoot(t terminal) *cobra.Command {
	root := &cobra.Command{
		Use:   "millpond",
		Short: "How a small seaplane sits on the water, before the first cut",
		Long: `millpond reads the meshes of a small seaplane, finds how it rests on the water,
and says how deep, at what angle, how much is left and what stays dry.

CRAFT is a craft file (TOML, see "millpond new"), or for the verbs that need no
more than a shape, a mass and a CG, one mesh file with --unit, --mass and --cg.

Results go to standard output, warnings to standard error. Exit status: 0
answered, 1 the answer is no (it sinks, a requirement is missed), 2 the input or
the call is wrong.

` + cautions,
		Example: `  millpond new heron && millpond rest heron/craft.toml
  millpond rest hull.stl --unit mm --mass 1.2kg --cg 10mm,0mm,35mm`,
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	root.SetFlagErrorFunc(flagError)
	for _, verb := range verbs {
		root.AddCommand(verb(t))
	}
	return root
}
