// Finding an ingredient by what a baker calls it.
#include <algorithm>
#include <array>
#include <cctype>
#include <numeric>
#include <unordered_map>
#include <utility>

#include "larder/larder.h"

namespace barm::larder {

namespace {

using Words = std::vector<std::string>;

/// Lower case without accents; blanks, hyphens and underscores as one blank.
std::string plain(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, char>, 10> accents = {{{"é", 'e'},
                                                                                 {"è", 'e'},
                                                                                 {"ê", 'e'},
                                                                                 {"É", 'e'},
                                                                                 {"â", 'a'},
                                                                                 {"à", 'a'},
                                                                                 {"î", 'i'},
                                                                                 {"ö", 'o'},
                                                                                 {"ü", 'u'},
                                                                                 {"ç", 'c'}}};
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto accent = std::find_if(accents.begin(), accents.end(), [&](const auto& one) {
      return text.substr(i).starts_with(one.first);
    });
    if (accent != accents.end()) {
      out += accent->second;
      i += accent->first.size() - 1;
    } else if (text[i] == ' ' || text[i] == '-' || text[i] == '_') {
      if (!out.empty() && out.back() != ' ') out += ' ';
    } else {
      out += static_cast<char>(std::tolower(static_cast<unsigned char>(text[i])));
    }
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

std::string folded(std::string_view text) {
  std::string out = plain(text);
  std::erase(out, ' ');
  return out;
}

Words split(const std::string& text) {
  Words words(1);
  for (const char c : text) {
    if (c == ' ') {
      words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  return words;
}

using Index = std::unordered_map<std::string, const Ingredient*>;

Index indexed() {
  Index index;
  for (const Ingredient& ingredient : all()) {
    index.emplace(folded(ingredient.key), &ingredient);
    index.emplace(folded(ingredient.name), &ingredient);
    for (const std::string& other : ingredient.also) index.emplace(folded(other), &ingredient);
  }
  return index;
}

/// Letters to insert, delete, change or swap with a neighbour (Damerau and Levenshtein,
/// restricted).
std::size_t edit_distance(const std::string& a, const std::string& b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
  std::iota(d[0].begin(), d[0].end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  }
  return d[a.size()][b.size()];
}

/// What a word left over counts against a wrong letter: a name may say more than was asked, but
/// what was asked should be in the name.
constexpr double word_not_asked = 0.4;
constexpr double word_not_answered = 1.5;

/// Names have at most half as many letters; comparing grows with the square of both.
constexpr std::size_t longest_asked = 100;

/// The fewest wrong letters between `whole` and some run of `words`, plus the words left over.
double distance_within(const std::string& whole, const Words& words, double left_over) {
  double least = 1e9;
  for (std::size_t first = 0; first < words.size(); ++first) {
    std::string run;
    for (std::size_t last = first; last < words.size(); ++last) {
      run += words[last];
      const auto unused = static_cast<double>(words.size() - (last - first + 1));
      least = std::min(least, static_cast<double>(edit_distance(whole, run)) + left_over * unused);
    }
  }
  return least;
}

double distance(const std::string& asked, const std::string& name) {
  return std::min(distance_within(folded(asked), split(name), word_not_asked),
                  distance_within(folded(name), split(asked), word_not_answered));
}

}  // namespace

const Ingredient* find(std::string_view words) {
  static const Index index = indexed();
  const auto found = index.find(folded(words));
  return found == index.end() ? nullptr : found->second;
}

std::vector<std::string> near(std::string_view words, std::size_t most) {
  const std::string asked = plain(words);
  // A third of the letters may be wrong, two at least.
  const double limit = std::max(2.0, static_cast<double>(folded(words).size()) / 3);
  std::vector<std::pair<double, std::string>> found;
  const auto consider = [&](const std::string& name) {
    const double far = distance(asked, plain(name));
    if (far <= limit) found.emplace_back(far, name);
  };
  if (!asked.empty() && asked.size() <= longest_asked) {
    for (const Ingredient& ingredient : all()) {
      consider(ingredient.name);
      for (const std::string& other : ingredient.also) consider(other);
    }
  }
  std::stable_sort(
      found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (const auto& [far, name] : found) {
    if (names.size() == most) break;
    names.push_back(name);
  }
  return names;
}

}  // namespace barm::larder
