#include "estimation/lessons.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "estimation/internal/doubt.h"

namespace barm::estimation {

namespace {

using kinetics::Parameter;

constexpr double a_little = 0.8;
constexpr double about_typical = 0.06;  // in ln

// What more of it means.
struct Topical {
  const char* subject;
  const char* more;
  const char* less;
};

Topical saying(Topic topic) {
  switch (topic) {
    case Topic::speed:
      return {"the yeast grows", "faster", "slower"};
    case Topic::waking:
      return {"it takes", "longer to wake up", "less time to wake up"};
    case Topic::alcohol:
      return {"it copes with", "more alcohol", "less alcohol"};
    case Topic::salt:
      return {"it copes with", "more salt", "less salt"};
    case Topic::gas_held:
      return {"it holds", "more gas", "less gas"};
    case Topic::sourness:
      return {"it sours", "faster", "slower"};
    case Topic::warmth:
      return {"alcohol slows it", "more when warm", "less when warm"};
  }
  return {"", "", ""};
}

std::string unit_value(Topic topic, double value) {
  if (topic == Topic::alcohol || topic == Topic::salt)
    return fmt::format("half speed at {:.0f} g/L", value);
  return "";
}

std::string in_words(const Lesson& lesson, double book, double nothing) {
  const Topical say = saying(lesson.topic);
  if (lesson.left > nothing) return fmt::format("nothing yet about {}", name(lesson.topic));
  const double by = std::log(lesson.factor);
  std::string text;
  if (std::abs(by) < about_typical) {
    text = fmt::format("{} about as in a typical starter", say.subject);
  } else {
    const double percent = 100 * std::abs(std::expm1(by));
    text = fmt::format("{} {:.0f} % {}",
                       say.subject,
                       percent < 20 ? percent : 5 * std::round(percent / 5),
                       by > 0 ? say.more : say.less);
  }
  const std::string value = unit_value(lesson.topic, lesson.factor * book);
  if (!value.empty())
    text += fmt::format(": {} ({:.0f} to {:.0f})", value, lesson.low * book, lesson.high * book);
  if (lesson.left > a_little) text += ", a hint so far";
  return text;
}

}  // namespace

std::string_view name(Topic topic) {
  switch (topic) {
    case Topic::speed:
      return "speed";
    case Topic::waking:
      return "waking up";
    case Topic::alcohol:
      return "alcohol";
    case Topic::salt:
      return "salt";
    case Topic::gas_held:
      return "gas held";
    case Topic::sourness:
      return "sourness";
    case Topic::warmth:
      return "warmth";
  }
  return "";
}

Parameter parameter_of(Topic topic, bool bakers_yeast) {
  switch (topic) {
    case Topic::speed:
      return bakers_yeast ? Parameter::bakers_growth : Parameter::wild_growth;
    case Topic::waking:
      return bakers_yeast ? Parameter::bakers_lag : Parameter::lag_scale;
    case Topic::alcohol:
      return bakers_yeast ? Parameter::bakers_ethanol_half : Parameter::wild_ethanol_half;
    case Topic::salt:
      return bakers_yeast ? Parameter::bakers_salt_half : Parameter::wild_salt_half;
    case Topic::gas_held:
      return Parameter::rise_limit;
    case Topic::sourness:
      return Parameter::bacteria_growth;
    case Topic::warmth:
      return Parameter::warm_toxicity;
  }
  return Parameter::wild_growth;
}

std::vector<Lesson> lessons(const DoughToRead& batch, const Learned& learned) {
  std::vector<Lesson> out;
  const bool bakers = batch.dough.bakers_yeast > 0;
  // Of so many draws a share of doubt is known to 1/sqrt(2 n): less than twice that is no news.
  const double nothing =
      std::min(internal::nothing_yet, 1 - 2 / std::sqrt(2 * std::max(10.0, learned.effective)));
  const double ethanol = batch.dough.ethanol / batch.dough.water_phase;
  for (const Topic topic : {Topic::speed,
                            Topic::waking,
                            Topic::alcohol,
                            Topic::salt,
                            Topic::gas_held,
                            Topic::sourness,
                            Topic::warmth}) {
    if ((topic == Topic::alcohol || topic == Topic::warmth) && ethanol < 3) continue;
    const Parameter parameter = parameter_of(topic, bakers);
    const auto found = std::find(batch.parameters.begin(), batch.parameters.end(), parameter);
    if (found == batch.parameters.end()) continue;
    const Taught& taught =
        learned.parameters[static_cast<std::size_t>(found - batch.parameters.begin())];
    const auto index = static_cast<std::size_t>(parameter);
    const double middle = batch.ln_mean[index] + taught.shift;
    Lesson lesson;
    lesson.topic = topic;
    lesson.left = taught.before > 0 ? taught.after / taught.before : 1;
    lesson.factor = std::exp(middle);
    lesson.low = std::exp(middle - internal::four_of_five * taught.after);
    lesson.high = std::exp(middle + internal::four_of_five * taught.after);
    lesson.tells = lesson.left <= nothing;
    lesson.words = in_words(lesson, kinetics::priors()[index].book, nothing);
    out.push_back(std::move(lesson));
  }
  return out;
}

}  // namespace barm::estimation
