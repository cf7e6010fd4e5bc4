#pragma once
// What is asked of the program for a row of data/evidence/: a dough, what of it is drawn because
// the source does not tell it, and the questions.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "numerics/random.h"

namespace barm::test {

/// What a source does not tell, drawn anew for every dough.
struct Assumption {
  enum class Kind { normal, log_normal, alike, one_of };

  std::string name;
  Kind kind = Kind::normal;
  double first = 0, second = 0;  ///< middle and doubt, or low and high
  std::vector<std::string> words;
  std::string why;

  /// One draw, as it is written into the bake.
  [[nodiscard]] std::string drawn(numerics::Random& random) const {
    switch (kind) {
      case Kind::normal:
        return fmt::format("{:.6g}", first + second * random.normal());
      case Kind::log_normal:
        return fmt::format("{:.6g}", first * std::exp(second * random.normal()));
      case Kind::alike:
        return fmt::format("{:.6g}", first + (second - first) * random.uniform());
      case Kind::one_of:
        break;
    }
    const auto which =
        static_cast<std::size_t>(random.uniform() * static_cast<double>(words.size()));
    return words[std::min(which, words.size() - 1)];
  }

  [[nodiscard]] double middle() const {
    return kind == Kind::alike ? 0.5 * (first + second) : first;
  }
};

/// What was drawn of a dough, by name.
using Told = std::map<std::string, std::string>;

/// {name} and {name+number} in a text put in.
inline std::string filled(const std::string& text, const Told& told) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '{') {
      out += text[i];
      continue;
    }
    const std::size_t end = text.find('}', i);
    if (end == std::string::npos) throw std::runtime_error("a { without } in " + text);
    const std::string inside = text.substr(i + 1, end - i - 1);
    const std::size_t plus = inside.find('+');
    const auto found = told.find(inside.substr(0, plus));
    if (found == told.end()) throw std::runtime_error("nothing is drawn for {" + inside + "}");
    out +=
        plus == std::string::npos
            ? found->second
            : fmt::format("{:.6g}", std::stod(found->second) + std::stod(inside.substr(plus + 1)));
    i = end;
  }
  return out;
}

/// What is asked of a dough, and of which rows it is the answer.
struct Asked {
  enum class What {
    half_of_highest,
    hours_to_rise,
    hours_to_highest,
    hours_to_ph,
    rise,
    ph,
    bacteria,
    yeast,
    lactic_acid,
    acetic_acid,
    generations
  };

  What what = What::rise;
  std::string target;       ///< of hours_to_…; may hold {name}
  double at = 0, from = 0;  ///< [h]
  double read = 0;          ///< how far a reading strays
  std::vector<std::string> rows;

  [[nodiscard]] bool is_time() const {
    return what == What::half_of_highest || what == What::hours_to_rise ||
           what == What::hours_to_highest || what == What::hours_to_ph;
  }

  /// pH, counts and generations are logarithms already.
  [[nodiscard]] bool is_logarithm() const {
    return what == What::ph || what == What::bacteria || what == What::yeast ||
           what == What::generations;
  }
};

/// A dough and what is asked of it.
struct Ask {
  std::string what, kind, source, bake;
  std::vector<Assumption> drawn;
  std::map<std::string, std::string> scaled;          ///< parameter, by what
  std::vector<std::pair<double, std::string>> track;  ///< [h], temperature
  std::vector<Asked> answers;
  double horizon = 72;          ///< [h]
  std::optional<double> share;  ///< of the flour in ripe levain, for the two-line rule
  double celsius = 24;          ///< for the same
  int line = 0;
};

}  // namespace barm::test
