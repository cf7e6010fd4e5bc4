#include "estimation/dough_to_read.h"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <optional>

#include "base/require.h"
#include "estimation/internal/world.h"
#include "forecast/draw.h"
#include "forecast/levain.h"
#include "forecast/levain_told.h"
#include "heat/felt.h"
#include "kinetics/terms.h"
#include "numerics/quantiles.h"
#include "numerics/random.h"
#include "numerics/symmetric.h"

namespace barm::estimation {

namespace {

using kinetics::Parameter;

constexpr std::size_t draws_of_bottles = 640;
constexpr std::uint64_t seed_of_bottles = 1;
constexpr double least_share = 1e-5;  // of a variance in ln, that is 0.3 %: not worth an unknown

// Whether a parameter can make a difference in this dough.
bool matters(Parameter parameter, const kinetics::Dough& dough, double celsius) {
  const kinetics::Present present = kinetics::present(dough);
  const bool wild = present.wild_yeast;
  const bool bakers = present.bakers_yeast;
  const bool lab = dough.bacteria > 0;
  using P = Parameter;
  switch (parameter) {
    case P::wild_growth:
    case P::wild_ethanol_half:
    case P::wild_ethanol_end:
    case P::wild_acetic_half:
    case P::wild_gas_of_growth:
    case P::wild_gas_of_upkeep:
    case P::wild_cell_mass:
    case P::hunger:
      return wild;
    case P::wild_salt_half:
      return wild && dough.salt > 0;
    case P::wild_sugar_half:
      return wild && present.added_sugar;
    case P::wild_sulphite_half:
      return wild && present.sulphite;
    case P::wild_sorbate_half:
      return wild && present.sorbate;
    case P::bakers_growth:
    case P::bakers_ethanol_half:
    case P::bakers_ethanol_end:
    case P::bakers_acetic_half:
    case P::bakers_gas_of_growth:
    case P::bakers_gas_of_upkeep:
    case P::bakers_lag:
      return bakers;
    case P::bakers_salt_half:
      return bakers && dough.salt > 0;
    case P::bakers_sugar_half:
      return bakers && present.added_sugar;
    case P::bakers_sulphite_half:
      return bakers && present.sulphite;
    case P::bakers_sorbate_half:
      return bakers && present.sorbate;
    case P::bacteria_growth:
    case P::bacteria_ethanol_half:
    case P::bacteria_ethanol_end:
    case P::bacteria_acetic_half:
    case P::bacteria_cells_per_hexose:
    case P::bacteria_upkeep:
    case P::bacteria_cell_mass:
    case P::acid_stop_ph:
      return lab;
    case P::bacteria_salt_half:
      return lab && dough.salt > 0;
    case P::bacteria_sugar_half:
      return lab && present.added_sugar;
    case P::bacteria_sulphite_half:
      return lab && present.sulphite;
    case P::bacteria_hops_half:
      return lab && present.hops;
    case P::warm_toxicity:
      return celsius > 23;
    case P::sulphite_half_life:
      return present.sulphite;
    case P::lag_scale:
      return wild || lab;
    case P::pace:  // its doubt is the walk's
      return false;
    default:
      return true;
  }
}

// ln of what a dough brings over the typical dough; 0 where the published figures have none. pH as
// a difference.
std::array<double, brought_count> compared(const kinetics::Dough& dough,
                                           const kinetics::Dough& book) {
  std::array<double, brought_count> out{};
  kinetics::Dough a = dough;
  kinetics::Dough b = book;
  for (std::size_t i = 0; i < brought_count; ++i) {
    const auto brought = static_cast<Brought>(i);
    if (brought == Brought::acidity) {
      out[i] = a.ph - b.ph;
    } else if (brought == Brought::other_acids) {
      double all = 0;
      double all_book = 0;
      for (std::size_t k = 0; k < a.acid.size(); ++k) {
        all += a.acid[k];
        all_book += b.acid[k];
      }
      if (all > 0 && all_book > 0) out[i] = std::log(all / all_book);
    } else {
      const double* const now = internal::number_of(a, brought);
      const double* const then = internal::number_of(b, brought);
      if (*now > 0 && *then > 0) out[i] = std::log(*now / *then);
    }
  }
  return out;
}

double warmest(const DoughToRead& batch) {
  double most = -100;
  for (const heat::Track& track : {batch.sample.track, forecast::track_of(batch.bulk)}) {
    for (const heat::Segment& segment : track.segments()) most = std::max(most, segment.celsius);
  }
  return most;
}

void choose_parameters(DoughToRead& batch, const Belief& belief) {
  require(belief.mean.size() == kinetics::parameter_count, "a belief holds every parameter");
  std::copy(belief.mean.begin(), belief.mean.end(), batch.ln_mean.begin());
  for (const kinetics::Prior& prior : kinetics::priors()) {
    if (matters(prior.parameter, batch.dough, warmest(batch)) && belief.sd(prior.parameter) > 0.003)
      batch.parameters.push_back(prior.parameter);
  }
  const auto n = static_cast<Eigen::Index>(batch.parameters.size());
  Eigen::MatrixXd covariance(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j) {
      const auto row = static_cast<std::size_t>(batch.parameters[static_cast<std::size_t>(i)]);
      const auto column = static_cast<std::size_t>(batch.parameters[static_cast<std::size_t>(j)]);
      covariance(i, j) = belief.covariance[row * kinetics::parameter_count + column];
    }
  }
  const Eigen::MatrixXd lower = covariance.llt().matrixL();
  batch.factor.assign(batch.parameters.size() * batch.parameters.size(), 0.0);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j <= i; ++j)
      batch.factor[static_cast<std::size_t>(i * n + j)] = lower(i, j);
  }
  batch.by_parameter.assign(brought_count * batch.parameters.size(), 0.0);
}

