#include "testbakes/next_bake.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/letters.h"
#include "generated/constants.h"
#include "numerics/random.h"
#include "testbakes/internal/information.h"
#include "testbakes/rivals.h"
#include "testbakes/told_apart.h"

namespace barm::testbakes {

using internal::expected_information;
using internal::Foretold;
using internal::uncertainty;

namespace {

constexpr std::size_t most_candidates = 40;
constexpr int looks_each = 6;
constexpr double open_enough = 1e-3;  // nats; below it there is no question left
constexpr double moves_from = 0.3;    // of the largest dose; ours

/// The recipe with one step more, in its words.
Recipe then(Recipe recipe, const std::string& words, Step step) {
  recipe.words += (recipe.words.empty() ? "" : ", ") + small_letters(words);
  recipe.name = recipe.words;
  recipe.steps.push_back(std::move(step));
  return recipe;
}

Recipe plain_of(const TestBake& test) {
  Recipe nothing;
  nothing.place = FilePlace{test.file};
  return then(std::move(nothing), "plain", step::Plain{});
}

class Ranking {
 public:
  Ranking(const TestBake& test,
          const std::vector<Rival>& rivals,
          const std::optional<Verdict>& verdict,
          const NextOptions& options)
      : test_(test), rivals_(rivals), verdict_(verdict), options_(options) {}

  Result<std::vector<Candidate>> go(const std::vector<Recipe>& recipes) {
    const auto made = make_all(recipes);
    if (!made) return failure(made);
    const auto foretold = foretell();
    if (!foretold) return failure(foretold);
    for (std::size_t i = 0; i < out_.size(); ++i) {
      if (options_.cancelled && options_.cancelled())
        return failure(ErrorCode::cancelled, "", "stopped before all candidates were weighed");
      value(i);
      if (options_.progress)
        options_.progress(0.7 +
                          0.3 * static_cast<double>(i + 1) / static_cast<double>(out_.size()));
    }
    std::stable_sort(out_.begin(), out_.end(), [](const Candidate& a, const Candidate& b) {
      return a.nats > b.nats;
    });
    return std::move(out_);
  }

 private:
  Result<bool> make_all(const std::vector<Recipe>& recipes) {
    const auto base = base_of(test_);
    if (!base) return failure(base);
    const auto causes = asked_about(test_, already_answered(rivals_));
    if (causes.empty())
      return failure(
          ErrorCode::bad_input, test_.file, "asks about nothing: name causes = [\"alcohol\"]");
    for (const Recipe& recipe : recipes) {
      auto rival = testbakes::make(*base, recipe);
      if (!rival) continue;
      Candidate candidate;
      candidate.recipe = recipe;
      candidate.baked = std::any_of(rivals_.begin(), rivals_.end(), [&](const Rival& other) {
        return other.words == rival->words && !other.words.empty();
      });
      add_price(*rival, candidate);
      candidate.rival = *std::move(rival);
      out_.push_back(std::move(candidate));
    }
    if (out_.empty())
      return failure(ErrorCode::bad_input, test_.file, "no candidate can be weighed out");
    auto plain = testbakes::make(*base, plain_of(test_));
    if (!plain) return failure(plain);
    control_ = *plain;
    std::vector<Rival> doughs{*std::move(plain)};
    for (const Candidate& one : out_) doughs.push_back(one.rival);
    // The priors stay those of the test bake: a stronger candidate does not change what is asked.
    priors_ = cause_priors(rivals_, causes);
    model_ = std::make_unique<JointModel>(
        doughs, priors_, 1, test_.base.bulk_temperature(), options_.threads);
    model_->cancelled = options_.cancelled;
    std::vector<double> hours;
    for (int i = 1; i <= looks_each; ++i)
      hours.push_back(1.5 * test_.within.in(hour)*i / looks_each);
    std::vector<JarAsked> jars;
    for (std::size_t d = 0; d < doughs.size(); ++d) jars.push_back({0, d, hours});
    model_->ask(std::move(jars));
    return true;
  }

