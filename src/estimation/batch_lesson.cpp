// What one batch says of its culture, whatever was believed before.
#include <Eigen/Dense>
#include <algorithm>

#include "estimation/culture.h"
#include "estimation/internal/doubt.h"
#include "estimation/internal/world.h"
#include "numerics/symmetric.h"

namespace barm::estimation {

namespace {

// Sizes are known, but matrices of fixed size take a minute to compile and are no faster here.
using Eigen::MatrixXd;
using Eigen::VectorXd;

int whole(std::size_t i) { return static_cast<int>(i); }

// The culture's parameters as rows of the map from unknowns, x = F z.
MatrixXd rows_of(const DoughToRead& batch) {
  const std::size_t n = batch.parameters.size();
  MatrixXd f = MatrixXd::Zero(whole(culture_size), whole(batch.dimension()));
  for (std::size_t c = 0; c < culture_size; ++c) {
    const auto found =
        std::find(batch.parameters.begin(), batch.parameters.end(), culture_parameters[c]);
    if (found == batch.parameters.end()) continue;
    const auto p = static_cast<std::size_t>(found - batch.parameters.begin());
    for (std::size_t j = 0; j <= p; ++j) f(whole(c), whole(j)) = batch.factor[p * n + j];
  }
  return f;
}

}  // namespace

BatchLesson lesson_of(const DoughToRead& batch,
                      const Learned& learned,
                      const std::string& name,
                      double day) {
  BatchLesson lesson;
  lesson.batch = name;
  lesson.day = day;
  if (batch.levain_age) lesson.levain_age_h = batch.levain_age->in(hour);
  const MatrixXd f = rows_of(batch);
  // Slope and curvature from one source, the most probable dough and what lies around it (Laplace):
  // a slope of chance draws with no curvature beside it would be learned anew from every batch.
  const auto d = whole(learned.dimension);
  const Eigen::Map<const MatrixXd> curvature(learned.curvature.data(), d, d);
  const MatrixXd after = f * (MatrixXd::Identity(d, d) + curvature).inverse() * f.transpose();
  const MatrixXd before = f * f.transpose();
  const VectorXd mean = f * Eigen::Map<const VectorXd>(learned.best.data(), d);
  // The likelihood is what is left of the posterior without the prior, in the parameters that this
  // dough has at all.
  std::vector<int> there;
  for (int c = 0; c < whole(culture_size); ++c) {
    if (before(c, c) > 0) there.push_back(c);
  }
  const auto part = [&](const MatrixXd& m) {
    MatrixXd out(whole(there.size()), whole(there.size()));
    for (std::size_t i = 0; i < there.size(); ++i) {
      for (std::size_t j = 0; j < there.size(); ++j)
        out(whole(i), whole(j)) = m(there[i], there[j]);
    }
    return out;
  };
  VectorXd own(whole(there.size()));
  VectorXd start(whole(there.size()));
  for (std::size_t i = 0; i < there.size(); ++i) {
    own(whole(i)) = mean(there[i]);
    start(whole(i)) = batch.ln_mean[static_cast<std::size_t>(
        culture_parameters[static_cast<std::size_t>(there[i])])];
  }
  // In coordinates in which the belief before is a unit sphere, along the axes of what is left of
  // it: a of a variance left says  1/a - 1  of sharpness and  own/a  of push. Where nothing was
  // learned both are dropped.
  const MatrixXd lower = part(before).llt().matrixL();
  const auto forwards = lower.triangularView<Eigen::Lower>();
  const MatrixXd half = forwards.solve(part(after));
  const MatrixXd left = forwards.solve(half.transpose().eval());
  const numerics::Axes axes = numerics::axes_of(0.5 * (left + left.transpose()));
  const VectorXd along = axes.directions.transpose() * forwards.solve(own).eval();
  VectorXd sharp = VectorXd::Zero(own.size());
  VectorXd pull = VectorXd::Zero(own.size());
  for (int i = 0; i < whole(there.size()); ++i) {
    const double a = axes.lengths(i);
    if (a > internal::nothing_yet * internal::nothing_yet) continue;
    sharp(i) = 1 / a - 1;
    pull(i) = along(i) / a;
  }
  const MatrixXd back = lower.transpose().triangularView<Eigen::Upper>().solve(axes.directions);
  const MatrixXd sharpness = back * sharp.asDiagonal() * back.transpose();
  // x = start + own, and the push is told of x:
  const VectorXd push = back * pull + sharpness * start;
  for (std::size_t i = 0; i < there.size(); ++i) {
    lesson.push[static_cast<std::size_t>(there[i])] = push(whole(i));
    for (std::size_t j = 0; j < there.size(); ++j) {
      lesson.sharpness[static_cast<std::size_t>(there[i]) * culture_size +
                       static_cast<std::size_t>(there[j])] = sharpness(whole(i), whole(j));
    }
  }
  return lesson;
}

}  // namespace barm::estimation