kinetics::Parameters<double> parameters_at(const DoughToRead& batch, std::size_t moved, double by) {
  std::vector<double> z(batch.dimension(), 0.0);
  if (moved < batch.parameters.size()) z[moved] = by;
  return internal::parameters_of(batch, z.data());
}

// What the parameters do to the dough through the levain: central differences over one doubt each
// way.
std::optional<Error> follow_parameters(DoughToRead& batch, const formula::Bake& bake) {
  if (!bake.levain || !bake.levain->since_feeding) return std::nullopt;
  const std::size_t n = batch.parameters.size();
  const auto asked = [&](std::size_t i) -> Result<forecast::Asked> {
    return forecast::Asked{parameters_at(batch, i / 2, i % 2 == 0 ? 1 : -1), forecast::all_typical};
  };
  const auto moved = forecast::doughs_of(bake, 2 * n, asked, {});
  if (!moved) return moved.error();
  for (std::size_t j = 0; j < n; ++j) {
    const auto up = compared((*moved)[2 * j].dough, batch.dough);
    const auto down = compared((*moved)[2 * j + 1].dough, batch.dough);
    for (std::size_t b = 0; b < brought_count; ++b) {
      const double slope = 0.5 * (up[b] - down[b]);
      if (std::abs(slope) > 1e-4) batch.by_parameter[b * n + j] = slope;
    }
  }
  return std::nullopt;
}

// What the bottles may hold: the directions in which draws of the larder scatter.
std::optional<Error> follow_bottles(DoughToRead& batch, const formula::Bake& bake) {
  const auto parameters = parameters_at(batch, batch.dimension(), 0);
  const auto asked = [&](std::size_t i) -> Result<forecast::Asked> {
    numerics::Random random(seed_of_bottles, i + 1);
    return forecast::Asked{parameters, [random]() mutable { return random.normal(); }};
  };
  const auto drawn = forecast::doughs_of(bake, draws_of_bottles, asked, {});
  if (!drawn) return drawn.error();
  Eigen::MatrixXd scatter(draws_of_bottles, brought_count);
  for (std::size_t i = 0; i < draws_of_bottles; ++i) {
    const auto row = compared((*drawn)[i].dough, batch.dough);
    for (std::size_t b = 0; b < brought_count; ++b)
      scatter(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(b)) = row[b];
  }
  const Eigen::MatrixXd covariance =
      scatter.transpose() * scatter / static_cast<double>(draws_of_bottles);
  const numerics::Axes axes = numerics::axes_of(covariance);
  std::vector<Eigen::Index> kept;
  for (Eigen::Index i = axes.lengths.size() - 1; i >= 0; --i) {
    if (axes.lengths(i) > least_share) kept.push_back(i);
  }
  batch.own_count = kept.size();
  batch.own.assign(brought_count * kept.size(), 0.0);
  for (std::size_t j = 0; j < kept.size(); ++j) {
    const double length = std::sqrt(axes.lengths(kept[j]));
    for (std::size_t b = 0; b < brought_count; ++b) {
      batch.own[b * kept.size() + j] =
          length * axes.directions(static_cast<Eigen::Index>(b), kept[j]);
    }
  }
  return std::nullopt;
}

}  // namespace

