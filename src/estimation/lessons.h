#pragma once
// What readings taught, in words.
#include <string>
#include <vector>

#include "estimation/dough_to_read.h"
#include "estimation/learn.h"

namespace barm::estimation {

/// What a baker can learn about a dough or a culture.
enum class Topic { speed, waking, alcohol, salt, gas_held, sourness, warmth };

/// "speed", "waking up", "alcohol", …
[[nodiscard]] std::string_view name(Topic topic);

/// The parameter that stands for a topic in this dough.
[[nodiscard]] kinetics::Parameter parameter_of(Topic topic, bool bakers_yeast = false);

/// One topic: by how much the doubt has shrunk, and which way.
struct Lesson {
  Topic topic;
  double left = 1;           ///< share of the doubt that is left, in ln
  double factor = 1;         ///< middle value over the published
  double low = 1, high = 1;  ///< of 4 of 5 draws, over the published
  bool tells = true;         ///< false: the readings say nothing of it yet
  std::string words;
};

/// For every topic that matters to this dough.
[[nodiscard]] std::vector<Lesson> lessons(const DoughToRead& batch, const Learned& learned);

}  // namespace barm::estimation
