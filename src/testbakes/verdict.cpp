#include "testbakes/verdict.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <set>

#include "generated/constants.h"
#include "numerics/quantiles.h"
#include "numerics/random.h"
#include "numerics/shapley.h"
#include "testbakes/internal/fit.h"
#include "testbakes/internal/jars_alone.h"
#include "testbakes/internal/own_way.h"

namespace barm::testbakes {

using internal::Errors;
using internal::Fit;

namespace {

// Ours: the middle of 8 of 10.
constexpr double low_share = 0.1;
constexpr double high_share = 0.9;

// Ours: a cause is cleared where its odds have fallen to a third at least.
constexpr double speaks_against = 1.0 / 3;

// Ours: doughs that stray over ten times as far as is believed beforehand follow some other law.
constexpr double farthest_astray = 10;

// Ours: how surely the jars alone must show a cause that is named, and without any one of the
// doughs that hold it: of a full factorial two doughs hold its sulphite, and one is left without
// the other.
constexpr double shown_from = 0.05;
constexpr double still_shown_from = 0.45;

// ln of a half-speed dose by which doughs of other laws of growth are off besides what the fit
// knows: found by tools/sound.
constexpr double doubt_of_the_law = 0.15;

// A reading this far from the best fit of everything is a slip of the ruler or of the pen.
constexpr double odd_from = 5;

std::vector<double> plain(const Eigen::VectorXd& v) { return {v.data(), v.data() + v.size()}; }

std::string listed(const std::vector<Cause>& causes) {
  std::string out;
  for (std::size_t i = 0; i < causes.size(); ++i)
    out += (i == 0 ? "" : i + 1 == causes.size() ? " and " : ", ") + in_a_sentence(causes[i]);
  return out;
}

double quantile_of(std::vector<double> values, double p) {
  return numerics::quantile(numerics::sorted(std::move(values)), p);
}

// Ours: from this share of its highest rise on, a dough tells of its strength: how high it can
// stand and how long, which differs from culture to culture more than the model knows.
constexpr double nearly_all_risen = 0.95;
constexpr double has_risen = 1.1;

/// The looks that tell of its pace: up to the first that is as good as the highest; all of a dough
/// that hardly rose.
Watched while_rising(const Watched& jar) {
  double highest = 1;
  for (const Look& look : jar.looks) highest = std::max(highest, look.ratio);
  if (highest < has_risen) return jar;
  const double enough = 1 + nearly_all_risen * (highest - 1);
  Watched rising = jar;
  const auto top =
      std::ranges::find_if(jar.looks, [&](const Look& look) { return look.ratio >= enough; });
  rising.looks.assign(jar.looks.begin(), top + 1);
  return rising;
}

class Judging {
 public:
  Judging(const TestBake& test,
          const std::vector<Rival>& rivals,
          const std::vector<Watched>& observed,
          const VerdictOptions& options)
      : test_(test), rivals_(rivals), options_(options) {
    std::ranges::transform(observed, std::back_inserter(observed_), while_rising);
    out_.observed = observed;
  }

  Result<Verdict> go() {
    const auto asked = prepare();
    if (!asked) return failure(asked);
    const auto shaped = find_shape();
    if (!shaped) return failure(shaped);
    const auto fitted = fit_all();
    if (!fitted) return failure(fitted);
    weigh();
    const auto hours = find_hours();
    if (!hours) return failure(hours);
    decide();
    say();
    const auto drawn = draw_course();
    if (!drawn) return failure(drawn);
    tell(1);
    return std::move(out_);
  }

 private:
  void tell(double share) const {
    if (options_.progress) options_.progress(share);
  }

  Result<bool> prepare() {
    const auto causes = asked_about(test_, already_answered(rivals_));
    if (causes.empty()) {
      return failure(
          ErrorCode::bad_input,
          test_.file,
          "asks about nothing: no dough holds enough of anything that could slow it; name "
          "causes = [\"alcohol\", …] to ask all the same");
    }
    std::vector<Doses> doses;
    std::vector<std::string> names;
    for (const Watched& jar : observed_) {
      const Rival& rival = rivals_[jar.dough];
      if (std::count(names.begin(), names.end(), rival.name) > 0) continue;
      names.push_back(rival.name);
      doses.push_back(doses_of(rival));
    }
    out_.told_apart = told_apart(doses, causes, names);
    model_ = std::make_unique<JointModel>(rivals_,
                                          cause_priors(rivals_, causes),
                                          test_.days.size(),
                                          test_.base.bulk_temperature(),
                                          options_.threads);
    model_->cancelled = options_.cancelled;
    ask(observed_);
    count_ = 1U << model_->causes().size();
    suspect_.assign(looks(), false);
    return true;
  }