std::size_t DoughToRead::dimension() const { return first_of_pace() + pace_pieces; }

DoughToRead prepare(const kinetics::Dough& dough,
                    const Belief& belief,
                    const forecast::Proving& bulk) {
  DoughToRead batch;
  batch.dough = dough;
  batch.bulk = bulk;
  forecast::Options options;
  options.target = bulk.target;
  options.temperature = bulk.temperature;
  batch.plan = forecast::Plan::of({}, options);
  batch.sample.track = forecast::track_of(bulk);
  choose_parameters(batch, belief);
  return batch;
}

Result<DoughToRead> prepare(const formula::Bake& bake,
                            const Belief& belief,
                            const forecast::Proving& bulk) {
  if (bake.levain && (bake.levain->doubled_in || bake.levain->rose)) {
    const auto told = forecast::told_by_levain(*bake.levain, prior_of(belief));
    if (!told) return failure(told);
    formula::Bake asked = bake;
    asked.levain->doubled_in.reset();
    asked.levain->rose.reset();
    return prepare(asked, belief_of(*told), bulk);
  }
  // The typical dough first, to see what matters; then the dough of the belief's own middle.
  const auto book = forecast::draw_of(bake, kinetics::book());
  if (!book) return failure(book);
  DoughToRead batch = prepare(book->dough, belief, bulk);
  const auto middle = forecast::draw_of(bake, parameters_at(batch, batch.dimension(), 0));
  if (!middle) return failure(middle);
  batch.dough = middle->dough;
  batch.like = forecast::Walking::of(*middle);
  const auto age = levain_age(bake);
  if (!age) return failure(age);
  batch.levain_age = *age;
  std::optional<Error> error = follow_parameters(batch, bake);
  if (!error) error = follow_bottles(batch, bake);
  if (error) return failure(*error);
  return batch;
}

Result<std::optional<Time>> levain_age(const formula::Bake& bake) {
  if (!bake.levain) return std::optional<Time>();
  return forecast::past_peak(*bake.levain, kinetics::middle(kinetics::day_one()));
}

namespace {

// The jar was measured and the dough was not: what the dough is taken for, where that is another.
void tell_warmth_apart(DoughToRead& batch, const std::vector<Reading>& rows) {
  constexpr double apart = 2;  // K; ours
  std::vector<double> jar;
  for (const Reading& row : rows)
    if (row.sample) jar.push_back(row.sample->celsius());
  const double middle = numerics::quantile(numerics::sorted(std::move(jar)), 0.5);
  const double dough = batch.bulk.temperature.celsius();
  if (std::abs(middle - dough) < apart) return;
  batch.notes.push_back(
      fmt::format("the jar stood at {:.0f} °C, and the dough is taken to be at {:.0f} °C as its "
                  "bake says: where it is not, note its own warmth too",
                  middle,
                  dough));
}

}  // namespace

void follow(DoughToRead& batch, const Readings& readings) {
  const auto& rows = readings.logged.empty() ? readings.rows : readings.logged;
  const auto put =
      [&](std::optional<Temperature> Reading::* which, const char* name, heat::Track& track) {
        std::vector<heat::ProbeReading> logged;
        for (const Reading& row : rows) {
          if (row.*which) logged.push_back({row.at, *(row.*which)});
        }
        if (logged.empty()) return false;
        const heat::Felt felt = heat::felt_track(logged);
        track = felt.track;
        if (logged.size() > heat::most_steps || felt.most_off > heat::well_felt)
          batch.notes.push_back(fmt::format(
              "{} temperatures of the {} are followed in {} steps: a dough is never off by "
              "more than {:.1f} K by that",
              logged.size(),
              name,
              track.segments().size(),
              felt.most_off));
        return true;
      };
  const bool jar_measured = put(&Reading::sample, "sample", batch.sample.track);
  if (!jar_measured) put(&Reading::room, "room", batch.sample.track);
  if (!put(&Reading::bulk, "bulk", batch.bulk.track) && jar_measured)
    tell_warmth_apart(batch, rows);
}

}  // namespace barm::estimation
