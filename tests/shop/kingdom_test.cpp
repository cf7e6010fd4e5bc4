// The United Kingdom: Bread and Flour Regulations 1998; weights of unwrapped bread.
#include <gmock/gmock.h>

#include "shop/labels.h"
#include "support/matchers.h"

namespace barm::shop {

namespace {

using barm::test::labelled;
using barm::test::list_of;
using barm::test::loaf;
using barm::test::questions_of;
using testing::HasSubstr;
using testing::Not;

const std::string kingdom_lines = "water = \"600 g\"\nsalt = \"20 g\"\n";

TEST(Kingdom, DraftsTheFlourWithWhatIsAddedToIt) {
  const std::string text = loaf("Loaf", kingdom_lines);
  EXPECT_THAT(list_of(labelled(text, Law::uk)),
              HasSubstr("WHEAT flour (with calcium carbonate, iron, niacin, thiamin)"));
  EXPECT_THAT(list_of(labelled("mixed = \"2026-12-13T07:00\"\n" + text, Law::uk)),
              HasSubstr("thiamin, folic acid)"));
  EXPECT_THAT(list_of(labelled(text + "[label]\nfortified = \"no\"\n", Law::uk)),
              HasSubstr("Ingredients: WHEAT flour, "));
  EXPECT_THAT(list_of(labelled(text)), Not(HasSubstr("calcium")));
}

TEST(Kingdom, KeepsWholemealForWholemealAlone) {
  const std::string mixed =
      loaf("Wholemeal loaf", "\"wholemeal flour\" = \"500 g\"\nwater = \"900 g\"\n");
  EXPECT_THAT(questions_of(labelled(mixed, Law::uk)), HasSubstr("only when all of its flour"));
  EXPECT_THAT(questions_of(labelled(mixed)), Not(HasSubstr("only when all of its flour")));
  const Label whole = labelled(
      "name = \"Wholemeal loaf\"\npieces = 1\n[bowl]\n\"wholemeal flour\" = \"500 g\"\n"
      "water = \"350 g\"\n",
      Law::uk);
  EXPECT_THAT(questions_of(whole), Not(HasSubstr("only when all of its flour")));
}

TEST(Kingdom, AsksAfterTheWordSourdoughOnlyWhereThereIsOne) {
  const std::string asked = "May it be called sourdough?";
  const auto questions = [](const std::string& name, const std::string& lines) {
    return questions_of(labelled(loaf(name, lines), Law::uk));
  };
  EXPECT_THAT(questions("Loaf", kingdom_lines), Not(HasSubstr(asked)));
  EXPECT_THAT(questions("Sourdough loaf", kingdom_lines), HasSubstr(asked));
  EXPECT_THAT(questions("Loaf", "water = \"600 g\"\n\"rye sour\" = \"200 g\"\n"), HasSubstr(asked));
}

TEST(Kingdom, AsksForTheWeightOfAnUnwrappedLoaf) {
  const auto asked = [](int dough) {
    return questions_of(labelled("name = \"Loaf\"\npieces = 1\npiece = \"" + std::to_string(dough) +
                                     " g\"\nloss = { bake = \"0 %\" }\n[bowl]\n"
                                     "\"white bread flour\" = \"100 %\"\nwater = \"65 %\"\n",
                                 Law::uk));
  };
  for (const int right : {250, 300, 400, 800, 1200})
    EXPECT_THAT(asked(right), Not(HasSubstr("multiple"))) << right;
  for (const int wrong : {310, 500, 720, 1000})
    EXPECT_THAT(asked(wrong), HasSubstr("multiple")) << wrong;
}

TEST(Kingdom, CitesItsOwnLaw) {
  EXPECT_EQ(label_rule("quid", Law::uk).law, "assimilated Reg. (EU) 1169/2011, Art. 22(1)");
  EXPECT_EQ(label_rule("quid", Law::eu).law, "Reg. (EU) 1169/2011, Art. 22(1)");
  const Label made =
      labelled(loaf("Wine loaf", "\"red wine\" = \"600 g\"\n" + kingdom_lines), Law::uk);
  for (const auto* lines : {&made.lines, &made.questions}) {
    for (const LabelLine& line : *lines) {
      for (const std::string& id : line.rules)
        EXPECT_FALSE(label_rule(id, Law::uk).law.starts_with("Reg. (EU)")) << id;
    }
  }
}

}  // namespace

}  // namespace barm::shop
