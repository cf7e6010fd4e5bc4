#include "estimation/culture.h"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "estimation/internal/world.h"

namespace barm::estimation {

namespace {

using kinetics::Parameter;
using Vector = Eigen::Matrix<double, static_cast<int>(culture_size), 1>;
using Square =
    Eigen::Matrix<double, static_cast<int>(culture_size), static_cast<int>(culture_size)>;

// How batches of one culture scatter, as a share of what cultures differ by, in sd. The starter's
// age and feeding decide most of the lag, the flour of the day most of the gas held; how much
// alcohol a yeast bears is its own. Guesses until batches tell.
double share_between(Parameter parameter) {
  switch (parameter) {
    case Parameter::lag_scale:
      return 0.8;
    case Parameter::rise_limit:
      return 0.6;
    case Parameter::wild_growth:
    case Parameter::bacteria_growth:
    case Parameter::bacteria_upkeep:
      return 0.5;
    default:
      return 0.25;
  }
}

constexpr double drift_a_day = 0.012;  // of the book's sd, per root of a day: 0.23 in a year
constexpr std::size_t enough_batches = 5;
// What the scatter may be of what is supposed, tried when there are enough batches.
constexpr double scatters[] = {0.4, 0.57, 0.8, 1.13, 1.6, 2.26};
constexpr double doubt_of_scatter = 0.5;  // in ln
constexpr double four_of_five = 1.2816;

int index(std::size_t i) { return static_cast<int>(i); }

// What a bakery starts from, in the culture's parameters: mean, covariance, sd.
struct Start {
  Vector mean, sd;
  Square covariance;
};

Start start_of() {
  const Belief day_one = day_one_belief();
  Start start;
  for (std::size_t i = 0; i < culture_size; ++i) {
    const auto row = static_cast<std::size_t>(culture_parameters[i]);
    start.mean(index(i)) = day_one.mean[row];
    for (std::size_t j = 0; j < culture_size; ++j) {
      const auto column = static_cast<std::size_t>(culture_parameters[j]);
      start.covariance(index(i), index(j)) =
          day_one.covariance[row * kinetics::parameter_count + column];
    }
    start.sd(index(i)) = std::sqrt(start.covariance(index(i), index(i)));
  }
  return start;
}

// Day one's covariance parted into what cultures differ by and what batches of one culture do:
//     C = L L',   Omega = L diag(share^2) L',   the culture's own  L diag(1 - share^2) L'
struct Parted {
  Square own, between;
};

Parted parted(const Start& start, double scatter) {
  Vector share;
  for (std::size_t i = 0; i < culture_size; ++i)
    share(index(i)) = std::min(0.95, scatter * share_between(culture_parameters[i]));
  const Square lower = Square(start.covariance.llt().matrixL());
  const Vector squared = share.array().square().matrix();
  const Vector rest = (1 - share.array().square()).matrix();
  return {lower * rest.asDiagonal() * lower.transpose(),
          lower * squared.asDiagonal() * lower.transpose()};
}

Vector push_of(const BatchLesson& lesson) { return Eigen::Map<const Vector>(lesson.push.data()); }

Square sharpness_of(const BatchLesson& lesson) {
  return Eigen::Map<const Square>(lesson.sharpness.data());
}

struct State {
  Vector mean = Vector::Zero();
  Square covariance = Square::Zero();
  double ln_evidence = 0;
};

// What a batch says of the culture it came from: the scatter between batches blunts it.
//     sharpness (1 + Omega sharpness)^-1,  (1 + sharpness Omega)^-1 push
void take_in(State& state, const BatchLesson& lesson, const Square& omega) {
  const Square sharp = sharpness_of(lesson);
  const Square blunt = (Square::Identity() + sharp * omega).inverse();
  const Square p = blunt * sharp;
  const Vector h = blunt * push_of(lesson);
  // The batch's own evidence under this scatter, its part that the culture's state does not change:
  // of  int exp(h'x - x'Px/2) N(x; m, C + Omega) dx.
  const Square spread = state.covariance + omega;
  const Square gain = (Square::Identity() + spread * sharp).inverse();
  const Vector pulled = gain * (state.mean + spread * push_of(lesson));
  state.ln_evidence += 0.5 * std::log(std::max(1e-300, gain.determinant())) +
                       0.5 * push_of(lesson).dot(pulled + gain * state.mean) -
                       0.5 * state.mean.dot(sharp * (gain * state.mean));
  const Square keep = (Square::Identity() + state.covariance * p).inverse();
  state.mean = keep * (state.mean + state.covariance * h);
  state.covariance = keep * state.covariance;
  state.covariance = 0.5 * (state.covariance + state.covariance.transpose()).eval();
}

State run(const std::vector<BatchLesson>& lessons, double scatter) {
  const Start start = start_of();
  const Parted parts = parted(start, scatter);
  State state;
  state.mean = start.mean;
  state.covariance = parts.own;
  double day = lessons.empty() ? 0 : lessons.front().day;
  for (const BatchLesson& lesson : lessons) {
    const Vector wander = drift_a_day * start.sd * std::sqrt(std::max(0.0, lesson.day - day));
    state.covariance += Square(wander.array().square().matrix().asDiagonal());
    day = lesson.day;
    take_in(state, lesson, parts.between);
  }
  return state;
}

// In order of their days, so that the order of learning plays no part.
std::vector<BatchLesson> in_order(std::vector<BatchLesson> lessons) {
  std::sort(lessons.begin(), lessons.end(), [](const BatchLesson& a, const BatchLesson& b) {
    return a.day != b.day ? a.day < b.day : a.batch < b.batch;
  });
  return lessons;
}

double likely_scatter(const std::vector<BatchLesson>& lessons) {
  if (lessons.size() < enough_batches) return 1;
  double sum = 0;
  double mean = 0;
  double most = -1e300;
  std::vector<double> ln;
  for (const double scatter : scatters) {
    ln.push_back(run(lessons, scatter).ln_evidence -
                 0.5 * std::pow(std::log(scatter) / doubt_of_scatter, 2));
    most = std::max(most, ln.back());
  }
  for (std::size_t i = 0; i < ln.size(); ++i) {
    const double w = std::exp(ln[i] - most);
    sum += w;
    mean += w * std::log(scatters[i]);
  }
  return std::exp(mean / sum);
}

// The culture's parameters as rows of the map from unknowns, x = F z.
Eigen::MatrixXd rows_of(const Batch& batch) {
  const std::size_t n = batch.parameters.size();
  Eigen::MatrixXd f = Eigen::MatrixXd::Zero(index(culture_size), index(batch.dimension()));
  for (std::size_t c = 0; c < culture_size; ++c) {
    const auto found =
        std::find(batch.parameters.begin(), batch.parameters.end(), culture_parameters[c]);
    if (found == batch.parameters.end()) continue;
    const auto p = static_cast<std::size_t>(found - batch.parameters.begin());
    for (std::size_t j = 0; j <= p; ++j) f(index(c), index(j)) = batch.factor[p * n + j];
  }
  return f;
}

std::string words_of(Parameter parameter) {
  switch (parameter) {
    case Parameter::wild_growth:
      return "speed";
    case Parameter::wild_ethanol_half:
      return "alcohol";
    case Parameter::wild_salt_half:
      return "salt";
    case Parameter::wild_acetic_half:
      return "vinegar";
    case Parameter::wild_gas_of_upkeep:
      return "gas at rest";
    case Parameter::bacteria_growth:
      return "souring";
    case Parameter::bacteria_ethanol_half:
      return "souring in alcohol";
    case Parameter::bacteria_upkeep:
      return "acid at rest";
    case Parameter::warm_toxicity:
      return "heat";
    case Parameter::lag_scale:
      return "waking up";
    case Parameter::rise_limit:
      return "gas held";
    default:
      return "";
  }
}

struct Saying {
  const char* more;
  const char* less;
};

Saying saying(Parameter parameter) {
  switch (parameter) {
    case Parameter::wild_growth:
      return {"grows faster", "grows slower"};
    case Parameter::wild_ethanol_half:
      return {"bears more alcohol", "bears less alcohol"};
    case Parameter::wild_salt_half:
      return {"bears more salt", "bears less salt"};
    case Parameter::wild_acetic_half:
      return {"bears more vinegar", "bears less vinegar"};
    case Parameter::bacteria_growth:
      return {"sours faster", "sours slower"};
    case Parameter::warm_toxicity:
      return {"minds alcohol in the warmth more", "minds alcohol in the warmth less"};
    case Parameter::lag_scale:
      return {"takes longer to wake up", "wakes up sooner"};
    case Parameter::rise_limit:
      return {"holds more gas", "holds less gas"};
    default:
      return {"more than the book", "less than the book"};
  }
}

std::string unit_of(Parameter parameter, double factor, double low, double high) {
  const double book = kinetics::priors()[static_cast<std::size_t>(parameter)].book;
  if (parameter == Parameter::wild_ethanol_half || parameter == Parameter::wild_salt_half) {
    return fmt::format("; half speed at {:.0f} g/L ({:.0f} to {:.0f}; book {:.0f})",
                       factor * book,
                       low * book,
                       high * book,
                       book);
  }
  return "";
}

}  // namespace

BatchLesson lesson_of(const Batch& batch,
                      const Learned& learned,
                      const std::string& name,
                      double day) {
  BatchLesson lesson;
  lesson.batch = name;
  lesson.day = day;
  lesson.lag = batch.dough.lag;
  const Eigen::MatrixXd f = rows_of(batch);
  const auto d = index(learned.dimension);
  const Eigen::Map<const Eigen::MatrixXd> curvature(learned.curvature.data(), d, d);
  const Eigen::MatrixXd after =
      f * (Eigen::MatrixXd::Identity(d, d) + curvature).inverse() * f.transpose();
  const Eigen::MatrixXd before = f * f.transpose();
  Eigen::VectorXd mean = Eigen::VectorXd::Zero(index(culture_size));
  for (std::size_t i = 0; i < learned.draws(); ++i) {
    const Eigen::Map<const Eigen::VectorXd> z(learned.draw(i).data(), d);
    mean += learned.weight[i] * (f * z);
  }
  // The likelihood is what is left of the posterior without the prior, in the parameters that this
  // dough has at all.
  std::vector<int> there;
  for (int c = 0; c < index(culture_size); ++c) {
    if (before(c, c) > 0) there.push_back(c);
  }
  const auto part = [&](const Eigen::MatrixXd& m) {
    Eigen::MatrixXd out(index(there.size()), index(there.size()));
    for (std::size_t i = 0; i < there.size(); ++i) {
      for (std::size_t j = 0; j < there.size(); ++j)
        out(index(i), index(j)) = m(there[i], there[j]);
    }
    return out;
  };
  Eigen::VectorXd own(index(there.size()));
  Eigen::VectorXd start(index(there.size()));
  for (std::size_t i = 0; i < there.size(); ++i) {
    own(index(i)) = mean(there[i]);
    start(index(i)) = batch.ln_mean[static_cast<std::size_t>(
        culture_parameters[static_cast<std::size_t>(there[i])])];
  }
  const Eigen::MatrixXd sharp_after = part(after).inverse();
  const Eigen::MatrixXd sharp_before = part(before).inverse();
  Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> axes(sharp_after - sharp_before);
  const Eigen::VectorXd lengths = axes.eigenvalues().cwiseMax(0.0);
  const Eigen::MatrixXd sharpness =
      axes.eigenvectors() * lengths.asDiagonal() * axes.eigenvectors().transpose();
  // x = start + own is the posterior's middle:  (before^-1 + sharpness) own = sharpness (x* -
  // start).
  const Eigen::VectorXd push = (sharp_before + sharpness) * own + sharpness * start;
  for (std::size_t i = 0; i < there.size(); ++i) {
    lesson.push[static_cast<std::size_t>(there[i])] = push(index(i));
    for (std::size_t j = 0; j < there.size(); ++j) {
      lesson.sharpness[static_cast<std::size_t>(there[i]) * culture_size +
                       static_cast<std::size_t>(there[j])] = sharpness(index(i), index(j));
    }
  }
  return lesson;
}

namespace {

// A new law of the culture's parameters, and what follows for all that is tied to them:
//     m_b + G (m_a' - m_a),  C_bb - G (C_aa - C_aa') G',  C_ba' = G C_aa',  G = C_ba C_aa^-1
Belief carried(const Belief& day_one, const Vector& mean, const Square& covariance) {
  const int n = index(kinetics::parameter_count);
  using Rows = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  const Eigen::Map<const Rows> all(day_one.covariance.data(), n, n);
  Eigen::MatrixXd pick = Eigen::MatrixXd::Zero(index(culture_size), n);
  for (std::size_t i = 0; i < culture_size; ++i)
    pick(index(i), static_cast<int>(culture_parameters[i])) = 1;
  const Start start = start_of();
  const Eigen::MatrixXd gain = all * pick.transpose() * start.covariance.inverse();
  const Eigen::VectorXd moved =
      Eigen::Map<const Eigen::VectorXd>(day_one.mean.data(), n) + gain * (mean - start.mean);
  const Rows spread = all - gain * (start.covariance - covariance) * gain.transpose();
  return {{moved.data(), moved.data() + n}, {spread.data(), spread.data() + spread.size()}};
}

}  // namespace

CultureBelief belief_of(const Culture& culture, double day) {
  const std::vector<BatchLesson> lessons = in_order(culture.batches);
  const double scatter = likely_scatter(lessons);
  const State state = run(lessons, scatter);
  const Start start = start_of();
  const Parted parts = parted(start, scatter);
  // As the batches of one culture scatter, so their numbers go together as those of cultures do.
  Square next = state.covariance + parts.between;
  if (!lessons.empty() && day > lessons.back().day) {
    const Vector wander = drift_a_day * start.sd * std::sqrt(day - lessons.back().day);
    next += Square(wander.array().square().matrix().asDiagonal());
  }
  CultureBelief out;
  out.next = carried(day_one_belief(), state.mean, next);
  for (std::size_t i = 0; i < culture_size; ++i) {
    out.mean[i] = state.mean(index(i));
    out.sd[i] = std::sqrt(state.covariance(index(i), index(i)));
    out.before[i] = start.sd(index(i));
    out.between[i] = std::sqrt(parts.between(index(i), index(i)));
  }
  return out;
}

Belief next_batch(const Culture& culture, double day) { return belief_of(culture, day).next; }

void put(Culture& culture, BatchLesson lesson) {
  const auto same = std::find_if(culture.batches.begin(),
                                 culture.batches.end(),
                                 [&](const auto& b) { return b.batch == lesson.batch; });
  if (same != culture.batches.end())
    *same = std::move(lesson);
  else
    culture.batches.push_back(std::move(lesson));
}

Result<Culture> without(const Culture& culture, const std::string& batch) {
  Culture rest{culture.name, {}};
  std::string names;
  for (const BatchLesson& lesson : culture.batches) {
    names += (names.empty() ? "" : ", ") + lesson.batch;
    if (lesson.batch != batch) rest.batches.push_back(lesson);
  }
  if (rest.batches.size() < culture.batches.size()) return rest;
  return failure(
      ErrorCode::not_found,
      culture.name,
      fmt::format(
          "it remembers no batch '{}'. There are: {}", batch, names.empty() ? "none" : names));
}

Result<Culture> relearned(const Culture& culture,
                          const std::function<Result<BatchLesson>(const BatchLesson&)>& learn_one,
                          const std::function<void(double)>& progress,
                          const std::function<bool()>& cancelled) {
  Culture out{culture.name, {}};
  for (const BatchLesson& old : culture.batches) {
    if (cancelled && cancelled()) return failure(ErrorCode::cancelled, "", "stopped");
    auto lesson = learn_one(old);
    if (!lesson) return failure(lesson);
    out.batches.push_back(std::move(*lesson));
    if (progress)
      progress(static_cast<double>(out.batches.size()) /
               static_cast<double>(culture.batches.size()));
  }
  return out;
}

std::vector<Difference> differences(const Culture& culture) {
  const CultureBelief belief = belief_of(culture);
  std::vector<Difference> out;
  for (std::size_t i = 0; i < culture_size; ++i) {
    const Parameter parameter = culture_parameters[i];
    Difference d;
    d.about = words_of(parameter);
    d.factor = std::exp(belief.mean[i]);
    d.low = std::exp(belief.mean[i] - four_of_five * belief.sd[i]);
    d.high = std::exp(belief.mean[i] + four_of_five * belief.sd[i]);
    const double culture_before =
        std::sqrt(std::pow(belief.before[i], 2) - std::pow(belief.between[i], 2));
    d.left = belief.sd[i] / culture_before;
    d.between = belief.between[i];
    if (d.left > 0.93) {
      d.words = "nothing known yet";
    } else if (std::abs(belief.mean[i]) < 0.06) {
      d.words = "about as the book says" + unit_of(parameter, d.factor, d.low, d.high);
    } else {
      const Saying say = saying(parameter);
      d.words = fmt::format("{} by about {:.0f} %{}",
                            belief.mean[i] > 0 ? say.more : say.less,
                            100 * std::abs(std::expm1(belief.mean[i])),
                            unit_of(parameter, d.factor, d.low, d.high));
    }
    out.push_back(std::move(d));
  }
  return out;
}

}  // namespace barm::estimation
