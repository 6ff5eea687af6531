// Cut and union references with CGAL, in exact constructions.
//
// Reads jobs from standard input, writes one JSON object a line:
//   job NAME            begins a job
//   part FILE           an STL file; several parts are united
//   nef                 unite by Nef polyhedra only
//   plane NX NY NZ D    cut: what lies where n.p + d < 0
//   end                 runs the job
//
// Every coordinate of a clipped or united mesh is an exact rational number.
// Integrals are summed from those in 512-bit floating point and rounded to
// double once, so each printed number is right to its last digit for the
// float32 mesh and the double plane.
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/IO/STL.h>
#include <CGAL/Nef_polyhedron_3.h>
#include <CGAL/Polygon_mesh_processing/clip.h>
#include <CGAL/Polygon_mesh_processing/connected_components.h>
#include <CGAL/Polygon_mesh_processing/corefinement.h>
#include <CGAL/Polygon_mesh_processing/orient_polygon_soup.h>
#include <CGAL/Polygon_mesh_processing/orientation.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/repair_polygon_soup.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Polygon_mesh_processing/triangulate_faces.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/boost/graph/convert_nef_polyhedron_to_polygon_mesh.h>
#include <CGAL/boost/graph/generators.h>
#include <CGAL/version.h>
#include <gmpxx.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

namespace PMP = CGAL::Polygon_mesh_processing;
using K = CGAL::Exact_predicates_exact_constructions_kernel;
using Point = K::Point_3;
using Surface = CGAL::Surface_mesh<Point>;
using Nef = CGAL::Nef_polyhedron_3<K>;
using Q3 = std::array<mpq_class, 3>;
using F3 = std::array<mpf_class, 3>;

constexpr int bits = 512;

mpf_class real(double x = 0) { return mpf_class(x, bits); }
mpf_class real(const mpq_class& x) {
  mpf_class a(x.get_num(), bits), b(x.get_den(), bits);
  return mpf_class(a / b, bits);
}

// The exact number behind a lazy one, whichever rational type CGAL was built with.
template <class T> auto rational(const T& x, int) -> decltype(mpq_class(x.mpq())) { return mpq_class(x.mpq()); }
template <class T> auto rational(const T& x, long) -> decltype(mpq_class(x.backend().data())) {
  return mpq_class(x.backend().data());
}
mpq_class exact(const K::FT& x) { return rational(CGAL::exact(x), 0); }
Q3 exact(const Point& p) { return {exact(p.x()), exact(p.y()), exact(p.z())}; }

struct Soup {
  std::vector<Point> points;
  std::vector<std::array<std::size_t, 3>> tris;
};

Soup soup(const Surface& m) {
  Soup s;
  std::vector<std::size_t> at(m.num_vertices() + m.number_of_removed_vertices());
  for (auto v : m.vertices()) {
    at[v] = s.points.size();
    s.points.push_back(m.point(v));
  }
  for (auto f : m.faces()) {
    auto h = m.halfedge(f);
    s.tris.push_back({at[m.target(h)], at[m.target(m.next(h))], at[m.target(m.next(m.next(h)))]});
  }
  return s;
}

F3 diff(const F3& a, const F3& b) {
  F3 r;
  for (int k = 0; k < 3; k++) r[k] = mpf_class(a[k] - b[k], bits);
  return r;
}
F3 cross(const F3& a, const F3& b) {
  F3 r;
  for (int k = 0; k < 3; k++) {
    int i = (k + 1) % 3, j = (k + 2) % 3;
    r[k] = mpf_class(a[i] * b[j] - a[j] * b[i], bits);
  }
  return r;
}
mpf_class dot(const F3& a, const F3& b) { return mpf_class(a[0] * b[0] + a[1] * b[1] + a[2] * b[2], bits); }
mpf_class length(const F3& a) { return sqrt(dot(a, a)); }

// mpf arithmetic takes the precision of its target: start every one at 512.
struct Sum {
  mpf_class volume = real(), area = real(), wet = real();
  F3 moment{real(), real(), real()}, cutMoment{real(), real(), real()};
  mpf_class second[6] = {real(), real(), real(), real(), real(), real()};  // about the origin: xx yy zz xy xz yz