  void ask(const std::vector<Watched>& observed) {
    std::vector<JarAsked> jars;
    for (const Watched& jar : observed) {
      JarAsked asked{jar.day, jar.dough, {}};
      for (const Look& look : jar.looks) asked.hours.push_back(look.hours);
      jars.push_back(std::move(asked));
    }
    model_->ask(std::move(jars));
  }

  /// What the weightiest hypothesis has of every look, those after the rise too.
  Result<bool> draw_course() {
    const Fitted& best = out_.hypotheses.front();
    ask(out_.observed);
    auto course = model_->predict(best.acting, best.best);
    if (!course) return failure(course);
    out_.fitted = *std::move(course);
    return true;
  }

  [[nodiscard]] std::size_t looks() const {
    std::size_t n = 0;
    for (const Watched& jar : observed_) n += jar.looks.size();
    return n;
  }

  [[nodiscard]] Eigen::VectorXd nowhere() const {
    return Eigen::VectorXd::Zero(static_cast<Eigen::Index>(model_->unknowns()));
  }

  /// How far the doughs stray from any curve of the model, by the evidence of the hypothesis that
  /// lets everything act, with what is believed of it beforehand.
  Result<bool> find_shape() {
    const Hypothesis all = count_ - 1;
    auto found = likeliest_shape(all);
    if (found) found = doubt_odd_readings(all);
    if (!found) return failure(found);
    tell(0.2);
    out_.beyond = out_.shape > farthest_astray * constants::scatter::shape.value.si();
    return true;
  }

  Result<bool> likeliest_shape(Hypothesis all) {
    const double believed = constants::scatter::shape.value.si();
    constexpr double doubt = 0.7;  // ln; ours
    double best = -1e300;
    Eigen::VectorXd start = nowhere();
    for (const double shape : {16 * believed, 8 * believed, 4 * believed}) {
      const auto one = internal::fit(*model_, all, Errors(observed_, shape, suspect_), start);
      if (!one) return failure(one);
      const double off = std::log(shape / believed) / doubt;
      const double weight = one->log_evidence - 0.5 * off * off;
      start = one->z;
      if (weight <= best) continue;
      best = weight;
      out_.shape = shape;
      full_ = *one;
    }
    return true;
  }

  Result<bool> doubt_odd_readings(Hypothesis all) {
    const Errors errors(observed_, out_.shape, suspect_);
    std::size_t look = 0;
    for (const Watched& jar : observed_) {
      for (const Look& at : jar.looks) {
        const double off = (at.ratio - full_.predicted[look]) / errors.sd()[look];
        if (std::abs(off) > odd_from) {
          suspect_[look] = true;
          out_.odd.push_back(
              fmt::format("{} on {}, {:.1f} h: {:.2f} times fits nothing ({:.2f} was to "
                          "be expected); it counts for little",
                          test_.doughs[jar.dough].name,
                          test_.days[jar.day],
                          at.hours,
                          at.ratio,
                          full_.predicted[look]));
        }
        ++look;
      }
    }
    // What one slip made of the straying is found anew without it.
    return out_.odd.empty() ? Result<bool>(true) : likeliest_shape(all);
  }

  /// Every combination, from the fit of all acting with what does not act put aside.
  Result<bool> fit_all() {
    const Errors errors(observed_, out_.shape, suspect_);
    fits_.resize(count_);
    for (Hypothesis h = count_; h-- > 0;) {
      Eigen::VectorXd start = full_.z;
      for (std::size_t c = 0; c < model_->causes().size(); ++c) {
        if (((h >> c) & 1U) == 0) start(static_cast<Eigen::Index>(model_->index_of_cause(c))) = 0;
      }
      auto one = internal::fit(*model_, h, errors, start);
      if (!one) return failure(one);
      fits_[h] = *std::move(one);
      tell(0.2 + 0.6 * (count_ - h) / count_);
    }
    return true;
  }

