#include <algorithm>
#include <cmath>

#include "estimation/internal/seen.h"
#include "estimation/learn.h"

namespace barm::estimation {

Result<Readings> simulated(const DoughToRead& batch,
                           std::span<const double> z,
                           std::span<const double> hours,
                           Length start_mark,
                           const std::function<double()>& normal) {
  const auto none = [] { return 0.0; };
  const std::function<double()> luck = normal ? normal : none;
  const Sample& sample = batch.sample;
  // The order of the luck is part of the answer: noise, then times, then heights.
  const double noise = std::exp(sample.noise_doubt * luck());
  const double mark = start_mark.in(millimetre);
  const double stretch =
      std::max(1.0, hours.empty() ? 0 : hours.back()) / static_cast<double>(pace_pieces);
  const auto world = internal::world_of(batch, z.data(), sample.mark_doubt / mark, stretch);
  std::vector<double> moments;
  for (const double h : hours)
    moments.push_back(internal::model_hours(
        world.ln_pace, stretch, std::max(0.0, h + noise * sample.time_doubt * luck())));
  // Late looks may come in another order than they are written down.
  std::vector<std::size_t> order(moments.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::sort(order.begin(), order.end(), [&](auto a, auto b) { return moments[a] < moments[b]; });
  std::vector<double> ascending;
  for (const std::size_t i : order) ascending.push_back(moments[i]);
  std::vector<internal::Look<double>> looks;
  if (!internal::run_sample(world, sample, stretch, ascending, {}, looks))
    return failure(ErrorCode::no_convergence, "", "the sample's run did not settle");
  Readings out;
  out.start_mark = start_mark;
  out.rows.resize(hours.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    Reading& row = out.rows[order[i]];
    row.at = hours[order[i]] * hour;
    const double shown = mark * std::exp(world.ln_mark) * (1 + world.drag * (looks[i].rise - 1));
    const double chi = [&] {
      if (!normal) return 1.0;
      double sum = 0;
      for (int k = 0; k < static_cast<int>(sample.tail); ++k) sum += std::pow(luck(), 2);
      return std::sqrt(sum / sample.tail);
    }();
    row.height = (shown + sample.height_doubt * noise * luck() / chi) * millimetre;
  }
  return out;
}

}  // namespace barm::estimation
