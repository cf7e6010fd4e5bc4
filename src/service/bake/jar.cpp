#include "service/bake/jar.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "service/internal/json_parts.h"
#include "service/internal/object.h"
#include "service/now.h"
#include "service/words.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

Result<formula::Jar> jar_of(const formula::Bake& bake, const JarRequest& request) {
  formula::Jar jar = bake.jar.value_or(formula::Jar{});
  if (request.diameter) jar.diameter = *request.diameter;
  if (request.height) jar.height = *request.height;
  if (request.temperature) jar.temperature = *request.temperature;
  if (request.dough) jar.dough = *request.dough;
  const auto between = [](auto value, auto least, auto most) {
    return value >= least && value <= most;
  };
  if (!between(jar.diameter, 15.0 * millimetre, 300.0 * millimetre))
    return failure(ErrorCode::bad_input, "--diameter", "a jar is 15 to 300 mm across inside");
  if (jar.height && !between(*jar.height, 20.0 * millimetre, 600.0 * millimetre))
    return failure(ErrorCode::bad_input, "--height", "a jar is 20 to 600 mm high inside");
  if (!between(jar.dough, 5.0 * gram, 3000.0 * gram))
    return failure(ErrorCode::bad_input, "--grams", "a sample is 5 g to 3 kg");
  return jar;
}

}  // namespace

Result<JarAnswer> jar(const formula::Bake& bake,
                      const JarRequest& request,
                      forecast::Options options) {
  auto jar = jar_of(bake, request);
  if (!jar) return failure(jar);
  formula::Bake aimed = bake;
  forecast::Made made;
  auto found = aim(aimed, options, made);
  if (!found) return failure(found);
  const double target = options.target > 0 ? options.target : aimed.target;
  const bool given = request.dough || (bake.jar && bake.jar->dough_given);
  const Mass suits = forecast::suitable_dough(*jar, target);
  if (!given) jar->dough = suits;
  auto marks = forecast::jar_marks(aimed, *jar, options);
  if (!marks) return failure(marks);
  JarAnswer answer{bake.name, clock_of(bake), bake.mixed_at, *marks, suits, std::move(*found), {}};
  answer.cautions.emplace_back(
      "Gas can burst a closed jar, and a fizzy drink or a lively dough gives it off fast: bakers "
      "lay the lid on loosely and open it away from the face.");
  answer.cautions.emplace_back(
      "Raw flour and dough can carry germs; the sample goes back into the dough or into the bin, "
      "as your own rules hold.");
  return answer;
}

json to_json(const JarAnswer& answer) {
  const forecast::JarMarks& marks = answer.marks;
  const auto mm = [&](double ratio) { return marks.at(ratio).in(millimetre); };
  return object({{"schema", "barm.jar/1"},
                 {"name", answer.name},
                 {"mixed_at", answer.mixed_at ? answer.mixed_at->text() : ""},
                 {"diameter_mm", marks.jar.diameter.in(millimetre)},
                 {"height_mm", marks.jar.height ? json(marks.jar.height->in(millimetre)) : json()},
                 {"dough_g", marks.jar.dough.in(gram)},
                 {"suitable_dough_g", answer.suits.in(gram)},
                 {"target_volume_ratio", marks.target},
                 {"start_mark_mm", marks.start.in(millimetre)},
                 {"ready_mark_mm",
                  object({{"p10", mm(marks.ratio.p10)},
                          {"p50", mm(marks.ratio.p50)},
                          {"p90", mm(marks.ratio.p90)}})},
                 {"ready_ratio", internal::range(marks.ratio)},
                 {"minutes_per_mm", internal::range(marks.minutes_per_mm)},
                 {"sample_at_ready_C", marks.sample_at_ready.celsius()},
                 {"bulk_at_ready_C", marks.bulk_at_ready.celsius()},
                 {"ready", internal::spread(marks.ready)},
                 {"chance_never", marks.never.value()},
                 {"ready_for", answer.ready_for ? to_json(*answer.ready_for) : json()},
                 {"cautions", answer.cautions},
                 {"draws", marks.draws}});
}

}  // namespace barm::service
