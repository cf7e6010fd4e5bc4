#include "shop/named.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

#include "base/letters.h"

namespace barm::shop {

using larder::Ingredient;

namespace {

using Phrase = std::vector<std::string>;

/// Words that alone say nothing of what an ingredient is.
constexpr std::array says_nothing = {
    "dry",     "sweet",   "cold",   "hot",    "white",  "light", "dark",    "strong",    "very",
    "half",    "full",    "fat",    "medium", "brown",  "soft",  "plain",   "fresh",     "water",
    "flour",   "bread",   "loaf",   "with",   "and",    "the",   "salt",    "sourdough", "levain",
    "percent", "protein", "powder", "ash",    "brewed", "oil",   "starter", "yeast",     "of",
    "raw",     "our",     "own",    "my",     "mill",   "house", "best",    "double"};

/// The singular, near enough that one and many come out the same.
std::string singular(std::string word) {
  if (word.size() > 4 && word.ends_with("ies")) return word.substr(0, word.size() - 3) + "y";
  if (word.size() > 4 && word.ends_with("oes")) return word.substr(0, word.size() - 2);
  if (word.size() > 3 && word.ends_with("s") && !word.ends_with("ss")) word.pop_back();
  return word;
}

Phrase phrase_of(std::string_view text) {
  Phrase words;
  std::string word;
  for (const char c : small_letters(text) + " ") {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || byte >= 0x80) {
      word += c;
    } else if (c != '{' && c != '}') {
      if (word.size() >= 3) words.push_back(singular(word));
      word.clear();
    }
  }
  return words;
}

bool is_plain(const std::string& word) {
  return std::any_of(says_nothing.begin(), says_nothing.end(), [&](const char* plain) {
    return word == singular(plain);
  });
}

bool is_bare(const Phrase& phrase) {
  return phrase.empty() || std::all_of(phrase.begin(), phrase.end(), is_plain);
}

/// The names of an ingredient, and the words that call it.
struct Names {
  std::vector<Phrase> whole, calls;
};

void add(std::vector<Phrase>& to, std::string_view text) {
  Phrase phrase = phrase_of(text);
  if (!is_bare(phrase)) to.push_back(std::move(phrase));
}

Names names_of(const Ingredient& ingredient) {
  Names names;
  add(names.whole, ingredient.name);
  for (const std::string& other : ingredient.also) add(names.whole, other);
  const bool own = ingredient.on_label.own;
  const LabelWord word = label_word(own ? ingredient.on_label.like : ingredient.key, Tongue::en);
  for (const std::string_view call : word.calls) add(names.calls, call);
  if (!own) {
    add(names.whole, word.name);
    return names;
  }
  add(names.whole, ingredient.on_label.name);
  for (const std::string& part : phrase_of(ingredient.name + " " + ingredient.on_label.name)) {
    if (!is_plain(part)) names.calls.push_back({part});
  }
  return names;
}

/// The bread's name, word by word, and which of them a longer name has taken.
class Bread {
 public:
  explicit Bread(std::string_view name) : words_(phrase_of(name)), taken_(words_.size(), false) {}

  /// Whether the words stand there one behind the other, none of them taken.
  [[nodiscard]] bool holds(const Phrase& phrase) const { return find(phrase) != words_.size(); }

  void take(const Phrase& phrase) {
    const std::size_t at = find(phrase);
    for (std::size_t i = 0; at < words_.size() && i < phrase.size(); ++i) taken_[at + i] = true;
  }

 private:
  [[nodiscard]] std::size_t find(const Phrase& phrase) const {
    for (std::size_t at = 0; at + phrase.size() <= words_.size(); ++at) {
      bool here = true;
      for (std::size_t i = 0; i < phrase.size(); ++i)
        here = here && !taken_[at + i] && words_[at + i] == phrase[i];
      if (here) return at;
    }
    return words_.size();
  }