  static void add_price(const Rival& rival, Candidate& candidate) {
    double sum = 0;
    bool known = false;
    for (const formula::Portion& portion : rival.bake.bowl) {
      if (!portion.price || portion.ingredient.group != larder::Group::drink) continue;
      sum += *portion.price * portion.amount;
      candidate.currency = portion.currency;
      known = true;
    }
    if (known) candidate.price = sum;
  }

  /// Draws of the unknowns under a hypothesis: what the verdict knows of culture and causes, a new
  /// day's levain and new jars from their priors. The same luck under every hypothesis, so that
  /// what changes nothing tells nothing.
  [[nodiscard]] std::vector<std::vector<double>> cultures(const Fitted* fitted) const {
    const std::size_t n = model_->unknowns();
    const std::size_t first_cause = model_->index_of_cause(0);
    const std::size_t causes = priors_.size();
    const std::size_t shared = first_cause - 2;
    Eigen::MatrixXd factor;
    std::vector<std::size_t> from;  // where the known ones stand in the verdict's unknowns
    if (fitted != nullptr) {
      const auto all = static_cast<Eigen::Index>(fitted->best.size());
      const Eigen::Map<const Eigen::MatrixXd> whole(fitted->covariance.data(), all, all);
      for (std::size_t i = 0; i < shared; ++i) from.push_back(i);
      for (std::size_t c = 0; c < causes; ++c) from.push_back(shared + 2 * test_.days.size() + c);
      const auto k = static_cast<Eigen::Index>(from.size());
      Eigen::MatrixXd known(k, k);
      for (Eigen::Index i = 0; i < k; ++i)
        for (Eigen::Index j = 0; j < k; ++j)
          known(i, j) = whole(static_cast<Eigen::Index>(from[static_cast<std::size_t>(i)]),
                              static_cast<Eigen::Index>(from[static_cast<std::size_t>(j)]));
      factor = known.llt().matrixL();
    }
    std::vector<std::vector<double>> out;
    for (int d = 0; d < options_.draws; ++d) {
      numerics::Random random(options_.seed, static_cast<std::uint64_t>(d) + 100);
      std::vector<double> z(n);
      for (double& x : z) x = random.normal();
      if (fitted != nullptr) {
        Eigen::VectorXd luck(static_cast<Eigen::Index>(from.size()));
        for (std::size_t i = 0; i < from.size(); ++i)
          luck(static_cast<Eigen::Index>(i)) = z[i < shared ? i : first_cause + (i - shared)];
        const Eigen::VectorXd moved = factor * luck;
        for (std::size_t i = 0; i < from.size(); ++i)
          z[i < shared ? i : first_cause + (i - shared)] =
              fitted->best[from[i]] + moved(static_cast<Eigen::Index>(i));
      }
      out.push_back(std::move(z));
    }
    return out;
  }

  Result<bool> foretell() {
    const Hypothesis count = 1U << priors_.size();
    const double sd_reading = (constants::scatter::reading.value / test_.jar).si();
    const double shape = verdict_ ? verdict_->shape : constants::scatter::shape.value.si();
    noise_ = 2 * sd_reading * sd_reading + shape * shape;
    for (Hypothesis h = 0; h < count; ++h) {
      const Fitted* fitted = nullptr;
      double weight = 1;
      if (verdict_) {
        for (const Fitted& one : verdict_->hypotheses)
          if (one.acting == h) fitted = &one;
        weight = fitted->weight;
      } else {
        for (std::size_t c = 0; c < priors_.size(); ++c)
          weight *= ((h >> c) & 1U) != 0 ? priors_[c].chance : 1 - priors_[c].chance;
      }
      weights_.push_back(weight);
      auto values = model_->predict(h, cultures(fitted));
      if (!values) return failure(values);
      readings_.push_back(*std::move(values));
      if (options_.progress) options_.progress(0.7 * (h + 1) / count);
    }
    return true;
  }

