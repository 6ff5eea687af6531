// Package design is what is asked of a craft: named results, requirements, and
// what can be added before one is missed. It adds no physics.
//
// Every number a user can require, list, sweep, size by or plot is one row of
// one table, [Results]: a key, a label, a kind of unit, what it is of, and how
// to get it from a [Trial]. A name such as "clearance of propeller tip" is read
// by [Find] and means the same in a craft file, a flag, a column and an axis.
// Adding a result is adding a row.
package design
