#include "forecast/field.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/require.h"
#include "numerics/random.h"

namespace barm::forecast {

namespace {

// Cells x0..x1, y0..y1 of one draw, all four corners known.
struct Block {
  int draw, x0, y0, x1, y1;
};

enum Answer : signed char { no, yes, asked, unknown };

class Refining {
 public:
  Refining(const FieldQuestion& question, const FillFieldCase& fill, const ShowField& show)
      : question_(question),
        fill_(fill),
        show_(show),
        columns_(question.across.count),
        rows_(question.up.count),
        answers_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_) *
                     static_cast<std::size_t>(question.draws),
                 unknown),
        many_(question.many) {
    require(columns_ > 1 && rows_ > 1 && question.draws > 0 && question.coarsest > 0,
            "a field has an inside");
    many_.proving.horizon = question.within;
    many_.proving.stop_at_target = true;
    many_.proving.sample_every = 0.0 * hour;
    many_.progress = {};
  }

  Result<Field> go() {
    lay_coarse_blocks();
    if (const auto error = run_asked()) return failure(*error);
    field_.error = largest_step();
    show();
    // The first check finds what the blocks cannot see and mends it; the second says what is left.
    for (const std::uint64_t round : {1U, 2U}) {
      if (const auto error = follow_borders()) return failure(*error);
      paint();
      if (const auto error = check(round)) return failure(*error);
    }
    if (const auto error = follow_borders()) return failure(*error);
    field_.finished = true;
    show();
    return std::move(field_);
  }

 private:
  struct Point {
    int draw, x, y;
  };

  [[nodiscard]] signed char& answer(int draw, int x, int y) {
    return answers_[(static_cast<std::size_t>(draw) * static_cast<std::size_t>(rows_) +
                     static_cast<std::size_t>(y)) *
                        static_cast<std::size_t>(columns_) +
                    static_cast<std::size_t>(x)];
  }

  void ask(int draw, int x, int y) {
    if (answer(draw, x, y) != unknown) return;
    answer(draw, x, y) = asked;
    asked_.push_back({draw, x, y});
  }

  void lay_coarse_blocks() {
    const auto stops = [&](int count) {
      std::vector<int> at;
      for (int i = 0; i < count - 1; i += question_.coarsest) at.push_back(i);
      at.push_back(count - 1);
      return at;
    };
    const auto xs = stops(columns_);
    const auto ys = stops(rows_);
    for (const int y : ys) {
      for (const int x : xs) {
        for (int draw = 0; draw < question_.draws; ++draw) ask(draw, x, y);
      }
    }
    for (int draw = 0; draw < question_.draws; ++draw) {
      for (std::size_t j = 1; j < ys.size(); ++j) {
        for (std::size_t i = 1; i < xs.size(); ++i)
          blocks_.push_back({draw, xs[i - 1], ys[j - 1], xs[i], ys[j]});
      }
    }
  }

  std::optional<Error> run_asked() {
    const auto fill = [&](std::size_t i, Case& to_fill) {
      const Point& p = asked_[i];
      fill_(question_.across.at(p.x), question_.up.at(p.y), p.draw, to_fill);
    };
    const auto many = foresee_many(asked_.size(), fill, many_);
    if (!many) return many.error();
    for (std::size_t i = 0; i < asked_.size(); ++i) {
      const Point& p = asked_[i];
      answer(p.draw, p.x, p.y) = many->passed[i].is_ready() ? yes : no;
    }
    field_.forecasts += asked_.size();
    asked_.clear();
    return std::nullopt;
  }

  // Splits every block whose known cells disagree, until none is left that can be split.
  std::optional<Error> follow_borders() {
    while (split_mixed_blocks()) {
      if (const auto error = run_asked()) return error;
      show();
    }
    return std::nullopt;
  }

  bool split_mixed_blocks() {
    std::vector<Block> next;
    next.reserve(blocks_.size());
    bool some = false;
    for (const Block& block : blocks_) {
      if (block.x1 - block.x0 + block.y1 - block.y0 <= 2 || !mixed(block)) {
        next.push_back(block);
        continue;
      }
      split(block, next);
      some = true;
    }
    blocks_ = std::move(next);
    return some;
  }

  [[nodiscard]] bool mixed(const Block& b) {
    const signed char first = answer(b.draw, b.x0, b.y0);
    for (int y = b.y0; y <= b.y1; ++y) {
      for (int x = b.x0; x <= b.x1; ++x) {
        const signed char here = answer(b.draw, x, y);
        if (here <= yes && here != first) return true;
      }
    }
    return false;
  }

