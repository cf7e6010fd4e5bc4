#include "formula/label_fields.h"

#include <gmock/gmock.h>

#include "formula/read.h"
#include "support/matchers.h"
#include "support/printers.h"

namespace barm::formula {

namespace {

using testing::HasSubstr;

const std::string label_bowl = "[bowl]\n\"white bread flour\" = \"1 kg\"\nwater = \"600 g\"\n";

TEST(LabelTable, IsRead) {
  const auto bake = parse_bake(
      label_bowl +
          "[label]\nlegal_name = \"wheat bread\"\nmaker = \"Dyke End\"\nbest_before = 2026-12-03\n"
          "slices = 16\nlargest_side = \"75 cm²\"\niron = \"1.4 mg\"\nlanguage = \"de\"\n",
      "b.toml");
  ASSERT_TRUE(bake) << bake.error().text();
  EXPECT_EQ(bake->label.legal_name, "wheat bread");
  EXPECT_EQ(bake->label.best_before, "2026-12-03");
  EXPECT_EQ(bake->label.slices, 16);
  EXPECT_DOUBLE_EQ(*bake->label.largest_side, 75);
  EXPECT_DOUBLE_EQ(*bake->label.iron, 1.4);
  EXPECT_EQ(bake->label.language, "de");
}

TEST(LabelTable, SaysWhatIsWrongAndWhere) {
  const auto wrong = [](const std::string& line) {
    const auto bake = parse_bake(label_bowl + "[label]\n" + line + "\n", "b.toml");
    return bake ? std::string("read") : bake.error().text();
  };
  EXPECT_THAT(wrong("best_before = \"2026-02-30\""), HasSubstr("b.toml:5:1"));
  EXPECT_THAT(wrong("best_before = \"2026-02-30\""), HasSubstr("is no day"));
  EXPECT_THAT(wrong("language = \"nl\""), HasSubstr("none of en, de, fr, it, es"));
  EXPECT_THAT(wrong("iron = \"1.4\""), HasSubstr("1.4 mg"));
  EXPECT_THAT(wrong("slices = 0"), HasSubstr("from 1 to 100"));
  EXPECT_THAT(wrong("lott = \"L1\""), HasSubstr("Near it: lot"));
}

TEST(OwnAllergens, AreOfTheClosedList) {
  const auto own = [](const std::string& allergens) {
    const auto bake = parse_bake(
        label_bowl + "paste = \"50 g\"\n[ingredient.paste]\ngroup = \"other\"\nwater = \"5 %\"\n" +
            "allergens = [" + allergens + "]\n",
        "b.toml");
    return bake ? testing::PrintToString(bake->bowl.back().ingredient.allergens)
                : bake.error().text();
  };
  EXPECT_THAT(own("\"wheaat\""), HasSubstr("Near it: wheat"));
  EXPECT_THAT(own("\"nuts\""), HasSubstr("the law requires the nut by its name"));
  EXPECT_EQ(own("\"Walnut\", \"walnuts\", \"soy\""), "{ \"walnuts\", \"soya\" }");
  EXPECT_EQ(own(""), "{}");
}

TEST(OwnList, HasItsBracesClosed) {
  const auto own = [](const std::string& list) {
    return parse_bake(
        label_bowl + "paste = \"50 g\"\n[ingredient.paste]\ngroup = \"other\"\nwater = \"5 %\"\n" +
            "list = \"" + list + "\"\n",
        "b.toml");
  };
  EXPECT_TRUE(own("cocoa, {milk} powder"));
  for (const char* wrong : {"cocoa, {milk powder", "cocoa} milk", "{{milk}}"}) {
    const auto bake = own(wrong);
    ASSERT_FALSE(bake) << wrong;
    EXPECT_THAT(bake.error().text(), HasSubstr("b.toml:8:"));
  }
}

}  // namespace

}  // namespace barm::formula
