// Any text at all: it is read or refused, weighed and mended, and never a crash, a hang or a number
// that is none.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "base/require.h"
#include "formula/bowl.h"
#include "formula/read.h"
#include "formula/solve.h"

namespace {

void weigh_and_mend(const barm::formula::Bake& bake) {
  using barm::require;
  const auto bowl = barm::formula::in_the_bowl(bake);
  require(bowl.has_value(), "what can be read can be weighed");
  require(bowl->dough.si() > 0 && std::isfinite(bowl->dough.si()), "a dough weighs something");
  require(std::isfinite(bowl->ph.value()), "a dough has a pH");
  require(std::isfinite(bowl->real_hydration()), "a dough has a hydration");
  const auto mend = barm::formula::mend(bake);
  require(mend.has_value(), "what can be weighed can be mended, or is told why not");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto bake = barm::formula::parse_bake(text, "fuzz.toml");
  if (bake) {
    weigh_and_mend(*bake);
  } else {
    barm::require(!bake.error().message.empty(), "a refusal has words");
  }
  return 0;
}