  void weigh() {
    std::vector<double> logs;
    std::vector<std::vector<double>> astray;  // of each hypothesis: chance of each dough
    for (Hypothesis h = 0; h < count_; ++h) {
      double log_prior = 0;
      for (std::size_t c = 0; c < model_->causes().size(); ++c) {
        const double chance = model_->causes()[c].chance;
        log_prior += std::log(((h >> c) & 1U) != 0 ? chance : 1 - chance);
      }
      const auto own_ways = internal::own_ways(*model_, rivals_.size(), fits_[h]);
      astray.push_back(own_ways.chance);
      logs.push_back(fits_[h].log_evidence + own_ways.log_gain + log_prior);
    }
    std::vector<Doses> doses;
    for (const Rival& rival : rivals_) doses.push_back(doses_of(rival));
    const auto by_the_hours = internal::chance_to_act(observed_, doses, model_->causes());
    for (std::size_t c = 0; c < model_->causes().size(); ++c) {
      shown_.push_back(shown(c, by_the_hours[c]));
      if (shown_[c]) believe_the_jars(c, by_the_hours[c], logs);
    }
    const double all = ln_sum(logs, [](Hypothesis) { return true; });
    out_.own_way.assign(rivals_.size(), 0);
    for (Hypothesis h = 0; h < count_; ++h) {
      Fitted fitted;
      fitted.acting = h;
      fitted.weight = std::exp(logs[h] - all);
      fitted.log_evidence = fits_[h].log_evidence;
      for (std::size_t d = 0; d < rivals_.size(); ++d)
        out_.own_way[d] += fitted.weight * astray[h][d];
      fitted.best = plain(fits_[h].z);
      const Eigen::MatrixXd& c = fits_[h].covariance;
      fitted.covariance.assign(c.data(), c.data() + c.size());
      out_.hypotheses.push_back(std::move(fitted));
    }
    std::stable_sort(out_.hypotheses.begin(),
                     out_.hypotheses.end(),
                     [](const Fitted& a, const Fitted& b) { return a.weight > b.weight; });
    for (std::size_t c = 0; c < model_->causes().size(); ++c) {
      CauseFound found;
      found.prior = model_->causes()[c];
      found.weight = 0;
      for (const Fitted& one : out_.hypotheses)
        if (((one.acting >> c) & 1U) != 0) found.weight += one.weight;
      out_.causes.push_back(found);
    }
  }

  /// ln of the sum of those hypotheses' weights.
  template <class Which>
  [[nodiscard]] double ln_sum(const std::vector<double>& logs, const Which& which) const {
    double most = -1e300;
    for (Hypothesis h = 0; h < count_; ++h)
      if (which(h)) most = std::max(most, logs[h]);
    double sum = 0;
    for (Hypothesis h = 0; h < count_; ++h)
      if (which(h)) sum += std::exp(logs[h] - most);
    return most + std::log(sum);
  }

  /// A cause that the jars show has the weight at least that their hours alone give it, the
  /// hypotheses in which it acts as they were among each other: a curve that no hypothesis has
  /// speaks against none.
  void believe_the_jars(std::size_t c, double least_weight, std::vector<double>& logs) const {
    const auto acts = [c](Hypothesis h) { return ((h >> c) & 1U) != 0; };
    const auto is_idle = [&](Hypothesis h) { return !acts(h); };
    const double odds = least_weight / std::max(1e-12, 1 - least_weight);
    const double least = ln_sum(logs, is_idle) + std::log(odds);
    const double more = std::max(0.0, least - ln_sum(logs, acts));
    for (Hypothesis h = 0; h < count_; ++h)
      if (acts(h)) logs[h] += more;
  }

  /// The dough the hours are told of: the base bake as it is, else the one that holds most alcohol.
  [[nodiscard]] std::size_t base_dough() const {
    for (std::size_t d = 0; d < test_.doughs.size(); ++d)
      if (test_.doughs[d].steps.empty()) return d;
    std::size_t most = 0;
    for (std::size_t d = 1; d < rivals_.size(); ++d)
      if (doses_of(rivals_[d])[0] > doses_of(rivals_[most])[0]) most = d;
    return most;
  }

  /// Draws of the unknowns from the weighted hypotheses, each around its best.
  std::vector<std::pair<Hypothesis, std::vector<double>>> draws() const {
    numerics::Random random(options_.seed, 11);
    std::vector<std::pair<Hypothesis, std::vector<double>>> out;
    for (int i = 0; i < options_.draws; ++i) {
      double u = random.uniform();
      const Fitted* chosen = &out_.hypotheses.front();
      for (const Fitted& one : out_.hypotheses) {
        chosen = &one;
        u -= one.weight;
        if (u <= 0) break;
      }
      const Fit& fit = fits_[chosen->acting];
      Eigen::VectorXd normal(fit.z.size());
      for (double& x : normal) x = random.normal();
      const Eigen::MatrixXd factor = fit.covariance.llt().matrixL();
      out.emplace_back(chosen->acting, plain(fit.z + factor * normal));
    }
    return out;
  }

