// Cuts float-N.off by the planes of planes.txt with CGAL and prints one line:
// size, milliseconds to prepare, least milliseconds of a cut, and how far the
// volumes are from those in volumes-N.txt at most, relative.
//
//	cgal DIR SIZE CUTS
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/clip.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/Surface_mesh/IO/OFF.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>

using K = CGAL::Exact_predicates_inexact_constructions_kernel;
using Mesh = CGAL::Surface_mesh<K::Point_3>;
namespace PMP = CGAL::Polygon_mesh_processing;

static double now() {
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

int main(int argc, char **argv) {
  if (argc != 4) return 2;
  std::string dir = argv[1], size = argv[2];
  int cuts = std::atoi(argv[3]);
  double start = now();
  Mesh mesh;
  if (!CGAL::IO::read_OFF(dir + "/float-" + size + ".off", mesh)) return 1;
  double prepared = now() - start;
  std::ifstream planes(dir + "/planes.txt"), volumes(dir + "/volumes-" + size + ".txt");
  double least = INFINITY, off = 0, a, b, c, d, want;
  for (int i = 0; i < cuts && planes >> a >> b >> c >> d && volumes >> want; i++) {
    Mesh copy = mesh; // clip works in place; the copy is not counted
    start = now();
    PMP::clip(copy, K::Plane_3(a, b, c, d), PMP::parameters::clip_volume(true));
    double volume = PMP::volume(copy);
    volatile double x = PMP::centroid(copy).x();
    (void)x;
    least = std::min(least, now() - start);
    off = std::max(off, std::fabs(volume / want - 1));
  }
  std::printf("peer CGAL %s %.3g %.6g %.2g\n", size.c_str(), prepared, least, off);
}
