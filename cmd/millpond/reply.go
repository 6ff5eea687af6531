package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"millpond/hydro/unit"
)

// reply is a verb's whole answer, ready before anything is printed, so that
// text and JSON say the same and exit alike.
type reply struct {
	warnings []string
	no       bool // the answer is no
	text     func(io.Writer)
	json     object
}

// show prints a reply: warnings to standard error, the rest to standard
// output. It returns errNo for a no.
func (t terminal) show(r reply, asJSON bool) error {
	for _, w := range r.warnings {
		fmt.Fprintf(t.errs, "warning: %s\n", w)
	}
	if asJSON {
		r.json.add("warnings", append([]string{}, r.warnings...))
		enc := json.NewEncoder(t.out)
		enc.SetIndent("", "  ")
		enc.SetEscapeHTML(false)
		if err := enc.Encode(r.json); err != nil {
			return err
		}
	} else {
		var b strings.Builder
		r.text(&b)
		if _, err := fmt.Fprintln(t.out, strings.TrimRight(b.String(), "\n")); err != nil {
			return err
		}
	}
	if r.no {
		return errNo
	}
	return nil
}

// object is a JSON object that keeps the order of its fields.
type object []field

type field struct {
	key   string
	value any
}

// add appends a field. A number that is not finite is left out: JSON has none.
func (o *object) add(key string, value any) {
	if f, ok := value.(float64); ok && (math.IsNaN(f) || math.IsInf(f, 0)) {
		return
	}
	*o = append(*o, field{key, value})
}

// number appends a number of the given kind under the key with the kind's
// suffix, in the kind's JSON unit.
func (o *object) number(key string, kind unit.Kind, v float64) {
	o.add(kind.Key(key), kind.ToEdge(v))
}

// vector appends a point in body axes, in meters.
func (o *object) vector(key string, v r3.Vec) { o.add(key, [3]float64{v.X, v.Y, v.Z}) }

// MarshalJSON writes the fields in order.
func (o object) MarshalJSON() ([]byte, error) {
	out := []byte{'{'}
	for i, f := range o {
		if i > 0 {
			out = append(out, ',')
		}
		key, err := json.Marshal(f.key)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(f.value)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.key, err)
		}
		out = append(append(append(out, key...), ':'), value...)
	}
	return append(out, '}'), nil
}

// jsonWords makes a key of words.
func jsonWords(title string) string { return strings.ReplaceAll(strings.ToLower(title), " ", "_") }
