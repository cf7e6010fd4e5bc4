#include "testbakes/plan.h"

#include <fmt/format.h>

#include <random>
#include <set>

#include "base/require.h"

namespace barm::testbakes {

namespace {

// Streams of random numbers, so that more doughs do not change the labels' luck.
constexpr std::uint64_t places_stream = 1;
constexpr std::uint64_t labels_stream = 2;

bool repeats_a_digit(int number) {
  const int a = number / 100;
  const int b = number / 10 % 10;
  const int c = number % 10;
  return a == b || b == c || a == c;
}

}  // namespace

std::vector<std::string> blind_labels(std::size_t count, numerics::Random& random) {
  require(count <= 500, "there are so many labels");
  std::vector<int> numbers;
  for (int number = 102; number < 999; ++number) {
    if (!repeats_a_digit(number)) numbers.push_back(number);
  }
  shuffle(numbers, random);
  std::vector<std::string> labels;
  for (std::size_t i = 0; i < count; ++i) labels.push_back(std::to_string(numbers[i]));
  return labels;
}

unsigned long long drawn_seed() {
  constexpr unsigned most = 999'999;
  std::random_device chance;
  return std::uniform_int_distribution<unsigned>(1, most)(chance);
}

std::string with_seed(std::string_view text, unsigned long long seed) {
  std::size_t before = 0;
  while (before < text.size()) {
    const std::size_t first = text.find_first_not_of(" \t", before);
    if (first != std::string_view::npos && text[first] == '[') break;
    const std::size_t end = text.find('\n', before);
    before = end == std::string_view::npos ? text.size() : end + 1;
  }
  const bool open = before > 0 && text[before - 1] != '\n';
  return std::string(text.substr(0, before)) + (open ? "\n" : "") +
         fmt::format("seed = {}  # drawn: places and labels hang on it\n", seed) +
         (before < text.size() ? "\n" : "") + std::string(text.substr(before));
}

std::vector<Jar> plan(const TestBake& test) {
  require(test.seed.has_value(), "a seed was drawn before places and labels are");
  numerics::Random places(*test.seed, places_stream);
  numerics::Random luck(*test.seed, labels_stream);
  const std::size_t a_day = test.doughs.size() * static_cast<std::size_t>(test.jars);
  std::vector<Jar> jars;
  for (std::size_t day = 0; day < test.days.size(); ++day) {
    std::vector<Jar> block;
    for (std::size_t dough = 0; dough < test.doughs.size(); ++dough) {
      for (int repeat = 1; repeat <= test.jars; ++repeat)
        block.push_back({day, 0, dough, repeat, ""});
    }
    shuffle(block, places);
    // Labels differ within a day; a new day draws them anew, so that nobody remembers one.
    const auto labels = blind_labels(a_day, luck);
    for (std::size_t i = 0; i < block.size(); ++i) {
      block[i].place = static_cast<int>(i) + 1;
      block[i].label = labels[i];
    }
    jars.insert(jars.end(), block.begin(), block.end());
  }
  return jars;
}

}  // namespace barm::testbakes
