#pragma once
// Batches that never were: a dough whose course is known, what a baker would have read of it, and
// how the batch before it went. Half of them follow the model, half a rival law of growth.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "estimation/readings.h"
#include "forecast/draw.h"
#include "forecast/ensemble.h"
#include "formula/read.h"
#include "numerics/random.h"

namespace barm::test {

enum class Law { ours, gompertz, baranyi };

struct SimulatedBatch {
  Law law = Law::ours;
  formula::Bake bake;
  forecast::Proving bulk;         ///< as the baker believes it is kept
  estimation::Readings readings;  ///< the whole day's
  double ready = 0;               ///< [h] when the bulk has doubled in truth
  double before = 0;              ///< [h] what the batch before it took
};

/// A rise as a function of time.
class Rise {
 public:
  virtual ~Rise() = default;
  [[nodiscard]] virtual double at(double hours) const = 0;
};

/// Gompertz's curve through two of its points: ln(-ln(y/A)) is a straight line in time. y is the
/// rise above 1.
class GompertzRise : public Rise {
 public:
  GompertzRise(double top, double fifth, double doubled) : top_(top) {
    const double low = std::log(-std::log(0.2 / top));
    const double high = std::log(-std::log(1.0 / top));
    slope_ = (high - low) / (doubled - fifth);
    start_ = low - slope_ * fifth;
    shift_ = curve(0);
  }

  // From 1 at mixing on; the little that the curve has there already is taken off.
  [[nodiscard]] double at(double hours) const override { return 1 + curve(hours) - shift_; }

 private:
  [[nodiscard]] double curve(double t) const {
    return top_ * std::exp(-std::exp(start_ + slope_ * t));
  }

  double top_, start_ = 0, slope_ = 0, shift_ = 0;
};

/// Baranyi's curve with lag h0/mu through two of its points: rate and first size follow.
class BaranyiRise : public Rise {
 public:
  BaranyiRise(double top, double h0, double fifth, double doubled) : top_(top), h0_(h0) {
    double low = std::log(1e-5);
    double high = std::log(0.19);
    for (int i = 0; i < 60; ++i) {  // the larger at first, the larger at a fifth
      begin_ = std::exp(0.5 * (low + high));
      reach(doubled);
      (at(fifth) < 1.2 ? low : high) = std::log(begin_);
    }
  }

  [[nodiscard]] double at(double hours) const override {
    const double awake = hours + std::log(std::exp(-rate_ * hours) + std::exp(-h0_) -
                                          std::exp(-rate_ * hours - h0_)) /
                                     rate_;
    const double grown = rate_ * awake;
    const double ln = std::log(begin_) + grown - std::log1p(std::expm1(grown) / (top_ / begin_));
    return 1 + std::exp(ln) - begin_;
  }

 private:
  // The rate at which it has doubled by then.
  void reach(double doubled) {
    double low = 1e-3;
    double high = 20;
    for (int i = 0; i < 60; ++i) {
      rate_ = std::sqrt(low * high);
      (at(doubled) < 2 ? low : high) = rate_;
    }
  }

  double top_, h0_, begin_ = 0.01, rate_ = 1;
};

/// The model's own course, by points.
class ModelRise : public Rise {
 public:
  ModelRise(const kinetics::Dough& dough,
            const kinetics::Parameters<double>& parameters,
            forecast::Proving proving) {
    proving.sample_every = every_ * hour;
    proving.accuracy.relative = 1e-5;
    const auto course = forecast::run(dough, parameters, proving);
    if (!course) throw std::runtime_error(course.error().text());
    for (const auto& sample : course->curve) rise_.push_back(sample.rise);
    ready = course->ready;
  }

  [[nodiscard]] double at(double hours) const override {
    const double place = std::clamp(hours / every_, 0.0, static_cast<double>(rise_.size() - 1));
    const auto i = std::min(rise_.size() - 2, static_cast<std::size_t>(place));
    const double part = place - static_cast<double>(i);
    return rise_[i] + part * (rise_[i + 1] - rise_[i]);
  }

  std::optional<Time> ready;