  void tetra(const F3& a, const F3& b, const F3& c) {
    mpf_class v = real();
    v = dot(a, cross(b, c)) / 6;
    volume += v;
    for (int k = 0; k < 3; k++) moment[k] += v * (a[k] + b[k] + c[k]) / 4;
  }
  void skin(const F3& a, const F3& b, const F3& c) { wet += length(cross(diff(b, a), diff(c, a))) / 2; }
  void cut(const F3& a, const F3& b, const F3& c) {
    mpf_class s = real();
    s = length(cross(diff(b, a), diff(c, a))) / 2;
    area += s;
    F3 g{real(), real(), real()};
    for (int k = 0; k < 3; k++) {
      g[k] = a[k] + b[k] + c[k];
      cutMoment[k] += s * g[k] / 3;
    }
    static const int I[6] = {0, 1, 2, 0, 0, 1}, J[6] = {0, 1, 2, 1, 2, 2};
    for (int q = 0; q < 6; q++) {
      int i = I[q], j = J[q];
      second[q] += s * (g[i] * g[j] + a[i] * a[j] + b[i] * b[j] + c[i] * c[j]) / 12;
    }
  }
};

std::string num(const mpf_class& x) {
  if (abs(x) < 1e-100) return "0";  // what 512-bit sums leave of a zero
  // mpf's get_d truncates; go through the nearest double.
  double d = x.get_d();
  mpf_class rest = real();
  rest = x - real(d);
  if (rest != 0) {
    double e = std::nextafter(d, rest > 0 ? INFINITY : -INFINITY);
    mpf_class other = real();
    other = real(e) - x;
    if (abs(other) < abs(rest)) d = e;
  }
  char buf[40];
  std::snprintf(buf, sizeof buf, "%.17g", d == 0 ? 0.0 : d);
  return buf;
}
std::string vec(const F3& v) { return "[" + num(v[0]) + "," + num(v[1]) + "," + num(v[2]) + "]"; }

std::string print(const Sum& s, bool cut) {
  std::ostringstream o;
  o << "\"volume\":" << num(s.volume);
  auto over = [](const F3& m, const mpf_class& w) {
    F3 r;
    for (int k = 0; k < 3; k++) r[k] = mpf_class(m[k] / w, bits);
    return r;
  };
  o << ",\"centroid\":" << (s.volume == 0 ? "null" : vec(over(s.moment, s.volume)));
  o << ",\"wetted_area\":" << num(s.wet);
  if (!cut) return o.str();
  o << ",\"cut_area\":" << num(s.area);
  if (s.area == 0) return o.str() + ",\"cut_centroid\":null,\"cut_second\":null";
  F3 c = over(s.cutMoment, s.area);
  o << ",\"cut_centroid\":" << vec(c) << ",\"cut_second\":[";
  static const int I[6] = {0, 1, 2, 0, 0, 1}, J[6] = {0, 1, 2, 1, 2, 2};
  for (int q = 0; q < 6; q++) {
    mpf_class v = real();
    v = s.second[q] - s.area * c[I[q]] * c[J[q]];
    o << (q ? "," : "") << num(v);
  }
  return o.str() + "]";
}

// Integrals over a closed surface; faces in the plane are the cut, not skin.
Sum integrate(const Soup& s, const K::Plane_3* plane) {
  Sum sum;
  std::vector<F3> p(s.points.size());
  std::vector<char> on(s.points.size());
  for (std::size_t i = 0; i < s.points.size(); i++) {
    Q3 q = exact(s.points[i]);
    for (int k = 0; k < 3; k++) p[i][k] = real(q[k]);
    on[i] = plane && plane->has_on(s.points[i]);
  }
  for (auto& t : s.tris) {
    const F3 &a = p[t[0]], &b = p[t[1]], &c = p[t[2]];
    sum.tetra(a, b, c);
    if (on[t[0]] && on[t[1]] && on[t[2]]) sum.cut(a, b, c);
    else sum.skin(a, b, c);
  }
  return sum;
}

