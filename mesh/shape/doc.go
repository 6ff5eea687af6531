// Package shape makes closed bodies whose integrals are known, for tests, for
// benchmarks and for the demo craft.
//
// Every body is a [mesh.Mesh] with shared vertices, closed, its triangles
// anticlockwise seen from outside, and no triangle of zero area. Lengths are
// meters unless the caller thinks otherwise: nothing here depends on the unit.
// Axes are the craft's: x forward, y to port, z up.
//
// Where a body lies, so that tests can write heights from the keel:
//
//   - bodies that stand on something ([Box], [Extruded], [Wedge], [VBottom],
//     [Wigley], [Cylinder], [Cone], [ConeDown], [Paraboloid]) have their lowest
//     point at z = 0 and are centered on x = 0 and y = 0;
//   - bodies with a center ([Sphere], [Icosphere], [Ellipsoid], [Torus],
//     [Star]) have it at the origin.
//
// Facets are inscribed: their vertices lie on the curved surface, so a faceted
// body is a little smaller than the round one. For every body of revolution
// with n facets about the z axis each horizontal slice is a regular n-gon, and
// all volumes, and all areas of horizontal slices, are [PolygonFactor](n)
// times those of the outline turned about the axis. Each body's comment says
// what is exact for its facets.
//
// Arguments that make no body (a negative length, two facets) are the caller's
// mistake and panic.
package shape