  /// Mean and covariance of what is read off the control and one candidate.
  [[nodiscard]] Foretold foretold(Hypothesis h, std::size_t candidate) const {
    constexpr Eigen::Index size = 2L * looks_each;
    const std::size_t stride = model_->jars().size() * looks_each;
    Eigen::MatrixXd y(options_.draws, size);
    for (Eigen::Index d = 0; d < y.rows(); ++d) {
      const double* row = &readings_[h][static_cast<std::size_t>(d) * stride];
      for (Eigen::Index i = 0; i < looks_each; ++i) {
        y(d, i) = row[i];
        y(d, looks_each + i) = row[(candidate + 1) * looks_each + static_cast<std::size_t>(i)];
      }
    }
    Foretold out;
    out.weight = weights_[h];
    out.mean = y.colwise().mean();
    const Eigen::MatrixXd centred = y.rowwise() - out.mean.transpose();
    out.covariance = centred.transpose() * centred / (options_.draws - 1.0);
    out.covariance.diagonal().array() += noise_;
    return out;
  }

  /// What the doughs baked so far, a plain one and the candidate together cannot tell apart is one
  /// answer: causes that move together count as "one of these acts", and one that does not vary is
  /// not asked. For each hypothesis the number of its answer.
  [[nodiscard]] std::vector<int> answers(std::size_t candidate) const {
    std::vector<Doses> doses;
    if (verdict_)
      for (const Watched& jar : verdict_->observed) doses.push_back(doses_of(rivals_[jar.dough]));
    doses.push_back(doses_of(control_));
    doses.push_back(doses_of(out_[candidate].rival));
    std::vector<Cause> causes;
    for (const CausePrior& prior : priors_) causes.push_back(prior.cause);
    const ToldApart told = told_apart(doses, causes);
    std::vector<Hypothesis> together;
    for (const CauseTold& one : told.told) {
      Hypothesis mask = 0;
      for (std::size_t c = 0; c < causes.size(); ++c) {
        const bool in =
            causes[c] == one.cause || std::count(one.with.begin(), one.with.end(), causes[c]) > 0;
        if (in) mask |= 1U << c;
      }
      if (one.telling == Telling::not_varied) mask = 0;
      if (one.telling != Telling::not_at_all && mask != 0) mask = bit(one.cause);
      together.push_back(mask);
    }
    std::vector<int> out;
    for (Hypothesis h = 0; h < weights_.size(); ++h) {
      int answer = 0;
      for (std::size_t c = 0; c < together.size(); ++c)
        if ((h & together[c]) != 0) answer |= 1 << c;
      out.push_back(answer);
    }
    return out;
  }

  [[nodiscard]] Hypothesis bit(Cause cause) const {
    for (std::size_t c = 0; c < priors_.size(); ++c)
      if (priors_[c].cause == cause) return 1U << c;
    return 0;
  }

  void value(std::size_t i) {
    std::vector<Foretold> all;
    std::vector<int> each;
    for (Hypothesis h = 0; h < weights_.size(); ++h) {
      all.push_back(foretold(h, i));
      each.push_back(static_cast<int>(h));
    }
    Candidate& one = out_[i];
    one.nats = expected_information(all, answers(i), options_.readings, options_.seed);
    const double open = uncertainty(weights_, each);
    one.settles = open > open_enough ? std::min(1.0, one.nats / open) : 0;
    if (one.price && *one.price > 0) one.settles_per_money = one.settles / *one.price;
    std::size_t best = 0;
    double most = -1;
    for (std::size_t c = 0; c < priors_.size(); ++c) {
      std::vector<int> group;
      for (Hypothesis h = 0; h < weights_.size(); ++h)
        group.push_back(static_cast<int>((h >> c) & 1U));
      const double about = expected_information(all, group, options_.readings, options_.seed);
      if (about <= most) continue;
      most = about;
      best = c;
    }
    one.reason = reason(one, priors_[best].cause, open, most);
  }

