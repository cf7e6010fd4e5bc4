#include "testbakes/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <set>

// The reader of bake files and this one read the same kind of file with the same errors.
#include "formula/amount.h"
#include "formula/document.h"
#include "formula/read.h"
#include "formula/reading.h"
#include "formula/shelf.h"
#include "formula/words.h"
#include "testbakes/rivals.h"

namespace barm::testbakes {

namespace {

using namespace formula;

constexpr std::size_t most_doughs = 60;
constexpr std::size_t most_days = 30;
constexpr std::size_t most_steps = 12;

// --- words ---

/// Takes `start` off the front of the text.
bool take(std::string& text, std::string_view start) {
  if (!text.starts_with(start)) return false;
  text = std::string(trimmed(std::string_view(text).substr(start.size())));
  return true;
}

/// Parts "a SEPARATOR b"; b is empty when the separator is not there.
std::pair<std::string, std::string> parted(const std::string& text, std::string_view separator) {
  const std::size_t at = text.find(separator);
  if (at == std::string::npos) return {text, ""};
  return {std::string(trimmed(std::string_view(text).substr(0, at))),
          std::string(trimmed(std::string_view(text).substr(at + separator.size())))};
}

/// A liquid of the base bake, by any of its names.
std::string liquid_of(const Bake& base, const std::string& words, const FilePlace& place) {
  const auto at = base.find(words);
  if (!at) stop(place, not_in_the_bowl(words, base));
  const formula::Portion& portion = base.bowl[*at];
  if (portion.ingredient.group != larder::Group::drink) {
    stop(place,
         in_quotes(words) + " is not a drink: only a drink can be swapped, simmered or poured");
  }
  return portion.ingredient.name;
}

step::Match match_of(const std::string& words,
                     const Bake& base,
                     Shelf& shelf,
                     const FilePlace& place) {
  const auto [what, with] = parted(words, " with ");
  for (const Alike alike : {Alike::alcohol, Alike::sulphite, Alike::acid, Alike::sugar}) {
    if (what != name(alike)) continue;
    return {alike, with.empty() ? usual_means(alike, base) : shelf.take(with, place).ingredient};
  }
  stop(place,
       fmt::format("{} cannot be matched. There are: alcohol, sulphite, acid, sugar",
                   in_quotes(what)));
}

step::Simmer simmer_of(const std::string& words, const Bake& base, const FilePlace& place) {
  const auto [drink, lasts] = parted(words, " for ");
  const Time time = lasts.empty() ? 60.0 * minute : at_place(formula::parse_time(lasts), place);
  if (time < simmered_least() || time > simmered_most()) {
    stop(place,
         fmt::format(
             "simmering is known from {:.0f} min to {:.0f} min: write \"simmer {} for 60 min\"",
             simmered_least().in(minute),
             simmered_most().in(minute),
             drink));
  }
  return {liquid_of(base, drink, place), time};
}

Step step_of(const std::string& written, const Bake& base, Shelf& shelf, const FilePlace& place) {
  std::string words = folded(written);
  if (words == "plain") return step::Plain{};
  if (take(words, "match ")) return match_of(words, base, shelf, place);
  if (take(words, "simmer ")) return simmer_of(words, base, place);
  if (take(words, "swap ")) {
    const auto [from, to] = parted(words, " for ");
    if (to.empty()) stop(place, "a swap names two drinks: write \"swap dry mead for perry\"");
    Labelled other = shelf.take(to, place);
    return step::Swap{liquid_of(base, from, place),
                      std::move(other.ingredient),
                      other.price,
                      std::move(other.currency)};
  }
  const std::size_t percent = words.find_first_of("0123456789");
  if (percent != std::string::npos && percent > 0) {
    const std::string drink(trimmed(std::string_view(words).substr(0, percent)));
    const auto amount = at_place(formula::parse_amount(words.substr(percent)), place);
    if (amount.of_liquid && amount.value >= 0 && amount.value <= 1)
      return step::Pour{liquid_of(base, drink, place), amount.value};
  }
  stop(place,
       fmt::format(
           "{} is not a way to make a dough. There are: plain, swap A for B, simmer A for 60 "
           "min, A 25 % of the liquid, match alcohol, match sulphite, match acid, match sugar",
           in_quotes(written)));
}

// --- the file ---

class TestBakeReader {
 public:
  TestBakeReader(const Node& root, const std::string& file, const Bake* base)
      : root_(root), given_(base), shelf_(table("ingredient"), table("bottle")) {
    test_.file = file;
  }

