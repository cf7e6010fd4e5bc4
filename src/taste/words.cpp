#include "taste/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "generated/constants.h"

namespace barm::taste {

namespace {

constexpr double nearly_gone = 0.12;
constexpr double stays = 0.6;
constexpr std::size_t most_named = 4;

struct Spoken {
  double share;
  const char* words;
};

constexpr Spoken spoken[] = {{0.1, "a tenth"},
                             {0.15, "a seventh"},
                             {0.2, "a fifth"},
                             {0.25, "a quarter"},
                             {1.0 / 3, "a third"},
                             {0.4, "two fifths"},
                             {0.5, "half"},
                             {0.6, "three fifths"},
                             {2.0 / 3, "two thirds"},
                             {0.75, "three quarters"},
                             {0.9, "nine tenths"},
                             {1.0, "all"}};

/// "rose, walnut and clove".
std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

/// The drink's own notes, the strongest in the drink first.
std::vector<const Note*> smelt_in_the_drink(const Tasted& tasted) {
  std::vector<const Note*> out;
  for (const Note& one : tasted.notes) {
    if (one.in_drink >= 1 && one.left.p50 > 0 && says_which_drink(one.family)) out.push_back(&one);
  }
  std::stable_sort(out.begin(), out.end(), [](const Note* a, const Note* b) {
    return a->in_drink > b->in_drink;
  });
  return out;
}

/// The families of the notes of which that holds.
template <class Holds>
std::vector<std::string> families(const std::vector<const Note*>& notes, Holds holds) {
  std::vector<std::string> out;
  for (const Note* one : notes) {
    if (holds(*one) && out.size() < most_named) out.emplace_back(one->family);
  }
  return out;
}

bool is_smelt(const Note& note) { return note.level >= Level::there; }

bool is_gone(const Note& note) { return note.left.p50 < nearly_gone && !is_smelt(note); }

// Of a strong note a little is enough.
bool is_little_and_smelt(const Note& note) { return note.left.p50 < nearly_gone && is_smelt(note); }

// What outlasts the oven and yet is not smelt is no news.
bool is_kept(const Note& note) { return note.left.p50 >= stays && note.level != Level::gone; }

std::string parts(const Range& share) {
  return fmt::format("{:.0f} to {:.0f} of 100 parts", 100 * share.p10, 100 * share.p90);
}

}  // namespace

std::string share_in_words(double share) {
  if (share < nearly_gone / 2) return "next to nothing";
  const auto* const nearest =
      std::min_element(std::begin(spoken), std::end(spoken), [&](const auto& a, const auto& b) {
        return std::abs(std::log(a.share / share)) < std::abs(std::log(b.share / share));
      });
  return nearest->words;
}

std::string in_a_line(const Tasted& tasted) {
  const auto notes = smelt_in_the_drink(tasted);
  std::vector<std::string> said;
  const auto gone = families(notes, is_gone);
  if (!gone.empty())
    said.push_back(
        fmt::format("its {} {} nearly gone", listed(gone), gone.size() > 1 ? "are" : "is"));
  const auto little = families(notes, is_little_and_smelt);
  if (!little.empty())
    said.push_back(fmt::format("little of its {} is left, enough to be noticed", listed(little)));
  std::size_t partly = 0;
  for (const Note* one : notes) {
    const bool here = one->left.p50 >= nearly_gone && one->left.p50 < stays;
    if (!here || partly++ >= most_named) continue;
    said.push_back(fmt::format("of its {} note {}", one->family, share_in_words(one->left.p50)));
  }
  const auto kept = families(notes, is_kept);
  if (!kept.empty())
    said.push_back(fmt::format("{} {}", listed(kept), kept.size() > 1 ? "stay" : "stays"));
  for (const Sense& sense : tasted.tongue.senses) {
    if (sense.what == "sour" && sense.of_drink > 0) said.emplace_back("its acidity stays");
    if (sense.what == "bitter" && sense.of_drink >= constants::level::hint.value.si())
      said.emplace_back("its bitterness stays");
  }
  std::string out;
  for (const std::string& one : said) out += (out.empty() ? "" : "; ") + one;
  return out;
}

std::string sentence(const Note& note) {
  std::string out =
      note.left.p50 > 0
          ? fmt::format("of its {} {} outlast proof and oven; ", note.family, parts(note.left))
          : fmt::format("its {} is put on after baking; ", note.family);
  out += fmt::format("in the mouth {}", name(note.level));
  if (!note.cover.empty()) out += fmt::format(", covered by the bread's own {}", note.cover);
  return out;
}

std::string sentence(const Sense& sense) {
  if (sense.strength <= 0) return fmt::format("{}: nothing of it", sense.what);
  std::string out = fmt::format("{}: {:.1f} times what is just noticed ({:.1f} to {:.1f})",
                                sense.what,
                                sense.strength,
                                sense.low,
                                sense.high);
  if (sense.of_drink > 0) {
    const double share = std::min(1.0, sense.of_drink / sense.strength);
    out += share > 0.95 ? ", all of it from the drink"
                        : fmt::format(", {} of it from the drink", share_in_words(share));
  }
  if (!sense.most.empty()) out += fmt::format("; most of it {}", sense.most);
  return out;
}

std::string tasters(double share) {
  if (share < 0.05) return "hardly anyone";
  if (share > 0.95) return "nearly everyone";
  return share < 0.5 ? fmt::format("1 in {:.0f} tasters", 1 / share)
                     : fmt::format("{:.0f} of 10 tasters", 10 * share);
}

}  // namespace barm::taste