  [[nodiscard]] std::string reason(const Candidate& one,
                                   Cause about,
                                   double open,
                                   double tells) const {
    if (open <= open_enough) return "nothing is open any more";
    if (tells < 0.02 * open) return "it would come out alike whichever cause acts";
    const Doses doses = doses_of(one.rival);
    std::string moves;
    std::string stays;
    for (const CausePrior& prior : priors_) {
      const bool high =
          doses[static_cast<std::size_t>(prior.cause)] > moves_from * prior.largest_dose;
      std::string& list = high ? moves : stays;
      list += (list.empty() ? "" : " and ") + std::string(name(prior.cause));
    }
    if (moves.empty()) return fmt::format("a second plain dough: it tells how far jars scatter");
    if (stays.empty())
      return fmt::format(
          "{} together: it tells whether anything acts, most about the {}", moves, name(about));
    return fmt::format("{} without {}: it tells most about the {}", moves, stays, name(about));
  }

  const TestBake& test_;
  const std::vector<Rival>& rivals_;
  const std::optional<Verdict>& verdict_;
  const NextOptions& options_;
  Rival control_;
  std::vector<CausePrior> priors_;
  std::unique_ptr<JointModel> model_;
  std::vector<double> weights_;
  std::vector<std::vector<double>> readings_;
  double noise_ = 0;
  std::vector<Candidate> out_;
};

}  // namespace

std::vector<Recipe> usual_candidates(const TestBake& test) {
  const auto made = rivals(test);
  const auto asked = made ? asked_about(test, already_answered(*made)) : std::vector<Cause>();
  const auto worth = [&](Alike what) {
    return std::any_of(
        asked.begin(), asked.end(), [&](Cause cause) { return name(cause) == name(what); });
  };
  std::vector<Recipe> out;
  const auto base = base_of(test);
  if (!base) return out;
  const auto matched = [&](const Recipe& before, Alike what) {
    return then(
        before, "match " + std::string(name(what)), step::Match{what, usual_means(what, *base)});
  };
  const Recipe plain = plain_of(test);
  std::vector<Recipe> all{plain};
  for (unsigned mask = 1; mask < 16; ++mask) {
    Recipe one = plain;
    bool all_worth = true;
    for (const Alike what : {Alike::alcohol, Alike::acid, Alike::sulphite, Alike::sugar}) {
      if (((mask >> static_cast<unsigned>(what)) & 1U) == 0) continue;
      one = matched(one, what);
      all_worth = all_worth && worth(what);
    }
    if (all_worth) all.push_back(std::move(one));
  }
  Recipe nothing;
  nothing.place = plain.place;
  for (const formula::Portion& portion : test.base.bowl) {
    const std::string& drink = portion.ingredient.name;
    if (portion.ingredient.group != larder::Group::drink || drink.find(',') != std::string::npos)
      continue;
    for (const int share : {10, 15, 20, 25, 30, 35, 40, 50, 60, 75, 100}) {
      const Recipe poured = then(nothing,
                                 fmt::format("{} {} % of the liquid", drink, share),
                                 step::Pour{drink, share / 100.0});
      all.push_back(poured);
      if (share == 100) continue;
      all.push_back(matched(poured, Alike::alcohol));
      all.push_back(matched(poured, Alike::acid));
    }
    const auto simmered = [&](int minutes) {
      return then(nothing,
                  fmt::format("simmer {} for {} min", drink, minutes),
                  step::Simmer{drink, static_cast<double>(minutes) * minute});
    };
    all.push_back(simmered(150));
    all.push_back(matched(simmered(150), Alike::alcohol));
    all.push_back(simmered(60));
  }
  for (Recipe& one : all) {
    if (out.size() == most_candidates) break;
    if (testbakes::make(*base, one)) out.push_back(std::move(one));
  }
  return out;
}

Result<std::vector<Candidate>> rank_next(const TestBake& test,
                                         const std::vector<Rival>& rivals,
                                         const std::optional<Verdict>& verdict,
                                         const std::vector<Recipe>& candidates,
                                         const NextOptions& options) {
  return Ranking(test, rivals, verdict, options).go(candidates);
}

}  // namespace barm::testbakes
