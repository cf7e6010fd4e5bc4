#include "formula/internal/weigh.h"

#include <fmt/format.h>

#include <algorithm>

#include "formula/bowl.h"
#include "formula/internal/contents.h"
#include "units/units.h"

namespace barm::formula::internal {

namespace {

/// a F + b [kg].
struct Line {
  double a = 0, b = 0;

  void add(const Line& other, double times) {
    a += times * other.a;
    b += times * other.b;
  }
};

bool counts_as_liquid(const Portion& portion) {
  return portion.ingredient.is_liquid() && !is_starter(portion);
}

Line as_written(const Bake& bake, const Portion& portion) {
  switch (portion.measure) {
    case Measure::of_flour:
      return {portion.amount, 0};
    case Measure::of_liquid:
      return {portion.amount * bake.liquid_total.of_flour,
              portion.amount * bake.liquid_total.weight.in(kilogram)};
    case Measure::mass:
      return {0, portion.amount};
    case Measure::rest_of_liquid:
      return {};
  }
  return {};
}

/// What the other liquids leave of the total.
void fill_rest(const Bake& bake, std::vector<Line>& lines) {
  Line rest{bake.liquid_total.of_flour, bake.liquid_total.weight.in(kilogram)};
  std::size_t at = lines.size();
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (bake.bowl[i].measure == Measure::rest_of_liquid) {
      at = i;
    } else if (counts_as_liquid(bake.bowl[i])) {
      rest.add(lines[i], -1);
    }
  }
  if (at < lines.size()) lines[at] = rest;
}

/// The flour that levains hold.
Line flour_in_levains(const Bake& bake,
                      std::span<const larder::Composition> settled,
                      const std::vector<Line>& lines) {
  Line held;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (is_starter(bake.bowl[i])) held.add(lines[i], flour_share(bake.bowl[i], settled[i]));
  }
  return held;
}

bool is_flour_of_the_levain(const Bake& bake, const Portion& portion) {
  return bake.levain && portion.ingredient.key == bake.levain->flour.key;
}

/// Takes the levains' flour off the line whose flour the levain uses, else off all in proportion.
void take_off(const Bake& bake, const Line& held, std::vector<Line>& lines) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!bake.bowl[i].ingredient.is_flour() || !is_flour_of_the_levain(bake, bake.bowl[i]))
      continue;
    return lines[i].add(held, -1);
  }
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (bake.bowl[i].ingredient.is_flour()) lines[i].add(held, -lines[i].a);  // shares sum to 1
  }
}

bool flour_in_percent(const Bake& bake) {
  return std::any_of(bake.bowl.begin(), bake.bowl.end(), [](const Portion& portion) {
    return portion.ingredient.is_flour() && portion.measure == Measure::of_flour;
  });
}

/// F when every flour is a weight: F = sum of flours + what levains hold, which may depend on F.
double flour_by_weight(const Bake& bake, const Line& held, const std::vector<Line>& lines) {
  double flour = held.b;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (bake.bowl[i].ingredient.is_flour()) flour += lines[i].b;
  }
  return flour / (1 - held.a);
}

Result<double> flour_by_percent(const Bake& bake, const std::vector<Line>& lines) {
  if (bake.flour_total) return bake.flour_total->in(kilogram);
  const double dough = dough_wanted(bake);
  if (dough <= 0) {
    return failure(
        ErrorCode::bad_input,
        bake.file,
        "does not say how much: give pieces and piece, dough = \"1.8 kg\" or flour = \"3 kg\"");
  }
  Line all;
  for (const Line& line : lines) all.add(line, 1);
  if (dough > all.b) return (dough - all.b) / all.a;
  return failure(ErrorCode::bad_input,
                 bake.file,
                 fmt::format("what is weighed in the bowl comes to {:.0f} g already, more than the "
                             "dough of {:.0f} g",
                             1e3 * all.b,
                             1e3 * dough));
}

Result<std::vector<double>> masses(const Bake& bake, const std::vector<Line>& lines, double flour) {
  std::vector<double> out(lines.size());
  for (std::size_t i = 0; i < lines.size(); ++i) {
    out[i] = lines[i].a * flour + lines[i].b;
    const double rounding = 1e-12 * flour;
    if (out[i] >= -rounding) {
      out[i] = std::max(0.0, out[i]);
      continue;
    }
    const Portion& portion = bake.bowl[i];
    const char* why = portion.ingredient.is_flour()
                          ? "the levain holds more flour than the bowl asks for"
                          : "the other liquids come to more than the liquid total";
    return failure(ErrorCode::bad_input, portion.place, why);
  }
  return out;
}

}  // namespace

double dough_wanted(const Bake& bake) {
  if (bake.dough_total) return bake.dough_total->in(kilogram);
  if (!bake.pieces) return 0;
  double piece = 0;
  if (bake.baked_piece) piece = bake.baked_piece->in(kilogram) / (1 - bake.bake_loss);
  if (bake.piece) piece = bake.piece->in(kilogram);
  return *bake.pieces * piece / (1 - bake.handling_loss);
}

Result<std::vector<double>> weigh(const Bake& bake, std::span<const larder::Composition> settled) {
  std::vector<Line> lines;
  lines.reserve(bake.bowl.size());
  for (const Portion& portion : bake.bowl) lines.push_back(as_written(bake, portion));
  fill_rest(bake, lines);
  const Line held = bake.percent_of_weighed ? Line{} : flour_in_levains(bake, settled, lines);
  Result<double> flour = 0.0;
  if (flour_in_percent(bake)) {
    take_off(bake, held, lines);
    flour = flour_by_percent(bake, lines);
    if (!flour) return failure(flour);
  } else {
    flour = flour_by_weight(bake, held, lines);
  }
  if (!(*flour > 0)) return failure(ErrorCode::bad_input, bake.file, "holds no flour");
  return masses(bake, lines, *flour);
}

}  // namespace barm::formula::internal

namespace barm::formula {

Bake by_weight(const Bake& bake, std::span<const Mass> masses) {
  Bake out = bake;
  for (std::size_t i = 0; i < out.bowl.size(); ++i) {
    out.bowl[i].measure = Measure::mass;
    out.bowl[i].amount = masses[i].in(kilogram);
    out.bowl[i].weighed.reset();
  }
  out.piece.reset();
  out.baked_piece.reset();
  out.dough_total.reset();
  out.flour_total.reset();
  out.liquid_total = {};
  return out;
}

}  // namespace barm::formula
