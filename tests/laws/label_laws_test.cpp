// What must hold of every label, over bakes drawn at random from the larder: Regulation (EU) No
// 1169/2011, Art. 18, 21 and Annex II.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <random>
#include <set>

#include "formula/read.h"
#include "generated/tables.h"
#include "larder/allergens.h"
#include "larder/larder.h"
#include "shop/label.h"

namespace barm::shop {

namespace {

using Names = std::set<std::string>;

constexpr int bakes_drawn = 400;

/// A bake of up to nine ingredients, some of them the baker's own, with or without a levain.
std::string drawn_bake(std::mt19937_64& random) {
  const auto below = [&](std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
  };
  std::string bowl = "\"white bread flour\" = \"1000 g\"\nwater = \"300 g\"\n";
  std::string tables;
  Names taken = {"white bread flour", "water"};
  const auto all = larder::all();
  for (std::size_t i = 0; i < 1 + below(8); ++i) {
    const larder::Ingredient& one = all[below(all.size())];
    if (!taken.insert(one.name).second) continue;
    const bool own = below(4) == 0;
    const std::string name = own ? "dyke thing " + std::to_string(i) : one.name;
    bowl += "\"" + name + "\" = \"" + std::to_string(1 + below(400)) + " g\"\n";
    if (!own) continue;
    const auto& allergens = larder::allergens();
    tables += "[ingredient.\"" + name + "\"]\nlike = \"" + one.name + "\"\nallergens = [\"" +
              std::string(allergens[below(allergens.size())].key) + "\"]\n";
    if (below(2) == 0) tables += "list = \"herbs, {celery}, {Milk} powder\"\n";
  }
  if (below(3) == 0) {
    bowl += "levain = \"150 g\"\n";
    tables += std::string("[levain]\nstarter = \"") +
              (below(2) == 0 ? "rye sour" : "stiff ripe levain") + "\"\nflour = \"" +
              (below(2) == 0 ? "rye flour" : "spelt flour") + "\"\n";
  }
  return "name = \"Loaf\"\npieces = 2\nloss = { bake = \"11 %\" }\n[bowl]\n" + bowl + tables;
}

/// The allergen of a strong piece, by the words that the table has for it: the longest that it
/// holds.
std::string allergen_of(std::string piece) {
  std::transform(piece.begin(), piece.end(), piece.begin(), [](unsigned char c) {
    return c < 0x80 ? static_cast<char>(std::tolower(c)) : static_cast<char>(c);
  });
  std::string best;
  std::size_t longest = 0;
  for (const auto& row : tables::allergens) {
    for (const std::string_view list : {row.en, row.de, row.fr, row.it, row.es}) {
      std::string words(list);
      std::transform(words.begin(), words.end(), words.begin(), [](unsigned char c) {
        return c < 0x80 ? static_cast<char>(std::tolower(c)) : static_cast<char>(c);
      });
      words += ";";
      for (std::size_t at = 0; at < words.size();) {
        const std::size_t end = words.find(';', at);
        const std::string word = words.substr(at, end - at);
        if (word.size() > longest && piece.find(word) != std::string::npos) {
          longest = word.size();
          best = row.key;
        }
        at = end + 1;
      }
    }
  }
  return best;
}

Names emphasised(const Label& label) {
  Names out;
  for (const TextPiece& piece : label.ingredients.text) {
    if (piece.strong) out.insert(allergen_of(piece.text));
  }
  return out;
}

bool is_in_the_annex(const std::string& key) {
  const larder::Allergen* known = larder::find_allergen(key);
  return known != nullptr && known->point > 0;
}

/// What the bake's own ingredients say, counted apart from the label.
Names known_of(const formula::Bake& bake) {
  Names out;
  for (const formula::Portion& portion : bake.bowl) {
    const auto& here = portion.ingredient.allergens;
    out.insert(here.begin(), here.end());
    if (!portion.ingredient.on_label.list.empty()) out.insert({"celery", "milk"});
    if (portion.levain)
      out.insert(bake.levain->flour.allergens.begin(), bake.levain->flour.allergens.end());
  }
  out.erase("sulphites");
  std::erase_if(out, [](const std::string& one) { return !is_in_the_annex(one); });
  return out;
}

LoafDraw book_of(const formula::Bake& bake) {
  LoafDraw draw;
  draw.settled = formula::settle(bake).value();
  draw.bowl = formula::in_the_bowl(bake, draw.settled).value();
  draw.baked.loss = bake.bake_loss;
  return draw;
}

/// A label, its bake and the loaf it was made of.
struct Drawn {
  formula::Bake bake;
  LoafDraw book;
  Label label;
  std::string text;
};

Drawn drawn(std::mt19937_64& random, Law law, const char* language) {
  Drawn out;
  Result<formula::Bake> read = failure(ErrorCode::bad_input, "", "none drawn");
  // Too salty or too strong a bowl is refused where it is read: another is drawn.
  for (int tries = 0; tries < 50 && !read; ++tries) {
    out.text = drawn_bake(random);
    read = formula::parse_bake(out.text, "b.toml");
  }
  out.bake = read.value();
  out.bake.label.language = language;
  out.book = book_of(out.bake);
  out.label = label(out.bake, out.book, {}, {law, Mass(), out.bake.label});
  return out;
}

/// Art. 21(1)(b): whatever is known is set off, and nothing else stands out, in every language.
TEST(LabelLaws, WhatIsSetOffIsWhatStandsOutInTheList) {
  std::mt19937_64 random(21);
  constexpr const char* languages[] = {"en", "de", "fr", "it", "es"};
  int with_sulphites = 0;
  for (int i = 0; i < bakes_drawn; ++i) {
    const Law law = i % 2 == 0 ? Law::eu : Law::uk;
    const Drawn one = drawn(random, law, languages[i % 5]);
    Names set_off(one.label.allergens.begin(), one.label.allergens.end());
    Names known = known_of(one.bake);
    for (const std::string& allergen : known)
      EXPECT_TRUE(set_off.contains(allergen)) << allergen << " is known\n" << one.text;
    if (one.label.sulphites != Sulphites::no) {
      set_off.insert("sulphites");
      ++with_sulphites;
    }
    EXPECT_EQ(emphasised(one.label), set_off)
        << one.text << plain(one.label.ingredients.text, true);
    // The same words stand behind "contains" where there is no list.
    for (const std::string& allergen : set_off) {
      for (const LabelLine& line : one.label.lines) {
        if (line.field == "allergens") {
          EXPECT_NE(plain(line.text).find(allergen_word(allergen, one.label.tongue)),
                    std::string::npos);
        }
      }
    }
  }
  EXPECT_GT(with_sulphites, bakes_drawn / 10);
  EXPECT_LT(with_sulphites, bakes_drawn);
}

/// FALCPA: what the list of the United States holds stands behind "Contains", sulfites in the list.
TEST(LabelLaws, AmericaNamesItsOwnBehindContains) {
  std::mt19937_64 random(22);
  for (int i = 0; i < bakes_drawn / 2; ++i) {
    const Drawn one = drawn(random, Law::us, "");
    std::string contains;
    for (const LabelLine& line : one.label.lines) {
      if (line.field == "allergens") contains = plain(line.text);
    }
    for (const auto& portion : one.bake.bowl) {
      for (const std::string& allergen : portion.ingredient.allergens) {
        const larder::Allergen* known = larder::find_allergen(allergen);
        if (known->us.empty()) {
          EXPECT_FALSE(
              std::count(one.label.allergens.begin(), one.label.allergens.end(), allergen));
        } else {
          EXPECT_NE(contains.find(known->us), std::string::npos) << allergen << "\n" << one.text;
        }
      }
    }
    const std::string list = plain(one.label.ingredients.text);
    const bool named = list.find("sulfite") != std::string::npos ||
                       list.find("sulfur dioxide") != std::string::npos;
    if (one.label.sulphites != Sulphites::no) {
      EXPECT_TRUE(named) << list;
    }
  }
}

/// Art. 18(1) and Annex VII A 1: by weight as used, added water by what the others leave.
TEST(LabelLaws, TheOrderFallsAndThePartsAddUp) {
  std::mt19937_64 random(23);
  for (int i = 0; i < bakes_drawn / 2; ++i) {
    const Drawn one = drawn(random, Law::eu, "");
    const auto& items = one.label.ingredients.items;
    double used = 0;
    double counted = 0;
    double left = 0;
    for (std::size_t k = 0; k < items.size(); ++k) {
      if (k > 0) {
        EXPECT_GE(items[k - 1].counted.si(), items[k].counted.si()) << one.text;
      }
      used += items[k].used.si();
      counted += items[k].counted.si();
      left += items[k].left.si();
      EXPECT_GE(items[k].left.si(), 0);
      EXPECT_LE(items[k].counted.si(), items[k].used.si() + 1e-12);
    }
    const double finished = one.label.ingredients.finished.si();
    EXPECT_NEAR(used, one.book.bowl.dough.si(), 1e-9);
    EXPECT_NEAR(finished, 0.89 * used, 1e-9);
    const bool water_takes_up_the_rest =
        std::any_of(items.begin(), items.end(), [](const Listed& item) {
          return item.counted.si() > 0 && item.counted < item.used;
        });
    if (water_takes_up_the_rest) {
      EXPECT_NEAR(counted, finished, 1e-9) << one.text;
    }
    if (left < used * 0.999) {
      EXPECT_NEAR(left, finished, 0.02 * finished) << one.text;
    }
  }
}

/// Every value of the nutrition table with its range: none below zero, the middle within it.
TEST(LabelLaws, RangesHoldTheirMiddleAndNoneIsBelowNothing) {
  std::mt19937_64 random(24);
  for (int i = 0; i < 60; ++i) {
    for (const Law law : {Law::eu, Law::us}) {
      Drawn one = drawn(random, law, "");
      std::vector<LoafDraw> draws;
      for (int k = 0; k < 20; ++k) {
        std::normal_distribution<double> normal;
        LoafDraw draw = one.book;
        for (std::size_t p = 0; p < one.bake.bowl.size(); ++p) {
          draw.settled[p] = larder::drawn(composed_of(one.bake, one.bake.bowl[p]), [&] {
                              return normal(random);
                            }).value();
        }
        draw.fermented.sugar_used = 30.0 * gram;
        draw.fermented.sugar_left = 1.0 * gram;
        draws.push_back(draw);
      }
      const Label made = label(one.bake, one.book, draws, {law, Mass(), {}});
      for (const NutritionLine& line : made.nutrition) {
        EXPECT_GE(line.in_100_g.low, 0) << line.name << "\n" << one.text;
        EXPECT_LE(line.in_100_g.low, line.in_100_g.middle) << line.name;
        EXPECT_GE(line.in_100_g.high, line.in_100_g.middle) << line.name;
      }
    }
  }
}

}  // namespace

}  // namespace barm::shop