  /// The time to the target of the base dough with every subset of what acts, shared out by Shapley
  /// values, draw by draw.
  Result<bool> find_hours() {
    const std::size_t n = model_->causes().size();
    const auto drawn = draws();
    std::vector<Hypothesis> subsets;
    std::vector<std::vector<double>> z;
    for (const auto& [acting, at] : drawn) {
      for (Hypothesis mask = 0; mask < count_; ++mask) {
        subsets.push_back(acting & mask);
        z.push_back(at);
      }
    }
    constexpr Time horizon = 72.0 * hour;
    const auto hours = model_->hours_to(base_dough(), 0, test_.base.target, horizon, subsets, z);
    if (!hours) return failure(hours);
    std::vector<std::vector<double>> shares(n);
    std::size_t never = 0;
    for (std::size_t d = 0; d < drawn.size(); ++d) {
      const auto value = [&](unsigned mask) { return (*hours)[d * count_ + mask]; };
      const auto parts = numerics::shapley(n, value);
      for (std::size_t c = 0; c < n; ++c) shares[c].push_back(parts[c]);
      if (value(count_ - 1) >= horizon.in(hour)) ++never;
    }
    for (std::size_t c = 0; c < n; ++c) {
      CauseFound& found = out_.causes[c];
      found.hours = quantile_of(shares[c], 0.5);
      found.hours_low = quantile_of(shares[c], low_share);
      found.hours_high = quantile_of(shares[c], high_share);
      found.at_least = 2 * never > drawn.size();
      find_half_speed(c);
    }
    tell(0.95);
    return true;
  }

  /// If it acts: over the hypotheses in which it does, by their weights.
  void find_half_speed(std::size_t c) {
    numerics::Random random(options_.seed, 12);
    const auto at = static_cast<Eigen::Index>(model_->index_of_cause(c));
    std::vector<double> values;
    double whole = 0;
    for (const Fitted& one : out_.hypotheses)
      if (((one.acting >> c) & 1U) != 0) whole += one.weight;
    constexpr int draws = 2000;
    for (const Fitted& one : out_.hypotheses) {
      if (((one.acting >> c) & 1U) == 0 || whole <= 0) continue;
      const Fit& fit = fits_[one.acting];
      const double sd = std::hypot(std::sqrt(fit.covariance(at, at)),
                                   doubt_of_the_law / model_->causes()[c].doubt);
      const auto share = static_cast<int>(std::lround(draws * one.weight / whole));
      for (int i = 0; i < share; ++i) {
        std::vector<double> z = plain(fit.z);
        z[static_cast<std::size_t>(at)] += sd * random.normal();
        values.push_back(model_->half_speed_dose(c, z));
      }
    }
    if (values.empty()) return;
    CauseFound& found = out_.causes[c];
    found.half_speed_dose = quantile_of(values, 0.5);
    found.half_low = quantile_of(values, low_share);
    found.half_high = quantile_of(values, high_share);
  }

  /// Whether the jars alone show a cause. One dough may be slow for a reason of its own: their
  /// hours speak for it with that in mind, or they go on showing it without any one of the doughs
  /// that hold it, where there are several.
  [[nodiscard]] bool shown(std::size_t c, double chance_by_the_hours) const {
    const auto& causes = out_.told_apart.causes;
    const auto of = static_cast<std::size_t>(causes[c]);
    std::vector<Doses> doses;
    double most = 0;
    for (const Rival& rival : rivals_) {
      doses.push_back(doses_of(rival));
      most = std::max(most, doses.back()[of]);
    }
    // Something else in the drink can only slow it: it must not speed a dough up for another's
    // sake.
    auto named = causes;
    if (causes[c] != Cause::other) std::erase(named, Cause::other);
    const double by_chance = std::max(internal::chance_by_chance(observed_, doses, causes)[c],
                                      internal::chance_by_chance(observed_, doses, named)[c]);
    std::set<std::size_t> holders;
    for (const Watched& jar : observed_)
      if (doses[jar.dough][of] > 0.5 * most) holders.insert(jar.dough);
    if (by_chance > shown_from) return false;
    if (chance_by_the_hours > options_.named || holders.size() < 2) return true;
    double without_one = 0;
    for (const std::size_t dough : holders) {
      auto others = observed_;
      std::erase_if(others, [&](const Watched& jar) { return jar.dough == dough; });
      without_one = std::max(without_one, internal::chance_by_chance(others, doses, named)[c]);
    }
    return without_one < still_shown_from;
  }