  // Into four, or two where it is one cell wide.
  void split(const Block& b, std::vector<Block>& into) {
    const int xm = (b.x0 + b.x1) / 2;
    const int ym = (b.y0 + b.y1) / 2;
    const auto add = [&](int x0, int y0, int x1, int y1) {
      if (x0 == x1 || y0 == y1) return;
      into.push_back({b.draw, x0, y0, x1, y1});
      for (const int y : {y0, y1}) {
        for (const int x : {x0, x1}) ask(b.draw, x, y);
      }
    };
    add(b.x0, b.y0, xm, ym);
    add(xm, b.y0, b.x1, ym);
    add(b.x0, ym, xm, b.y1);
    add(xm, ym, b.x1, b.y1);
  }

  // Computes some cells in full and compares them with the picture.
  std::optional<Error> check(std::uint64_t round) {
    numerics::Random random(round, 0);
    const auto below = [&](int count) {
      return std::min(count - 1, static_cast<int>(random.uniform() * count));
    };
    std::vector<Point> cells;
    cells.reserve(static_cast<std::size_t>(question_.checked));
    for (int i = 0; i < question_.checked; ++i) cells.push_back({0, below(columns_), below(rows_)});
    for (const Point& cell : cells) {
      for (int draw = 0; draw < question_.draws; ++draw) ask(draw, cell.x, cell.y);
    }
    if (const auto error = run_asked()) return error;
    double worst = 0;
    for (const Point& cell : cells) {
      int ready = 0;
      for (int draw = 0; draw < question_.draws; ++draw)
        ready += answer(draw, cell.x, cell.y) == yes ? 1 : 0;
      const double truth = ready / static_cast<double>(question_.draws);
      worst = std::max(worst, std::abs(truth - field_.at(cell.x, cell.y)));
    }
    field_.error = worst;
    return std::nullopt;
  }

  // Each draw gives every cell 1 or 0: what is known of it, or what its block says, a straight line
  // between the corners while they disagree.
  void paint() {
    std::vector<double> sum(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_),
                            0.0);
    for (const Block& b : blocks_) {
      const bool last_x = b.x1 == columns_ - 1;
      const bool last_y = b.y1 == rows_ - 1;
      for (int y = b.y0; y < b.y1 + (last_y ? 1 : 0); ++y) {
        for (int x = b.x0; x < b.x1 + (last_x ? 1 : 0); ++x) {
          sum[static_cast<std::size_t>(y) * static_cast<std::size_t>(columns_) +
              static_cast<std::size_t>(x)] += says(b, x, y);
        }
      }
    }
    field_.columns = columns_;
    field_.rows = rows_;
    field_.chance.resize(sum.size());
    for (std::size_t i = 0; i < sum.size(); ++i) field_.chance[i] = sum[i] / question_.draws;
  }

  [[nodiscard]] double says(const Block& b, int x, int y) {
    const signed char known = answer(b.draw, x, y);
    if (known <= yes) return known == yes ? 1 : 0;
    const double u = static_cast<double>(x - b.x0) / (b.x1 - b.x0);
    const double v = static_cast<double>(y - b.y0) / (b.y1 - b.y0);
    const auto corner = [&](int at_x, int at_y) {
      return answer(b.draw, at_x, at_y) == yes ? 1.0 : 0.0;
    };
    return (1 - v) * ((1 - u) * corner(b.x0, b.y0) + u * corner(b.x1, b.y0)) +
           v * ((1 - u) * corner(b.x0, b.y1) + u * corner(b.x1, b.y1));
  }

  // Largest difference of the chance between neighbouring points of the coarse grid.
  double largest_step() {
    paint();
    double largest = 0;
    for (const Block& b : blocks_) {
      if (b.draw != 0) continue;
      for (const auto& [x, y] :
           {std::pair{b.x1, b.y0}, std::pair{b.x0, b.y1}, std::pair{b.x1, b.y1}}) {
        largest = std::max(largest, std::abs(field_.at(x, y) - field_.at(b.x0, b.y0)));
      }
    }
    return largest;
  }

  void show() {
    paint();
    if (show_) show_(field_);
  }

  const FieldQuestion& question_;
  const FillFieldCase& fill_;
  const ShowField& show_;
  int columns_, rows_;
  std::vector<signed char> answers_;
  ManyOptions many_;
  std::vector<Block> blocks_;
  std::vector<Point> asked_;
  Field field_;
};

}  // namespace

Result<Field> chance_field(const FieldQuestion& question,
                           const FillFieldCase& fill,
                           const ShowField& show) {
  return Refining(question, fill, show).go();
}

}  // namespace barm::forecast
