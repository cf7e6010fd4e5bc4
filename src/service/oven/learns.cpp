#include "service/oven/internal/learns.h"

#include "heat/probe.h"
#include "service/house/equipment.h"
#include "service/oven/words.h"

namespace barm::service::internal {

namespace {

// The loaf was in the oven as long as somebody said, else as long as its probe was read.
Time lasted(const OvenRequest& request, const OvenAnswer& answer) {
  return answer.typed || request.probe.empty() ? answer.lasts : request.probe.back().at;
}

Result<std::vector<Lesson>> lessons_before(const OvenRequest& request) {
  if (!request.of) return std::vector<Lesson>();
  auto lessons = lessons_of(*request.of);
  if (lessons) std::erase_if(*lessons, [](const Lesson& one) { return !one.baked; });
  return lessons;
}

}  // namespace

Result<bool> learn_from(const OvenRequest& request, OvenAnswer& answer) {
  auto lessons = lessons_before(request);
  if (!lessons) return failure(lessons);
  const bool measured = !request.probe.empty() || request.weighed;
  if (measured) {
    const oven::Measured now{
        answer.loaf, answer.oven, lasted(request, answer), request.probe, request.weighed};
    lessons->push_back({request.measured_at, answer.name, now});
    if (lessons->size() > most_lessons) lessons->erase(lessons->begin());
    std::vector<oven::Measured> bakes;
    for (const Lesson& one : *lessons) bakes.push_back(*one.baked);
    const auto learned = oven::learn(bakes);
    if (!learned) return failure(learned);
    answer.learned = *learned;
    answer.known = learned->known;
    for (const std::string& note : {heat::gaps_in_words(request.probe), poor_fit(*learned)})
      if (!note.empty()) answer.notes.push_back(note);
  }
  if (!request.of) return true;
  const auto before = formula::parse_oven(request.of->toml, "toml");
  if (!before) return failure(before);
  formula::OvenTable can = formula::laid_over(request.said, *before);
  if (measured) can.learned = numbers_of(answer.known);
  answer.keep = request.of;
  answer.keep->toml = formula::lines_of(can);
  if (measured) answer.keep->measured = lessons_text(*lessons);
  return true;
}

}  // namespace barm::service::internal
