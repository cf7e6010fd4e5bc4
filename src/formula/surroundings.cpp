#include "formula/internal/surroundings.h"

#include <fmt/format.h>

#include "formula/internal/nearest.h"
#include "formula/internal/reading.h"
#include "formula/words.h"

namespace barm::formula::internal {

namespace {

Vessel vessel_of(const Node& value) {
  const std::string& word = text_of(value, "tub");
  if (word == "tub") return Vessel::tub;
  if (word == "bowl") return Vessel::bowl;
  if (word == "basket") return Vessel::basket;
  if (word == "tray") return Vessel::tray;
  stop(value.place,
       fmt::format("{} is no vessel: write \"tub\", \"bowl\", \"basket\" or \"tray\"",
                   in_quotes(word)));
}

bool fan_of(const Node& value) {
  const std::string& word = text_of(value, "still");
  if (word == "fan") return true;
  if (word == "still") return false;
  stop(value.place, "air is \"still\" or \"fan\"");
}

Length length_of(const Node& value, std::string_view example, Length least, Length most) {
  const Length length = at_place(parse_length(text_of(value, example)), value.place);
  if (length >= least && length <= most) return length;
  stop(value.place,
       fmt::format("lies between {:g} mm and {:g} mm", least.in(millimetre), most.in(millimetre)));
}

Mass mass_up_to(const Node& value, std::string_view example, Mass least, Mass most) {
  const Mass mass = mass_of(value, example);
  if (mass >= least && mass <= most) return mass;
  stop(value.place, fmt::format("lies between {:g} g and {:g} g", least.in(gram), most.in(gram)));
}

}  // namespace

Surroundings read_surroundings(const Node& stage) {
  Surroundings surroundings;
  if (const Node* vessel = find(stage, "vessel")) surroundings.vessel = vessel_of(*vessel);
  if (const Node* width = find(stage, "width")) {
    surroundings.width = length_of(*width, "32 cm", 30.0 * millimetre, 3.0 * metre);
  }
  if (const Node* each = find(stage, "each")) {
    surroundings.each = mass_up_to(*each, "5 kg", 20.0 * gram, 5000.0 * kilogram);
  }
  if (const Node* air = find(stage, "air")) surroundings.fan = fan_of(*air);
  const Node* opens = find(stage, "opens_at");
  const Node* recovers = find(stage, "recovers");
  if (opens != nullptr) surroundings.opens_at = dough_temperature(*opens);
  if (recovers != nullptr) surroundings.recovers = time_of(*recovers);
  if ((opens != nullptr) != (recovers != nullptr)) {
    stop((opens != nullptr ? opens : recovers)->place,
         "opens_at and recovers go together: how warm the air is when the dough comes in, and how "
         "long until half of that is gone");
  }
  return surroundings;
}

Jar read_jar(const Entry& entry) {
  check_table(entry, "[jar]");
  const Node& table = entry.value;
  check_keys(table, "of the jar", {"diameter", "height", "dough", "temperature"});
  Jar jar;
  const Node* diameter = find(table, "diameter");
  if (diameter == nullptr) stop(entry.place, "the jar needs diameter = \"70 mm\", inside");
  jar.diameter = length_of(*diameter, "70 mm", 15.0 * millimetre, 300.0 * millimetre);
  if (const Node* height = find(table, "height")) {
    jar.height = length_of(*height, "140 mm", 20.0 * millimetre, 600.0 * millimetre);
  }
  if (const Node* dough = find(table, "dough")) {
    jar.dough = mass_up_to(*dough, "60 g", 5.0 * gram, 3000.0 * gram);
    jar.dough_given = true;
  }
  if (const Node* at = find(table, "temperature")) jar.temperature = dough_temperature(*at);
  return jar;
}

}  // namespace barm::formula::internal