 private:
  static constexpr double every_ = 0.1;
  std::vector<double> rise_;
};

inline const std::vector<formula::Bake>& simulated_bakes() {
  static const std::vector<formula::Bake> bakes = [] {
    std::vector<formula::Bake> out;
    for (const char* bowl :
         {"water = \"70 %\"\n\"stiff ripe levain\" = \"15 %\"\n",
          "\"dry mead\" = \"30 %\"\nwater = \"40 %\"\n\"stiff ripe levain\" = \"20 %\"\n",
          "stout = \"70 %\"\n\"liquid ripe levain\" = \"20 %\"\n",
          "\"white wine\" = \"20 %\"\nwater = \"50 %\"\n\"stiff ripe levain\" = \"20 %\"\n"}) {
      auto bake = formula::parse_bake(
          "name = \"batch\"\nflour = \"2 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nsalt = "
          "\"2 %\"\n" +
              std::string(bowl) +
              "[[stage]]\ndo = \"bulk\"\ntemperature = \"24 C\"\nuntil = \"doubled\"\n",
          "batch.toml");
      if (!bake) throw std::runtime_error(bake.error().text());
      out.push_back(std::move(*bake));
    }
    return out;
  }();
  return bakes;
}

/// Batch number i, the same each time. Of four, two follow the model with a pace that wanders and
/// two a rival law; the rivals' room swings unlogged, their jars drag, their looks are written down
/// late and rounded.
class BatchMaker {
 public:
  explicit BatchMaker(std::uint64_t seed) : seed_(seed) {}

  /// Empty where the dough does not double within two days: nobody sells such a bake.
  [[nodiscard]] std::optional<SimulatedBatch> batch(std::uint64_t i) const {
    SimulatedBatch batch;
    batch.law = i % 2 == 0 ? Law::ours : i % 4 == 1 ? Law::gompertz : Law::baranyi;
    batch.bake = simulated_bakes()[(i / 4) % simulated_bakes().size()];
    forecast::Options options;
    options.horizon = 72.0 * hour;
    batch.bulk = forecast::proving_of(batch.bake, options);
    numerics::Random random(seed_, i);
    const auto normal = [&]() -> double { return random.normal(); };
    const auto culture = kinetics::drawn(random, kinetics::day_one());
    const auto dough = forecast::draw_of(batch.bake, culture, normal);
    const auto earlier = forecast::draw_of(batch.bake, of_another_day(culture, random), normal);
    if (!dough || !earlier) return std::nullopt;
    const ModelRise model(dough->dough, dough->parameters, batch.bulk);
    const ModelRise last(earlier->dough, earlier->parameters, batch.bulk);
    if (!model.ready || !last.ready || *model.ready > 48.0 * hour) return std::nullopt;
    batch.before = last.ready->in(hour);
    const Day day = batch.law == Law::ours ? own_day(random) : rival_day(random);
    if (batch.law == Law::ours) return read(std::move(batch), model, day, random);
    const double doubled = model.ready->in(hour);
    double fifth = doubled;
    while (model.at(fifth) > 1.2) fifth -= 0.05;
    // White doughs end at 2.8 to 3.5 times their volume, bakers say; the rivals' a little about
    // that.
    const double top = 1.6 + 1.0 * random.uniform();
    fifth *= std::exp(0.08 * random.normal());
    if (fifth > 0.85 * doubled) return std::nullopt;
    if (batch.law == Law::gompertz)
      return read(std::move(batch), GompertzRise(top, fifth, doubled), day, random);
    const double lag = 0.5 + 2.5 * random.uniform();
    return read(std::move(batch), BaranyiRise(top, lag, fifth, doubled), day, random);
  }

 private:
  // What differs between a day and what the baker believes of it.
  struct Day {
    double bulk_swing = 0, room_swing = 0, phase = 0;  // [K], [h]
    double offset = 0;                                 // [K] of the jar
    double wander = 0;                                 // of the pace, in ln
    double drag = 1;                                   // of the rise in the jar
    double noise = 1;                                  // [mm]
    double late = 0;                          // [h] at most, written down too early by so much
    double round_time = 0, round_height = 1;  // [h], [mm]
  };

