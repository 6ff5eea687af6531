package design

import "slices"

// Results is the table of every result there is, in the order in which they
// are listed to people. Each file of rows adds its own.
var Results []Result

// The table is put together at start since getters refer to it.
func init() {
	Results = slices.Concat(
		restRows,
		rightingRows,
		loadRows,
		sizeRows,
		floodRows,
		auxiliaryRows,
	)
}