// The second way: triangle by triangle against the plane in rationals, without
// CGAL's clip. It needs a closed chain only, so it also serves surfaces that
// touch or cross themselves. Returns volume, moment and the area of the cut
// (from the sum of area vectors).
Sum direct(const Soup& s, const std::array<double, 4>& pl) {
  Sum sum;
  mpq_class n[3] = {pl[0], pl[1], pl[2]}, d = pl[3];
  mpq_class nn = n[0] * n[0] + n[1] * n[1] + n[2] * n[2];
  std::vector<Q3> p(s.points.size());
  std::vector<mpq_class> h(s.points.size());
  Q3 apex;  // foot of the origin on the plane, so that the cut adds nothing
  for (int k = 0; k < 3; k++) apex[k] = -d * n[k] / nn;
  for (std::size_t i = 0; i < p.size(); i++) {
    p[i] = exact(s.points[i]);
    h[i] = n[0] * p[i][0] + n[1] * p[i][1] + n[2] * p[i][2] + d;
  }
  F3 total{real(), real(), real()};
  F3 o{real(apex[0]), real(apex[1]), real(apex[2])};
  for (auto& t : s.tris) {
    std::vector<Q3> poly;
    for (int k = 0; k < 3; k++) {
      auto i = t[k], j = t[(k + 1) % 3];
      if (h[i] < 0) poly.push_back(p[i]);
      if ((h[i] < 0) != (h[j] < 0)) {
        mpq_class w = h[i] / (h[i] - h[j]);
        Q3 x;
        for (int c = 0; c < 3; c++) x[c] = p[i][c] + w * (p[j][c] - p[i][c]);
        poly.push_back(x);
      }
    }
    std::vector<F3> f(poly.size());
    for (std::size_t k = 0; k < f.size(); k++) {
      for (int c = 0; c < 3; c++) f[k][c] = real(mpq_class(poly[k][c] - apex[c]));
    }
    for (std::size_t k = 1; k + 1 < f.size(); k++) {
      sum.tetra(f[0], f[k], f[k + 1]);
      sum.skin(f[0], f[k], f[k + 1]);
      F3 a = cross(diff(f[k], f[0]), diff(f[k + 1], f[0]));
      for (int c = 0; c < 3; c++) total[c] += a[c] / 2;
    }
  }
  for (int k = 0; k < 3; k++) sum.moment[k] += sum.volume * o[k];
  sum.area = length(total);
  return sum;
}

std::string printDirect(const Sum& s) {
  std::string r = print(s, false);
  return r + ",\"cut_area\":" + num(s.area);
}

Surface read(const std::string& file) {
  std::vector<std::array<double, 3>> raw;
  std::vector<std::array<std::size_t, 3>> tris;
  std::ifstream in(file, std::ios::binary);
  if (!CGAL::IO::read_STL(in, raw, tris)) throw std::runtime_error("cannot read " + file);
  // An STL coordinate is a float32, in ASCII too.
  std::vector<Point> points;
  for (auto& r : raw) points.emplace_back(double(float(r[0])), double(float(r[1])), double(float(r[2])));
  PMP::merge_duplicate_points_in_polygon_soup(points, tris);
  std::vector<std::array<std::size_t, 3>> kept;
  for (auto& t : tris)
    if (t[0] != t[1] && t[1] != t[2] && t[2] != t[0]) kept.push_back(t);
  if (!PMP::is_polygon_soup_a_polygon_mesh(kept)) throw std::runtime_error("not manifold: " + file);
  Surface m;
  PMP::polygon_soup_to_polygon_mesh(points, kept, m);
  if (!CGAL::is_closed(m)) throw std::runtime_error("open: " + file);
  return m;
}

// Shell by shell, the largest first: one that faces inward is taken away.
Nef nef(const Surface& m) {
  std::vector<Surface> shells;
  PMP::split_connected_components(m, shells);
  auto size = [](const Surface& s) { return mpf_class(abs(integrate(soup(s), nullptr).volume), bits); };
  std::sort(shells.begin(), shells.end(), [&](const Surface& a, const Surface& b) { return size(a) > size(b); });
  Nef n(Nef::EMPTY);
  for (auto& s : shells) {
    if (PMP::is_outward_oriented(s)) {
      n += Nef(s);
    } else {
      PMP::reverse_face_orientations(s);
      n -= Nef(s);
    }
  }
  return n;
}

Soup soup(const Nef& n) {
  Soup s;
  std::vector<std::vector<std::size_t>> polys;
  CGAL::convert_nef_polyhedron_to_polygon_soup(n, s.points, polys, true);
  for (auto& q : polys) {
    if (q.size() != 3) throw std::runtime_error("face of a Nef polyhedron not triangulated");
    s.tris.push_back({q[0], q[1], q[2]});
  }
  return s;
}

// A box well around the body, what lies below the plane of it.
Surface halfSpace(const Soup& s, const K::Plane_3& plane) {
  double size = 1;
  for (auto& p : s.points)
    for (int k = 0; k < 3; k++) size = std::max(size, 2 * std::abs(CGAL::to_double(p[k])));
  Surface m;
  Point c[8];
  for (int i = 0; i < 8; i++) c[i] = Point(i & 1 ? size : -size, i & 2 ? size : -size, i & 4 ? size : -size);
  CGAL::make_hexahedron(c[0], c[1], c[3], c[2], c[6], c[4], c[5], c[7], m);
  PMP::triangulate_faces(m);
  PMP::clip(m, plane, PMP::parameters::clip_volume(true));
  return m;
}

struct Job {
  std::string name;
  std::vector<std::string> parts;
  std::vector<std::array<double, 4>> planes;
  bool nefOnly = false;
};

