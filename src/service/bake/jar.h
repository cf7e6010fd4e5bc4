#pragma once
// The jar beside the bulk: where to draw the marks, and what they mean.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "forecast/jar.h"
#include "service/bake/aim.h"

namespace barm::service {

/// What is said beside the bake's [jar]; empty for what the file says.
struct JarRequest {
  std::optional<Length> diameter, height;
  std::optional<Mass> dough;
  std::optional<Temperature> temperature;
};

struct JarAnswer {
  std::string name;
  time::WallClock clock;  ///< from mixing on
  std::optional<time::LocalTime> mixed_at;
  forecast::JarMarks marks;
  Mass suits;  ///< how much dough suits this jar
  std::optional<forecast::ReadyFor> ready_for;
  std::vector<std::string> cautions;
};

/// Errors: those of forecast::jar_marks(); bad_input for a jar that cannot be.
[[nodiscard]] Result<JarAnswer> jar(const formula::Bake& bake,
                                    const JarRequest& request,
                                    forecast::Options options);

/// "barm.jar/1".
[[nodiscard]] nlohmann::json to_json(const JarAnswer& answer);

}  // namespace barm::service
