#include "service/testbake/show.h"

#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <set>

#include "mead_test.h"
#include "support/matchers.h"

namespace barm::service {

namespace {

using test::Holds;
using testing::HasSubstr;
using testing::Not;

const TestBakeShow& shown() {
  static const TestBakeShow show = testbake_show(test::mead_test().value(), {}).value();
  return show;
}

TEST(Page, StandsAloneAndKeepsPrivateThingsToItself) {
  const std::string& page = shown().files.front().bytes;
  EXPECT_EQ(shown().files.front().name, "page.html");
  EXPECT_THAT(page, HasSubstr("It is the alcohol."));
  EXPECT_THAT(page, HasSubstr("<svg"));
  EXPECT_THAT(page, Not(HasSubstr("src=")));
  EXPECT_THAT(page, Not(HasSubstr("href=")));
  EXPECT_THAT(page, Not(HasSubstr("@import")));
  EXPECT_THAT(page, Not(HasSubstr("url(")));
  EXPECT_THAT(page, HasSubstr("@media print"));
  EXPECT_THAT(page, Not(HasSubstr("old barrel")));
  EXPECT_THAT(page, Not(HasSubstr("EUR")));
}

TEST(Page, ShowsRemarksAndPricesWhenAsked) {
  const auto test = test::mead_test().value();
  const auto plan = testbake_plan(test).value();
  const std::string page = testbake_page(plan, std::nullopt, std::nullopt, {true, true});
  EXPECT_THAT(page, HasSubstr("old barrel"));
  EXPECT_THAT(page, HasSubstr("EUR"));
}

TEST(Page, EveryDoughIsARecipeOfAnOpenVocabulary) {
  const std::string& page = shown().files.front().bytes;
  const std::string open = "<script type=\"application/ld+json\">";
  const std::size_t from = page.find(open) + open.size();
  const auto data = nlohmann::json::parse(page.substr(from, page.find("</script>") - from));
  ASSERT_EQ(data.size(), 6U);
  for (const auto& recipe : data) {
    EXPECT_EQ(recipe.at("@context"), "https://schema.org");
    EXPECT_EQ(recipe.at("@type"), "Recipe");
    EXPECT_GE(recipe.at("recipeIngredient").size(), 4U);
    EXPECT_FALSE(recipe.at("recipeInstructions").empty());
  }
}

TEST(Page, NothingIsMoreThanNearlyCertain) {
  const auto& page = shown().files.front().bytes;
  EXPECT_THAT(page, Not(HasSubstr("100 in 100")));
}

TEST(Page, AHostileNameStaysAName) {
  auto test = test::mead_test().value();
  test.name = "</script><script>alert(1)</script>";
  const auto page = testbake_page(testbake_plan(test).value(), std::nullopt, std::nullopt, {});
  EXPECT_THAT(page, Not(HasSubstr("<script>alert")));
}

TEST(Show, EachPictureComesWideSquareAndTallOnPaper) {
  std::set<std::string> names;
  for (const auto& file : shown().files) {
    names.insert(file.name);
    EXPECT_GT(file.bytes.size(), 300U) << file.name;
    if (file.name.ends_with("16x9.svg")) {
      EXPECT_THAT(file.bytes, HasSubstr("0 0 1600 900"));
    }
    if (file.name.ends_with(".svg")) {
      EXPECT_THAT(file.bytes, HasSubstr("fill=\"#f6f2e7\"")) << "on paper, " << file.name;
    }
    if (file.name.ends_with("1x1.svg")) {
      EXPECT_THAT(file.bytes, HasSubstr("0 0 1080 1080"));
    }
    if (file.name.ends_with("9x16.svg")) {
      EXPECT_THAT(file.bytes, HasSubstr("0 0 900 1600"));
    }
  }
  for (const char* picture : {"curves", "causes", "reach", "whiteboard"}) {
    for (const char* shape :
         {"-16x9.svg", "-16x9.png", "-1x1.svg", "-1x1.png", "-9x16.svg", "-9x16.png"})
      EXPECT_TRUE(names.count(std::string(picture) + shape)) << picture << shape;
  }
}

}  // namespace

}  // namespace barm::service
