#include "formula/step.h"

#include <gtest/gtest.h>

#include <set>

namespace barm::formula {
namespace {

TEST(StepRow, StandsInThePlaceOfItsStep) {
  EXPECT_EQ(name(Step::mix), "mix");
  EXPECT_EQ(name(Step::bulk), "bulk");
  EXPECT_EQ(name(Step::fold), "fold");
  EXPECT_EQ(name(Step::divide), "divide");
  EXPECT_EQ(name(Step::shape), "shape");
  EXPECT_EQ(name(Step::proof), "proof");
  EXPECT_EQ(name(Step::cold), "cold");
  EXPECT_EQ(name(Step::oven), "oven");
  EXPECT_EQ(name(Step::cooling), "cooling");
}

TEST(StepRow, SaysWhatTheOthersDoNot) {
  std::set<std::string_view> names;
  for (int i = 0; i < step_count; ++i) {
    const StepRow& one = row(static_cast<Step>(i));
    names.insert(one.name);
    const bool by_hand = one.kind == StepKind::handled;
    EXPECT_EQ(one.gas_out > 0, by_hand) << one.name;
    EXPECT_TRUE(!one.by_volume || one.kind == StepKind::stands) << one.name;
  }
  EXPECT_EQ(names.size(), static_cast<std::size_t>(step_count));
}

}  // namespace
}  // namespace barm::formula