  static Day own_day(numerics::Random& random) {
    Day day;
    day.offset = 0.4 * random.normal();
    day.wander = 0.08 * random.normal();
    day.drag = 0.97 * std::exp(0.05 * random.normal());
    day.phase = 24 * random.uniform();
    return day;
  }

  static Day rival_day(numerics::Random& random) {
    Day day;
    day.room_swing = 0.5 + 2 * random.uniform();
    day.bulk_swing = 0.6 * day.room_swing;
    day.phase = 24 * random.uniform();
    day.offset = 0.4 * random.normal();
    day.drag = 0.92 + 0.08 * random.uniform();
    day.late = 0.2;
    day.round_time = 0.25;
    return day;
  }

  // The same culture some days later: awake to another degree, another sack of flour.
  static kinetics::Parameters<double> of_another_day(kinetics::Parameters<double> culture,
                                                     numerics::Random& random) {
    using P = kinetics::Parameter;
    culture[P::lag_scale] *= std::exp(0.25 * random.normal());
    culture[P::wild_growth] *= std::exp(0.05 * random.normal());
    culture[P::rise_limit] *= std::exp(0.05 * random.normal());
    return culture;
  }

  // Hours of work that a dough has behind it at a clock time: at a degree more it does 8 % more.
  static double worked(double t, double swing, double offset, const Day& day) {
    constexpr double per_kelvin = 0.08;
    constexpr double step = 0.1;
    double done = 0;
    for (double x = 0; x < t; x += step) {
      const double kelvin = offset + swing * std::sin(2 * std::numbers::pi * (x - day.phase) / 24);
      const double pace = day.wander * std::cos(2 * std::numbers::pi * (x - day.phase) / 9);
      done += std::min(step, t - x) * std::exp(per_kelvin * kelvin + pace);
    }
    return done;
  }

  static double rounded(double x, double to) { return to > 0 ? to * std::round(x / to) : x; }

  static std::optional<SimulatedBatch> read(SimulatedBatch batch,
                                            const Rise& rise,
                                            const Day& day,
                                            numerics::Random& random) {
    const auto bulk = [&](double t) { return rise.at(worked(t, day.bulk_swing, 0, day)); };
    double high = 0;  // the first quarter of an hour at which it has doubled; it may fall again
    while (high <= 48 && bulk(high) < 2) high += 0.25;
    if (high < 2.5 || high > 48) return std::nullopt;
    double low = high - 0.25;
    for (int i = 0; i < 20; ++i) {
      const double middle = 0.5 * (low + high);
      (bulk(middle) < 2 ? low : high) = middle;
    }
    batch.ready = high;
    const double mark = 30 + 20 * random.uniform();
    const double shown_mark = std::round(mark + 0.7 * random.normal());
    batch.readings.start_mark = shown_mark * millimetre;
    const auto height = [&](double t) {
      const double jar = rise.at(worked(t, day.room_swing, day.offset, day));
      double squares = 0;
      for (int k = 0; k < 4; ++k) squares += std::pow(random.normal(), 2);
      const double error = day.noise * random.normal() / std::sqrt(squares / 4);
      return rounded(mark * (1 + day.drag * (jar - 1)) + error, day.round_height);
    };
    const double pause = std::max(0.75, batch.ready / 10);
    for (double t = 0.5 + random.uniform(); t < batch.ready;
         t += pause * (0.6 + 0.8 * random.uniform())) {
      estimation::Reading reading;
      const double written =
          rounded(std::max(0.1, t - day.late * random.uniform()), day.round_time);
      reading.at = std::max(0.25, written) * hour;
      reading.height = height(t) * millimetre;
      batch.readings.rows.push_back(reading);
    }
    return batch;
  }

  std::uint64_t seed_;
};

/// The first readings of a batch.
inline estimation::Readings until(const estimation::Readings& all, double hours) {
  estimation::Readings some = all;
  some.rows.clear();
  for (const estimation::Reading& row : all.rows) {
    if (row.at.in(hour) <= hours) some.rows.push_back(row);
  }
  return some;
}

}  // namespace barm::test
