#pragma once
// The invented test bake of examples/, and one of every cause, for the tests of this module.
#include <string>

#include "testbakes/read.h"
#include "testbakes/rivals.h"

namespace barm::test {

inline Result<testbakes::TestBake> mead_test() {
  return testbakes::read_test_bake(std::string(BARM_ROOT) + "/examples/test-bakes/mead.toml");
}

/// A test bake from text, as if it stood in examples/test-bakes/.
inline Result<testbakes::TestBake> from_text(const std::string& text) {
  return testbakes::parse_test_bake(text,
                                    std::string(BARM_ROOT) + "/examples/test-bakes/some-test.toml");
}

/// White wine as three quarters of the liquid, with measured bottle.
inline std::string wine_bake() {
  return std::string(BARM_ROOT) + "/tests/testbakes/wine-loaf.toml";
}

}  // namespace barm::test