void run(const Job& job) {
  std::ostringstream o;
  std::vector<Surface> parts;
  bool selfCross = false;
  std::size_t triangles = 0;
  std::ostringstream list;
  for (auto& f : job.parts) {
    parts.push_back(read(f));
    triangles += parts.back().num_faces();
    selfCross = selfCross || PMP::does_self_intersect(parts.back());
    list << (parts.size() > 1 ? "," : "") << "{" << print(integrate(soup(parts.back()), nullptr), false)
         << ",\"triangles\":" << parts.back().num_faces() << "}";
  }
  Surface whole = parts[0];
  bool mesh = !job.nefOnly;
  Nef united;
  std::string method = parts.size() == 1 ? "as read" : "corefine_and_compute_union";
  for (std::size_t i = 1; i < parts.size() && mesh; i++) {
    Surface other = parts[i], out;
    try {
      mesh = PMP::corefine_and_compute_union(whole, other, out, PMP::parameters::throw_on_self_intersection(true));
    } catch (const PMP::Corefinement::Self_intersection_exception&) {
      mesh = false;
    }
    if (mesh) whole = out;
  }
  // A second union by another package of the library, where it is quick
  // enough; the only one where the result is not manifold.
  Soup surface;
  std::string nefWhole = "null";
  if (mesh) {
    whole.collect_garbage();
    PMP::triangulate_faces(whole);
    surface = soup(whole);
  }
  if (parts.size() > 1 && (!mesh || triangles < 3000)) {
    try {
      Nef n = nef(parts[0]);
      for (std::size_t i = 1; i < parts.size(); i++) n += nef(parts[i]);
      Soup s = soup(n.regularization());
      nefWhole = "{" + print(integrate(s, nullptr), false) + "}";
      if (!mesh) {
        surface = s;
        united = n;
        method = "Nef_polyhedron_3 union";
      }
    } catch (const CGAL::Failure_exception& e) {
      if (!mesh) throw;
      std::cerr << job.name << ": no Nef polyhedron: " << e.expression() << "\n";
    }
  }
  o << "{\"name\":\"" << job.name << "\",\"version\":\"" << CGAL_VERSION_STR << "\",\"method\":\"" << method
    << "\",\"self_intersecting_input\":" << (selfCross ? "true" : "false") << ",\"triangles\":" << surface.tris.size()
    << ",\"parts\":[" << list.str() << "],\"whole\":{" << print(integrate(surface, nullptr), false)
    << "},\"nef\":" << nefWhole << ",\"planes\":[";
  bool first = true;
  for (auto& p : job.planes) {
    K::Plane_3 plane(p[0], p[1], p[2], p[3]);
    std::string clip = "null", why;
    if (mesh) {
      try {
        Surface m = whole;
        if (PMP::clip(m, plane, PMP::parameters::clip_volume(true).throw_on_self_intersection(true))) {
          m.collect_garbage();
          PMP::triangulate_faces(m);
          if (!m.is_empty() && !CGAL::is_closed(m)) why = "clipped mesh is open";
          else clip = "{" + print(integrate(soup(m), &plane), true) + "}";
        } else {
          why = "the result is not manifold";
        }
      } catch (const PMP::Corefinement::Self_intersection_exception&) {
        why = "the mesh crosses itself at the cut";
      }
    } else {
      Nef below = united * nef(halfSpace(surface, plane));
      clip = "{" + print(integrate(soup(below.regularization()), &plane), true) + "}";
    }
    o << (first ? "" : ",") << "{\"clip\":" << clip << ",\"why\":\"" << why << "\",\"direct\":{"
      << printDirect(direct(surface, p)) << "}}";
    first = false;
  }
  o << "]}";
  std::cout << o.str() << std::endl;
}

int main() {
  Job job;
  std::string line;
  while (std::getline(std::cin, line)) {
    std::istringstream in(line);
    std::string word;
    in >> word;
    if (word == "job") {
      job = Job{};
      in >> job.name;
    } else if (word == "part") {
      std::string f;
      std::getline(in >> std::ws, f);
      job.parts.push_back(f);
    } else if (word == "nef") {
      job.nefOnly = true;
    } else if (word == "plane") {
      std::array<double, 4> p;
      for (auto& c : p) {
        std::string s;
        in >> s;
        c = std::stod(s);
      }
      job.planes.push_back(p);
    } else if (word == "end") {
      try {
        run(job);
      } catch (const std::exception& e) {
        std::cerr << job.name << ": " << e.what() << "\n";
        return 1;
      }
    }
  }
}
