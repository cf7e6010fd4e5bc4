#include <cmath>
#include <map>
#include <utility>

#include "testbakes/reach_map.h"

namespace barm::testbakes {

namespace {

/// An edge between two neighbouring points of the grid, by the lower one and its direction.
struct Edge {
  int column, row;
  bool upward;

  auto operator<=>(const Edge&) const = default;
};

class Marching {
 public:
  Marching(const forecast::Field& field, double level) : field_(field), level_(level) {}

  std::vector<Contour> go() {
    for (int row = 0; row + 1 < field_.rows; ++row) {
      for (int column = 0; column + 1 < field_.columns; ++column) cell(column, row);
    }
    std::vector<Contour> lines;
    // Lines that end at the border first, then the closed ones.
    for (const bool ends : {true, false}) {
      for (auto& [edge, links] : links_) {
        if (links.used || (ends && links.count != 1)) continue;
        lines.push_back(follow(edge));
      }
    }
    return lines;
  }

 private:
  struct Links {
    Edge to[2]{};
    int count = 0;
    bool used = false;
  };

  [[nodiscard]] double at(int column, int row) const { return field_.at(column, row) - level_; }

  [[nodiscard]] bool above(int column, int row) const { return at(column, row) >= 0; }

  void link(const Edge& a, const Edge& b) {
    Links& from = links_[a];
    Links& to = links_[b];
    from.to[from.count++] = b;
    to.to[to.count++] = a;
  }

  void cell(int c, int r) {
    const Edge bottom{c, r, false};
    const Edge top{c, r + 1, false};
    const Edge left{c, r, true};
    const Edge right{c + 1, r, true};
    const bool a = above(c, r);
    const bool b = above(c + 1, r);
    const bool d = above(c, r + 1);
    const bool e = above(c + 1, r + 1);
    std::vector<Edge> crossed;
    if (a != b) crossed.push_back(bottom);
    if (b != e) crossed.push_back(right);
    if (d != e) crossed.push_back(top);
    if (a != d) crossed.push_back(left);
    if (crossed.size() == 2) link(crossed[0], crossed[1]);
    if (crossed.size() != 4) return;
    const double middle = at(c, r) + at(c + 1, r) + at(c, r + 1) + at(c + 1, r + 1);
    const bool around_a = (middle >= 0) != a;  // the corner a is cut off from the middle
    link(bottom, around_a ? left : right);
    link(top, around_a ? right : left);
  }

  [[nodiscard]] Contour::Point point(const Edge& edge) const {
    const double here = at(edge.column, edge.row);
    const double there =
        edge.upward ? at(edge.column, edge.row + 1) : at(edge.column + 1, edge.row);
    const double part = here / (here - there);
    return {edge.column + (edge.upward ? 0 : part), edge.row + (edge.upward ? part : 0)};
  }

  Contour follow(Edge edge) {
    Contour line;
    line.level = level_;
    const Edge first = edge;
    while (true) {
      Links& links = links_[edge];
      links.used = true;
      line.points.push_back(point(edge));
      const Edge* next = nullptr;
      for (int k = 0; k < links.count; ++k) {
        if (!links_[links.to[k]].used) next = &links.to[k];
        line.closed = line.closed || (line.points.size() > 2 && links.to[k] == first);
      }
      if (next == nullptr) return line;
      line.closed = false;
      edge = *next;
    }
  }

  const forecast::Field& field_;
  double level_;
  std::map<Edge, Links> links_;
};

}  // namespace

std::vector<Contour> contours(const forecast::Field& field, double level) {
  return Marching(field, level).go();
}

}  // namespace barm::testbakes
