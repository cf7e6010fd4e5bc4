#pragma once
// A culture's memory: what its batches have taught, from which a new batch starts.
// docs/model/estimation.md 6.
#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "estimation/belief.h"
#include "estimation/learn.h"

namespace barm::estimation {

/// The parameters in which one culture differs from another.
inline constexpr std::array culture_parameters{
    kinetics::Parameter::wild_growth,
    kinetics::Parameter::wild_ethanol_half,
    kinetics::Parameter::wild_salt_half,
    kinetics::Parameter::wild_acetic_half,
    kinetics::Parameter::wild_gas_of_upkeep,
    kinetics::Parameter::bacteria_growth,
    kinetics::Parameter::bacteria_ethanol_half,
    kinetics::Parameter::bacteria_upkeep,
    kinetics::Parameter::warm_toxicity,
    kinetics::Parameter::lag_scale,
    kinetics::Parameter::rise_limit,
};

inline constexpr std::size_t culture_size = culture_parameters.size();

/// What one batch says of the culture parameters x = ln(value/book), whatever was believed before:
/// its likelihood, as a normal one,  ln p(readings | x) = const + push'x - x'sharpness x / 2.
struct BatchLesson {
  std::string batch;  ///< its name, no two alike in a culture
  double day = 0;     ///< of mixing, days since 1970-01-01
  int readings = 0;
  std::optional<double> levain_age_h;  ///< past its peak, by published figures, where that is known
  std::string bake, readings_file, zone;  ///< from which it can be learned again; may be empty
  std::array<double, culture_size> push{};
  std::array<double, culture_size * culture_size> sharpness{};  ///< symmetric, never negative
};

/// A value: everything of a culture that is kept.
struct Culture {
  std::string name;
  std::vector<BatchLesson> batches;
};

/// What is believed of a culture after its batches.
struct CultureBelief {
  std::array<double, culture_size> mean{};     ///< of x on the last day
  std::array<double, culture_size> sd{};       ///< of it
  std::array<double, culture_size> before{};   ///< sd on day one
  std::array<double, culture_size> between{};  ///< sd from batch to batch
  Time middle_age;                             ///< of the batches' levains, past their peak
  double slope = 0;           ///< of ln(lag) with the levain's age beyond the published own, [1/h]
  double slope_sd = 0;        ///< of it
  double slope_before = 0;    ///< sd on day one
  double slope_with_lag = 0;  ///< covariance of it with mean[lag_scale]
  Belief next;                ///< of a new batch, all parameters
};

/// The lesson of a batch that was learned from the published belief.
[[nodiscard]] BatchLesson lesson_of(const DoughToRead& batch,
                                    const Learned& learned,
                                    const std::string& name,
                                    double day);

/// From the batches in order of their day: the culture wanders slowly, batches scatter about it.
/// The order in which batches were learned plays no part, and a batch that is not there never was.
/// `day` of the next batch; 0: that of the last. `levain_age`: past its peak; empty: as the
/// batches' levains were. Checked against: tests/estimation/culture_test.cpp,
/// tests/estimation/levain_age_test.cpp.
[[nodiscard]] CultureBelief belief_of(const Culture& culture,
                                      double day = 0,
                                      const std::optional<Time>& levain_age = std::nullopt);

/// belief_of(culture).next
[[nodiscard]] Belief next_batch(const Culture& culture,
                                double day = 0,
                                const std::optional<Time>& levain_age = std::nullopt);

/// Adds a lesson, or puts it in the place of the one of the same name.
void put(Culture& culture, BatchLesson lesson);

/// The culture as if that batch had never been. Errors: not_found.
[[nodiscard]] Result<Culture> without(const Culture& culture, const std::string& batch);

/// Learns every batch anew: `learn_one` gives the lesson of one. Errors: those of it, cancelled.
[[nodiscard]] Result<Culture> relearned(
    const Culture& culture,
    const std::function<Result<BatchLesson>(const BatchLesson&)>& learn_one,
    const std::function<void(double)>& progress = nullptr,
    const std::function<bool()>& cancelled = nullptr);

/// As a TOML text, and back. Errors: bad_input with file and line.
[[nodiscard]] std::string to_toml(const Culture& culture);
[[nodiscard]] Result<Culture> parse_culture(const std::string& text, const std::string& file);

/// Errors: not_found, bad_input.
[[nodiscard]] Result<Culture> read_culture(const std::string& path);

/// One topic of a culture against the published figures, in words and numbers.
struct Difference {
  std::string about;         ///< "alcohol"
  double factor = 1;         ///< middle over the published
  double low = 1, high = 1;  ///< of 4 of 5
  double left = 1;           ///< share of the published doubt that is left
  double between = 0;        ///< sd in ln from batch to batch
  bool known = true;         ///< false: the batches say nothing of it yet
  std::string words;
};

[[nodiscard]] std::vector<Difference> differences(const Culture& culture);

/// How much later a dough wakes up with a levain `past` its peak than with one at its peak: in
/// plain dough where the yeast grows fastest, by published figures and what the batches have shown.
struct LaterByAge {
  Time past;
  Time later, low, high;  ///< the middle, and 4 of 5 such cultures
  Time typical;
  double left = 1;  ///< share of the doubt about the slope that is left
  std::string words;
};

[[nodiscard]] LaterByAge later_by_age(const Culture& culture, Time past = 12.0 * hour);

}  // namespace barm::estimation
