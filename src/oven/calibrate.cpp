#include "oven/calibrate.h"

#include <fmt/format.h>

#include <Eigen/Core>
#include <cmath>

#include "numerics/symmetric.h"

namespace barm::oven {

namespace {

using Vector = Eigen::VectorXd;
using Matrix = Eigen::MatrixXd;

constexpr int learned = 6;            // the pump is no matter of heat
constexpr double core_doubt = 2.0;    // K: where the probe sits, and what one coordinate leaves out
constexpr double loss_doubt = 0.005;  // of the dough: scales, and when it was weighed
constexpr double one_every = 300;     // s between readings that count as one each

constexpr int most_weighings = 8;  // of how far the measured bakes are to be believed

// What a bake's own readings and weighing are taken to be off.
struct Believed {
  double core = core_doubt;
  double loss = loss_doubt;
};

Luck luck_from(const Vector& z) { return {z[0], z[1], z[2], z[3], 0, z[4], z[5]}; }

double core_at(const Baked& baked, double seconds) {
  const auto& course = baked.course;
  for (std::size_t i = 1; i < course.size(); ++i) {
    if (seconds > course[i].seconds) continue;
    const double part =
        (seconds - course[i - 1].seconds) / (course[i].seconds - course[i - 1].seconds);
    return course[i - 1].core + part * (course[i].core - course[i - 1].core);
  }
  return course.back().core;
}

double readings_off(const Measured& bake, const Baked& baked) {
  double sum = 0;
  for (const heat::ProbeReading& reading : bake.core)
    sum += std::pow(core_at(baked, reading.at.si()) - reading.temperature.celsius(), 2);
  return std::sqrt(sum / static_cast<double>(bake.core.size()));
}

// Of how many readings by themselves those of a core tell, which hang together.
double counted(const Measured& bake) {
  const double span = (bake.core.back().at - bake.core.front().at).si();
  return std::min(static_cast<double>(bake.core.size()), span / one_every);
}

// Everything that is to be small, in standard deviations: readings, weighings, the prior.
Vector residuals(const std::vector<Measured>& bakes,
                 const std::vector<Believed>& believed,
                 const Vector& z) {
  std::vector<double> out;
  for (std::size_t b = 0; b < bakes.size(); ++b) {
    const Measured& one = bakes[b];
    const Baked baked = bake(one.loaf, one.oven, one.lasts, luck_from(z));
    if (one.core.size() > 1) {
      const double counts = counted(one) / static_cast<double>(one.core.size());
      for (const heat::ProbeReading& reading : one.core) {
        out.push_back((core_at(baked, reading.at.si()) - reading.temperature.celsius()) /
                      believed[b].core * std::sqrt(counts));
      }
    }
    if (one.loss) out.push_back((baked.course.back().loss - *one.loss) / believed[b].loss);
  }
  for (int i = 0; i < learned; ++i) out.push_back(z[i]);
  return Eigen::Map<Vector>(out.data(), static_cast<long>(out.size()));
}

Matrix slopes(const std::vector<Measured>& bakes,
              const std::vector<Believed>& believed,
              const Vector& z,
              const Vector& here) {
  constexpr double step = 0.05;
  Matrix out(here.size(), learned);
  for (int i = 0; i < learned; ++i) {
    Vector up = z;
    up[i] += step;
    out.col(i) = (residuals(bakes, believed, up) - here) / step;
  }
  return out;
}

struct Mode {
  Vector z = Vector::Zero(learned);
  Matrix slope;
};

// By Gauss and Newton from where it was, with halved steps.
Mode mode_of(const std::vector<Measured>& bakes,
             const std::vector<Believed>& believed,
             const Vector& from) {
  Mode mode{from, {}};
  Vector here = residuals(bakes, believed, mode.z);
  for (int round = 0; round < 20; ++round) {
    mode.slope = slopes(bakes, believed, mode.z, here);
    const Vector step = -(numerics::pseudo_inverse(mode.slope).inverse * here);
    double share = 1;
    Vector next = mode.z + step;
    Vector there = residuals(bakes, believed, next);
    while (there.squaredNorm() > here.squaredNorm() && share > 0.02) {
      share /= 2;
      next = mode.z + share * step;
      there = residuals(bakes, believed, next);
    }
    if (there.squaredNorm() > here.squaredNorm()) break;
    const double moved = (next - mode.z).norm();
    mode.z = next;
    here = there;
    if (moved < 1e-3) break;
  }
  return mode;
}

// What fits badly is believed no further than it fits: what is off beyond a probe's own doubt is
// off in all its readings alike, and does not go with their number,
//
//     s^2 = s_T^2 + n (off^2 - s_T^2)
std::vector<Believed> believed_by(const std::vector<Measured>& bakes, const Vector& z) {
  std::vector<Believed> out(bakes.size());
  for (std::size_t b = 0; b < bakes.size(); ++b) {
    const Measured& one = bakes[b];
    const Baked baked = bake(one.loaf, one.oven, one.lasts, luck_from(z));
    if (one.core.size() > 1) {
      const double own = core_doubt * core_doubt;
      const double more = std::max(0.0, std::pow(readings_off(one, baked), 2) - own);
      out[b].core = std::sqrt(own + counted(one) * more);
    }
    if (one.loss)
      out[b].loss = std::max(loss_doubt, std::abs(baked.course.back().loss - *one.loss));
  }
  return out;
}

bool the_same(const std::vector<Believed>& a, const std::vector<Believed>& b) {
  constexpr double near = 0.03;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (std::abs(a[i].core - b[i].core) > near * a[i].core) return false;
    if (std::abs(a[i].loss - b[i].loss) > near * a[i].loss) return false;
  }
  return true;
}

Result<bool> check_measured(const std::vector<Measured>& bakes) {
  bool any = false;
  for (const Measured& one : bakes) {
    auto fits = check(one.loaf, one.oven, one.lasts);
    if (!fits) return fits;
    any = any || one.core.size() > 1 || one.loss;
    if (one.loss && !(*one.loss >= 0.01 && *one.loss <= 0.4))
      return failure(
          ErrorCode::bad_input,
          "baked",
          fmt::format("a loaf that is {:.1f} % lighter is none: weigh dough and loaf, 1 to "
                      "40 % is lost",
                      100 * *one.loss));
  }
  if (any) return true;
  return failure(
      ErrorCode::bad_input, "", "nothing was measured: a probe's file, or a weighed loaf");
}

}  // namespace

