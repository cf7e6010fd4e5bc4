#pragma once
// Small records to fill a daybook with.
#include <string>

#include "storage/daybook.h"
#include "support/folder.h"

namespace barm::storage::test {

inline constexpr time::Instant noon{1795953600};  // 2026-11-29T12:00:00Z

using barm::test::Folder;

inline Bake a_bake(const std::string& id, const std::string& title = "Marsh loaf") {
  Bake bake;
  bake.id = id;
  bake.title = title;
  bake.toml = "name = \"" + title + "\"\n";
  bake.mixed_at = noon;
  return bake;
}

inline ReadingRecord a_reading(const std::string& id,
                               const std::string& bake,
                               double height_mm = 60) {
  ReadingRecord reading;
  reading.id = id;
  reading.bake = bake;
  reading.at = noon;
  reading.height_mm = height_mm;
  return reading;
}

inline Culture a_culture(const std::string& id) {
  Culture culture;
  culture.id = id;
  culture.title = "Sluice culture";
  culture.starter = "stiff ripe levain";
  culture.flour = "white bread flour";
  return culture;
}

inline Equipment an_oven(const std::string& id) {
  Equipment oven;
  oven.id = id;
  oven.title = "Deck oven";
  oven.toml = "holds = 6\ncavity = \"200 L\"\n";
  oven.measured = "[{\"at\": \"2026-11-28T06:00:00Z\"}]";
  oven.remark = "its left corner is hot";
  return oven;
}

inline Bottle a_bottle(const std::string& id) {
  Bottle bottle;
  bottle.id = id;
  bottle.title = "Mead from the shed";
  bottle.ingredient = "dry mead";
  bottle.price = "9.60";
  bottle.currency = "EUR";
  bottle.size_mL = 750;
  bottle.left_mL = 420.5;
  return bottle;
}

}  // namespace barm::storage::test