  /// A cause is named, or cleared, by these doughs and not by what was believed before: it must be
  /// one that they can tell from the others and that the jars alone show, and cleared it is only
  /// where they speak against it and do not show it by themselves.
  void decide() {
    for (std::size_t c = 0; c < out_.causes.size(); ++c) out_.causes[c].shown = shown_[c];
    for (CauseFound& found : out_.causes) {
      found.can_be_named = out_.told_apart.can_name(found.prior.cause);
      if (!found.can_be_named || out_.beyond) continue;
      const double odds = found.weight / (1 - found.weight);
      const double odds_before = found.prior.chance / (1 - found.prior.chance);
      if (found.weight > options_.named && found.shown) {
        found.finding = Finding::acts;
      } else if (found.weight < options_.cleared && !found.shown &&
                 odds < speaks_against * odds_before) {
        found.finding = Finding::does_not;
      }
    }
  }

  void say() {
    std::vector<Cause> acting;
    std::vector<Cause> open;
    for (CauseFound& found : out_.causes) {
      if (found.finding == Finding::acts) acting.push_back(found.prior.cause);
      if (found.finding == Finding::not_decided) open.push_back(found.prior.cause);
      found.words = words(found);
    }
    if (!acting.empty()) {
      out_.sentence = fmt::format("It is {}.", listed(acting));
      if (!open.empty()) out_.sentence += fmt::format(" Not decided: {}.", listed(open));
    } else if (!open.empty()) {
      out_.sentence = fmt::format("Not decided: {}.", listed(open));
    } else {
      out_.sentence = "None of these holds the dough back.";
    }
    if (std::any_of(out_.causes.begin(), out_.causes.end(), [](const CauseFound& found) {
          return !found.can_be_named;
        }))
      out_.sentence += " These doughs cannot tell.";
    say_what_fits_nothing();
  }

  void say_what_fits_nothing() {
    if (out_.beyond) {
      out_.odd.push_back(
          fmt::format("the jars stray {:.0f} % of the volume from any course that the model knows: "
                      "nothing is named by it. The comparison of the jars alone still holds",
                      100 * out_.shape));
    }
    for (std::size_t d = 0; d < out_.own_way.size(); ++d) {
      if (out_.own_way[d] < 0.5) continue;
      out_.odd.push_back(fmt::format(
          "{} went its own way, {:.0f} in 100: nothing that was asked about explains how "
          "fast it rose. Was it weighed, warmed and labelled as the others?",
          rivals_[d].name,
          std::min(99.0, 100 * out_.own_way[d])));
    }
  }

  /// Why these doughs say nothing of a cause.
  [[nodiscard]] std::string cannot_tell(Cause cause) const {
    for (const CauseTold& told : out_.told_apart.told) {
      if (told.cause != cause) continue;
      if (told.telling == Telling::not_varied)
        return "every dough holds the same of it: these doughs say nothing about it";
      if (!told.with.empty())
        return fmt::format("moves with {} in these doughs", listed(told.with));
    }
    return "the jars do not say";
  }

  [[nodiscard]] std::string words(const CauseFound& found) const {
    const std::string_view unit = testbakes::unit(found.prior.cause);
    switch (found.finding) {
      case Finding::acts:
        return fmt::format("half speed at {} {} (8 of 10 such cultures: {} to {})",
                           two_figures(found.half_speed_dose),
                           unit,
                           two_figures(found.half_low),
                           two_figures(found.half_high));
      case Finding::does_not:
        return fmt::format(
            "no sign of it up to {} {}", two_figures(found.prior.largest_dose), unit);
      case Finding::not_decided:
        break;
    }
    if (!found.can_be_named) return cannot_tell(found.prior.cause);
    return found.weight > options_.named && !found.shown
               ? "the model's curves speak for it, how fast the doughs rose does not"
               : "the jars do not say";
  }

  const TestBake& test_;
  const std::vector<Rival>& rivals_;
  std::vector<Watched> observed_;  // while rising
  const VerdictOptions& options_;
  std::unique_ptr<JointModel> model_;
  Hypothesis count_ = 1;
  std::vector<bool> suspect_;
  Fit full_;
  std::vector<Fit> fits_;
  std::vector<bool> shown_;  // of each cause, by the jars alone
  Verdict out_;
};

}  // namespace

Result<Verdict> judge(const TestBake& test,
                      const std::vector<Rival>& rivals,
                      const std::vector<Watched>& observed,
                      const VerdictOptions& options) {
  return Judging(test, rivals, observed, options).go();
}

}  // namespace barm::testbakes