  TestBake read() {
    check_keys(root_,
               "at the top of a test bake file",
               {"name",
                "question",
                "base",
                "remark",
                "causes",
                "dough",
                "series",
                "amount",
                "days",
                "jars",
                "jar",
                "within",
                "seed",
                "readings",
                "bottle",
                "ingredient"});
    read_base();
    read_words();
    read_causes();
    read_jars();
    read_days();
    for (const Entry& entry : root_.entries) {
      if (entry.key == "dough") each_table(entry, [&](const Node& node) { read_dough(node); });
      if (entry.key == "series") each_table(entry, [&](const Node& node) { read_series(node); });
    }
    check_doughs();
    shelf_.check_all_taken();
    return std::move(test_);
  }

 private:
  const Node* value(std::string_view key) const { return find(root_, key); }

  /// The table of that key, or nullptr; stops when it is something else.
  const Node* table(std::string_view key) const {
    for (const Entry& one : root_.entries) {
      if (one.key != key) continue;
      check_table(one, fmt::format("[{}.\"perry\"]", key));
      return &one.value;
    }
    return nullptr;
  }

  std::string beside(const std::string& name) const {
    const std::filesystem::path path(name);
    if (path.is_absolute()) return name;
    return (std::filesystem::path(test_.file).parent_path() / path).lexically_normal().string();
  }

  void read_base() {
    const Node* base = value("base");
    if (given_ != nullptr) {
      if (base != nullptr) stop(base->place, "the bake comes beside this: leave the line out");
      test_.base = *given_;
      return;
    }
    if (base == nullptr) {
      stop(FilePlace{test_.file, 1, 1},
           "names no bake: write base = \"mead-loaf.toml\", a file beside it");
    }
    const std::string path = beside(text_of(*base, "mead-loaf.toml"));
    auto bake = formula::read_bake(path);
    if (!bake && bake.error().where == path) stop(base->place, path + " " + bake.error().message);
    if (!bake) throw Stopped{bake.error()};
    test_.base = *std::move(bake);
  }

  void read_words() {
    if (const Node* one = value("name")) test_.name = text_of(*one, "Why did it not rise?");
    if (const Node* one = value("question"))
      test_.question = text_of(*one, "Was it the alcohol or the acid?");
    if (const Node* one = value("remark")) test_.remark = text_of(*one, "for us alone");
    if (const Node* one = value("readings")) {
      if (given_ != nullptr) stop(one->place, "readings come beside this: leave the line out");
      test_.readings = beside(text_of(*one, "readings.csv"));
    }
    if (test_.name.empty()) test_.name = test_.base.name;
  }

  void read_causes() {
    const Node* causes = value("causes");
    if (causes == nullptr) return;
    if (causes->kind != Node::Kind::list || causes->items.empty())
      stop(causes->place, "is a list: write causes = [\"alcohol\", \"acid\"]");
    for (const Node& item : causes->items) {
      const std::string& words = text_of(item, "alcohol");
      const auto named = std::find_if(
          all_causes.begin(), all_causes.end(), [&](Cause cause) { return name(cause) == words; });
      if (named == all_causes.end()) {
        stop(item.place,
             in_quotes(words) +
                 " is no cause. There are: alcohol, acid, sulphite, sugar, sorbate, hops");
      }
      if (std::count(test_.causes.begin(), test_.causes.end(), *named) > 0)
        stop(item.place, in_quotes(words) + " stands there twice");
      test_.causes.push_back(*named);
    }
  }

