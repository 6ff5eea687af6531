"""Cuts float-N.off by the planes of planes.txt with VTK, points in double
precision, and prints one line: size, milliseconds to prepare, least milliseconds
of a cut, and how far the volumes are from those in volumes-N.txt at most,
relative.

    vtk.py DIR SIZE CUTS
    vtk.py version
"""

import array
import sys
import time

from vtkmodules.vtkCommonCore import vtkDoubleArray, vtkIdTypeArray, vtkPoints, vtkVersion
from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPlane, vtkPlaneCollection, vtkPolyData
from vtkmodules.vtkFiltersCore import vtkMassProperties
from vtkmodules.vtkFiltersGeneral import vtkClipClosedSurface

if sys.argv[1:] == ["version"]:
    print(vtkVersion.GetVTKVersion())
    sys.exit()
folder, size, cuts = sys.argv[1], sys.argv[2], int(sys.argv[3])


def numbers(name):
    with open(f"{folder}/{name}") as f:
        return f.read().split()


off = numbers(f"float-{size}.off")  # OFF nv nt 0, vertices, then "3 a b c" each
nv, nt = int(off[1]), int(off[2])
at = array.array("d", map(float, off[4 : 4 + 3 * nv]))
triangles = array.array("q", map(int, off[4 + 3 * nv :]))
del off


def copied(kind, components, values):
    """Returns a VTK array of its own of the values."""
    view = kind()
    view.SetNumberOfComponents(components)
    view.SetVoidArray(values, len(values), 1)
    out = kind()
    out.DeepCopy(view)
    return out


start = time.perf_counter()
points = vtkPoints()
points.SetDataTypeToDouble()
points.SetData(copied(vtkDoubleArray, 3, at))
cells = vtkCellArray()
cells.ImportLegacyFormat(copied(vtkIdTypeArray, 1, triangles))
body = vtkPolyData()
body.SetPoints(points)
body.SetPolys(cells)
body.BuildCells()
prepared = time.perf_counter() - start

planes = list(map(float, numbers("planes.txt")))
volumes = list(map(float, numbers(f"volumes-{size}.txt")))
least, worst = float("inf"), 0.0
for i in range(min(cuts, len(volumes))):
    a, b, c, d = planes[4 * i : 4 * i + 4]
    start = time.perf_counter()
    plane = vtkPlane()
    plane.SetNormal(-a, -b, -c)  # what the vector points to stays
    plane.SetOrigin(-a * d, -b * d, -c * d)
    collection = vtkPlaneCollection()
    collection.AddItem(plane)
    clip = vtkClipClosedSurface()
    clip.SetInputData(body)
    clip.SetClippingPlanes(collection)
    clip.SetTolerance(0)  # else it merges points, and the volume is 1e-6 off
    mass = vtkMassProperties()
    mass.SetInputConnection(clip.GetOutputPort())
    volume = mass.GetVolume()
    least = min(least, time.perf_counter() - start)
    worst = max(worst, abs(volume / volumes[i] - 1))
print(f"peer VTK {size} {prepared * 1e3:.3g} {least * 1e3:.6g} {worst:.2g}")
