#pragma once
// Leave-future-out: at several hours of a batch the time to ready is foretold from what had been
// read by then, by the estimator and by three baselines, and scored once the batch is ready.
#include <array>
#include <functional>

#include "estimation/learn.h"
#include "estimation/outlook.h"
#include "support/batches.h"
#include "support/scores.h"

namespace barm::test {

/// Scores at one stage of the batch, for one law of growth.
struct Scores {
  Score ours, prior, exponential, last_batch;
};

inline constexpr std::array stages{0.35, 0.55, 0.75};  ///< of the time to ready

struct Table {
  std::array<Scores, stages.size()> own, rival;

  /// All stages of the own law or of the rivals together.
  [[nodiscard]] static Scores all(const std::array<Scores, stages.size()>& of) {
    Scores sum;
    for (const Scores& s : of) {
      const auto add = [](Score& to, const Score& more) {
        to.crps += more.crps;
        to.held += more.held;
        to.off += more.off;
        to.count += more.count;
      };
      add(sum.ours, s.ours);
      add(sum.prior, s.prior);
      add(sum.exponential, s.exponential);
      add(sum.last_batch, s.last_batch);
    }
    return sum;
  }
};

/// The estimator behind a thin function: possible hours of ready from a bake and what was read.
using Foretell =
    std::function<Guess(const SimulatedBatch& batch, const estimation::Readings& readings)>;

inline Guess guess_of(const estimation::Outlook& outlook) {
  return {outlook.ready_hours, outlook.weight};
}

/// learn() and outlook() from a belief; `adjust` may change what is believed of readings and pace.
inline Foretell by_learning(const estimation::Belief& belief,
                            int draws,
                            int threads,
                            const std::function<void(estimation::DoughToRead&)>& adjust = nullptr) {
  return [belief, draws, threads, adjust](const SimulatedBatch& batch,
                                          const estimation::Readings& readings) {
    estimation::LearnOptions options;
    options.draws = draws;
    options.threads = threads;
    auto prepared = estimation::prepare(batch.bake, belief, batch.bulk);
    if (!prepared) throw std::runtime_error(prepared.error().text());
    if (adjust) adjust(*prepared);
    const auto learned = estimation::learn(*prepared, readings, options);
    if (!learned) throw std::runtime_error(learned.error().text());
    const auto outlook = estimation::outlook(*prepared, readings, *learned, options);
    if (!outlook) throw std::runtime_error(outlook.error().text());
    return guess_of(*outlook);
  };
}

/// Scores the first `count` batches that a maker has. Every forecast, ours and theirs, is told that
/// the dough is not ready yet.
template <class Maker>
Table leave_future_out(const Maker& maker,
                       std::size_t count,
                       const Foretell& foretell,
                       const std::function<void(std::size_t)>& tell = nullptr) {
  Table table;
  std::size_t made = 0;
  for (std::uint64_t i = 0; made < count; ++i) {
    const auto batch = maker.batch(i);
    if (!batch) continue;
    ++made;
    if (tell) tell(made);
    const Guess before = foretell(*batch, {});
    for (std::size_t s = 0; s < stages.size(); ++s) {
      const double now = stages[s] * batch->ready;
      const auto read = until(batch->readings, now);
      if (read.rows.empty()) continue;
      Scores& scores = (batch->law == Law::ours ? table.own : table.rival)[s];
      const Guess prior = not_before(before, now);
      scores.ours.add(not_before(foretell(*batch, read), now), batch->ready);
      scores.prior.add(prior, batch->ready);
      const Guess drawn_on = extrapolated(read, now);
      scores.exponential.add(drawn_on.hours.empty() ? prior : drawn_on, batch->ready);
      scores.last_batch.add(not_before(around(batch->before, 0.25), now), batch->ready);
    }
  }
  return table;
}

}  // namespace barm::test