  static int whole(const Node& value, int least, int most, std::string_view example) {
    const bool good =
        value.kind == Node::Kind::whole && value.number >= least && value.number <= most;
    if (!good) {
      stop(value.place,
           fmt::format("is a whole number from {} to {}: write {}", least, most, example));
    }
    return static_cast<int>(value.number);
  }

  void read_jars() {
    constexpr int most_jars = 12;
    if (const Node* one = value("jars")) test_.jars = whole(*one, 1, most_jars, "jars = 2");
    if (const Node* one = value("seed")) {
      test_.seed = static_cast<unsigned long long>(whole(*one, 0, 1'000'000'000, "seed = 7"));
    }
    if (const Node* one = value("amount")) test_.dough = mass_of(*one, "400 g");
    if (const Node* one = value("jar")) test_.jar = height(*one);
    if (const Node* one = value("within")) test_.within = time_of(*one);
    if (test_.within < 1.0 * hour) stop(value("within")->place, "is at least 1 h: write \"14 h\"");
  }

  static Length height(const Node& value) {
    const auto number = at_place(formula::parse_number(text_of(value, "60 mm")), value.place);
    const double scale = number.unit == "mm" ? 1 : number.unit == "cm" ? 10 : 0;
    const double millimetres = scale * number.value;
    if (!(millimetres >= 5 && millimetres <= 1000)) {
      stop(value.place,
           "is the height of the dough at its first mark, 5 mm to 1 m: write \"60 mm\"");
    }
    return millimetres * millimetre;
  }

  void read_days() {
    const Node* days = value("days");
    if (days == nullptr) {
      test_.days = {"day 1"};
      return;
    }
    if (days->kind == Node::Kind::whole) {
      const int count = whole(*days, 1, static_cast<int>(most_days), "days = 2");
      for (int i = 1; i <= count; ++i) test_.days.push_back(fmt::format("day {}", i));
      return;
    }
    if (days->kind != Node::Kind::list || days->items.empty() || days->items.size() > most_days) {
      stop(days->place,
           "is a number or a list of up to 30 days: write days = 2, or "
           "[\"2026-11-28\", \"2026-12-05\"]");
    }
    for (const Node& item : days->items) {
      const bool date = item.kind == Node::Kind::date_time;
      const std::string& words = date ? item.text : text_of(item, "2026-11-28");
      if (words.empty() || std::count(test_.days.begin(), test_.days.end(), words) > 0)
        stop(item.place, "each day has its own name");
      test_.days.push_back(words);
    }
  }

  template <class Read>
  static void each_table(const Entry& entry, const Read& read) {
    const bool list = entry.value.kind == Node::Kind::list;
    if (!list || entry.value.items.empty()) {
      stop(entry.place, fmt::format("is a list of tables: write [[{}]]", entry.key));
    }
    for (const Node& node : entry.value.items) {
      if (node.kind != Node::Kind::table)
        stop(node.place, fmt::format("is a table: write [[{}]]", entry.key));
      read(node);
    }
  }

  std::vector<Step> steps(const Node& node, std::string& words) {
    std::vector<Step> out;
    const Node* make = find(node, "make");
    if (make == nullptr) return out;
    std::vector<std::pair<std::string, FilePlace>> parts;
    if (make->kind == Node::Kind::list) {
      for (const Node& item : make->items) parts.emplace_back(text_of(item, "plain"), item.place);
    } else {
      parts.emplace_back(text_of(*make, "plain"), make->place);
    }
    if (parts.empty() || parts.size() > most_steps)
      stop(make->place, "holds one to twelve steps: write make = [\"plain\", \"match alcohol\"]");
    for (const auto& [text, place] : parts) {
      out.push_back(step_of(text, test_.base, shelf_, place));
      words += (words.empty() ? "" : ", ") + folded(text);
    }
    return out;
  }

  void read_dough(const Node& node) {
    check_keys(node, "of a dough", {"name", "make"});
    Recipe recipe;
    recipe.place = node.place;
    recipe.steps = steps(node, recipe.words);
    const Node* called = find(node, "name");
    recipe.name = called != nullptr      ? text_of(*called, "alcohol alone")
                  : recipe.words.empty() ? "as it is"
                                         : recipe.words;
    test_.doughs.push_back(std::move(recipe));
  }

  /// A dose series: the drink as so many shares of the liquid.
  void read_series(const Node& node) {
    check_keys(node, "of a series", {"of", "shares", "make"});
    const Node* of = find(node, "of");
    const Node* shares = find(node, "shares");
    if (of == nullptr || shares == nullptr || shares->kind != Node::Kind::list ||
        shares->items.empty()) {
      stop(node.place,
           "names a drink and its shares of the liquid: of = \"dry mead\", shares = "
           "[\"0 %\", \"25 %\", \"50 %\"]");
    }
    const std::string drink = liquid_of(test_.base, text_of(*of, "dry mead"), of->place);
    for (const Node& item : shares->items) {
      Recipe recipe;
      recipe.place = item.place;
      const double share = share_of(item, "25 %", 0, 1);
      recipe.steps.emplace_back(step::Pour{drink, share});
      recipe.words = fmt::format("{} {:g} % of the liquid", drink, 100 * share);
      recipe.name = fmt::format("{} {:g} %", drink, 100 * share);
      for (const Step& more : steps(node, recipe.words)) recipe.steps.push_back(more);
      test_.doughs.push_back(std::move(recipe));
    }
  }

  void check_doughs() const {
    if (test_.doughs.size() < 2) {
      stop(FilePlace{test_.file, 1, 1},
           "compares nothing: write at least two [[dough]], one of them with make = \"plain\"");
    }
    if (test_.doughs.size() > most_doughs)
      stop(test_.doughs[most_doughs].place, fmt::format("is one more than {} doughs", most_doughs));
    std::set<std::string> names;
    for (const Recipe& recipe : test_.doughs) {
      if (recipe.name.empty() || !names.insert(folded(recipe.name)).second)
        stop(recipe.place,
             "each dough has its own name: " + in_quotes(recipe.name) + " is there twice");
    }
  }

  const Node& root_;
  const Bake* given_;  ///< the base, when it stands in no file
  Shelf shelf_;
  TestBake test_;
};

}  // namespace

std::string_view name(Alike what) {
  switch (what) {
    case Alike::alcohol:
      return "alcohol";
    case Alike::sulphite:
      return "sulphite";
    case Alike::acid:
      return "acid";
    case Alike::sugar:
      return "sugar";
  }
  return "unknown";
}

namespace {

Result<TestBake> parsed(std::string_view text, const std::string& file, const Bake* base) {
  const auto root = parse_document(text, file);
  if (!root) return failure(root);
  try {
    return TestBakeReader(*root, file, base).read();
  } catch (const Stopped& stopped) {
    return tl::unexpected<Error>(stopped.error);
  }
}

}  // namespace

Result<TestBake> parse_test_bake(std::string_view text, const std::string& file) {
  return parsed(text, file, nullptr);
}

Result<TestBake> parse_test_bake(std::string_view text,
                                 const std::string& file,
                                 const formula::Bake& base) {
  return parsed(text, file, &base);
}

Result<TestBake> read_test_bake(const std::string& path) {
  const auto text = read_text(path);
  if (!text) return failure(text);
  return parse_test_bake(*text, path);
}

Result<Recipe> parse_recipe(const std::string& words,
                            const formula::Bake& base,
                            const std::string& where) {
  Recipe recipe;
  recipe.place = FilePlace{where, 0, 0};
  recipe.name = recipe.words = folded(words);
  Shelf shelf(nullptr, nullptr);
  try {
    for (std::string rest = recipe.words; !rest.empty();) {
      const auto [first, more] = parted(rest, ",");
      recipe.steps.push_back(step_of(first, base, shelf, recipe.place));
      rest = more;
    }
  } catch (const Stopped& stopped) {
    return failure(stopped.error.code, where, stopped.error.message);
  }
  return recipe;
}

}  // namespace barm::testbakes
