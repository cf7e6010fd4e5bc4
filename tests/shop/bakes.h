#pragma once
// What the tests of the shop start from.
#include <gtest/gtest.h>

#include <string>

#include "formula/read.h"
#include "shop/money.h"

namespace barm::test {

inline const shop::Currency euro{"EUR", 2};

/// The bake of that text; the test fails when it cannot be read.
inline formula::Bake bake(const std::string& text) {
  const auto read = formula::parse_bake(text, "b.toml");
  if (read) return *read;
  ADD_FAILURE() << read.error().text();
  return {};
}

}  // namespace barm::test
