#include "cli/bake/aim_option.h"

#include "cli/answer.h"
#include "formula/amount.h"

namespace barm::cli {

std::optional<Error> aim_at(const std::string& target,
                            formula::Bake& bake,
                            forecast::Options& options) {
  if (target.empty()) return std::nullopt;
  bake.target_follows = target == "after";
  if (bake.target_follows) return std::nullopt;
  const auto rise = formula::parse_rise(target);
  if (rise && *rise > 1 && *rise <= 8) {
    options.target = *rise;
    for (formula::Stage& stage : bake.stages) {
      if (stage.step == formula::Step::bulk) stage.until = *rise;
    }
    return std::nullopt;
  }
  return Error{
      ErrorCode::bad_input,
      "--target",
      "\"after\" for what comes after, or a ratio above 1 and to 8 such as doubled or 1.8"};
}

}  // namespace barm::cli