  Phrase words_;
  std::vector<bool> taken_;
};

/// Names of several words first, the longest before the others; each takes its words.
void by_long_names(const std::vector<Names>& all, Bread& bread, std::vector<bool>& named) {
  std::size_t longest = 0;
  for (const Names& names : all) {
    for (const Phrase& phrase : names.whole) longest = std::max(longest, phrase.size());
  }
  for (std::size_t length = longest; length >= 2; --length) {
    std::vector<Phrase> found;
    for (std::size_t i = 0; i < all.size(); ++i) {
      for (const Phrase& phrase : all[i].whole) {
        if (phrase.size() != length || !bread.holds(phrase)) continue;
        named[i] = true;
        found.push_back(phrase);
      }
    }
    for (const Phrase& phrase : found) bread.take(phrase);
  }
}

void by_what_is_left(const std::vector<Names>& all, const Bread& bread, std::vector<bool>& named) {
  const auto holds = [&](const Phrase& phrase) { return bread.holds(phrase); };
  for (std::size_t i = 0; i < all.size(); ++i) {
    named[i] = named[i] || std::any_of(all[i].whole.begin(), all[i].whole.end(), holds) ||
               std::any_of(all[i].calls.begin(), all[i].calls.end(), holds);
  }
}

/// Small letters without umlauts, for "Walnüsse" make a "Walnussbrot".
std::string without_umlauts(std::string_view text) {
  std::string out = small_letters(text);
  constexpr std::pair<std::string_view, std::string_view> umlauts[] = {
      {"ä", "a"}, {"ö", "o"}, {"ü", "u"}, {"Ä", "a"}, {"Ö", "o"}, {"Ü", "u"}, {"ß", "ss"}};
  for (const auto& [umlaut, letter] : umlauts) {
    for (std::size_t at = out.find(umlaut); at != std::string::npos; at = out.find(umlaut, at))
      out.replace(at, umlaut.size(), letter);
  }
  return out;
}

bool is_part_of_word(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte >= 0x80 || std::isalpha(byte) != 0;
}

/// Whether the word stands in the bread's name by itself. In German it may begin a longer one; a
/// short one only the bread's: "Metbrot", not "Einkorn".
bool calls_it(const std::string& bread, std::string_view word, Tongue tongue) {
  constexpr std::size_t short_word = 3;
  static constexpr std::array breads = {"brot", "laib", "stange", "zopf"};
  for (std::size_t at = bread.find(word); at != std::string::npos; at = bread.find(word, at + 1)) {
    if (at > 0 && is_part_of_word(bread[at - 1])) continue;
    const std::string rest = bread.substr(at + word.size());
    if (rest.empty() || !is_part_of_word(rest.front())) return true;
    const bool of_bread = std::any_of(
        breads.begin(), breads.end(), [&](const char* one) { return rest.starts_with(one); });
    if (tongue == Tongue::de && (word.size() > short_word || of_bread)) return true;
  }
  return false;
}

/// Whether a word of the label's own name, its beginning, or a word that calls it in that language
/// stands in the bread's name.
bool spoken_of(const std::string& bread, const Ingredient& ingredient, Tongue tongue) {
  constexpr std::size_t shortest = 4;
  constexpr std::size_t begins = 5;
  const std::string key = ingredient.on_label.own ? ingredient.on_label.like : ingredient.key;
  const LabelWord label = label_word(key, tongue);
  const std::string name = ingredient.on_label.name.empty() ? label.name : ingredient.on_label.name;
  static constexpr std::array plain = {
      "farin", "harin", "mehl", "pain", "pane", "semi", "grain", "weiss", "blanc", "bianc"};
  for (const std::string& word : phrase_of(without_umlauts(name))) {
    const std::string part = word.substr(0, begins);
    const bool bare = std::find(plain.begin(), plain.end(), part) != plain.end();
    if (word.size() >= shortest && !bare && bread.find(part) != std::string::npos) return true;
  }
  for (const std::string_view call : label.calls) {
    for (const std::string_view word : called(call, tongue)) {
      if (calls_it(bread, word, tongue)) return true;
    }
  }
  return false;
}

}  // namespace

std::vector<bool> named_in(std::string_view bread_name,
                           const std::vector<Ingredient>& ingredients,
                           Tongue tongue) {
  std::vector<bool> named(ingredients.size(), false);
  std::vector<Names> all;
  all.reserve(ingredients.size());
  for (const Ingredient& one : ingredients) all.push_back(names_of(one));
  Bread bread(bread_name);
  by_long_names(all, bread, named);
  by_what_is_left(all, bread, named);
  if (tongue == Tongue::en || tongue == Tongue::us) return named;
  const std::string small = without_umlauts(bread_name);
  for (std::size_t i = 0; i < ingredients.size(); ++i)
    named[i] = named[i] || spoken_of(small, ingredients[i], tongue);
  return named;
}

}  // namespace barm::shop