Result<Learned> learn(const std::vector<Measured>& bakes) {
  if (const auto fine = check_measured(bakes); !fine) return failure(fine);
  std::vector<Believed> believed(bakes.size());
  Mode mode = mode_of(bakes, believed, Vector::Zero(learned));
  for (int round = 0; round < most_weighings && mode.z.allFinite(); ++round) {
    const auto next = believed_by(bakes, mode.z);
    if (the_same(believed, next)) break;
    believed = next;
    mode = mode_of(bakes, believed, mode.z);
  }
  const Vector& z = mode.z;
  constexpr double most = 6;  // standard deviations: as an [oven] takes them
  if (!z.allFinite() || z.cwiseAbs().maxCoeff() >= most)
    return failure(
        ErrorCode::no_convergence, "", "no oven of ours bakes like that: look at the file");
  const Matrix solving = numerics::pseudo_inverse(mode.slope).inverse;
  const Matrix spread = solving * solving.transpose();
  Learned out;
  out.known.middle = luck_from(z);
  out.known.doubt = {std::sqrt(spread(0, 0)),
                     std::sqrt(spread(1, 1)),
                     std::sqrt(spread(2, 2)),
                     std::sqrt(spread(3, 3)),
                     1,
                     std::sqrt(spread(4, 4)),
                     std::sqrt(spread(5, 5))};
  for (const Measured& one : bakes) {
    const Baked baked = bake(one.loaf, one.oven, one.lasts, out.known.middle);
    if (one.core.size() > 1)
      out.core_off = std::max(out.core_off.value_or(0), readings_off(one, baked));
    if (one.loss) out.loss_off = *one.loss - baked.course.back().loss;
  }
  return out;
}

}  // namespace barm::oven
