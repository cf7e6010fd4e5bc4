#include "service/bake/prepared.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "service/internal/object.h"
#include "service/words.h"

namespace barm::service {

using internal::object;

std::vector<ToPrepare> to_prepare(const formula::Bake& bake, const formula::Bowl& bowl) {
  std::vector<ToPrepare> out;
  for (std::size_t i = 0; i < bake.bowl.size() && i < bowl.lines.size(); ++i) {
    const formula::Portion& portion = bake.bowl[i];
    if (portion.made_of.empty()) continue;
    const Mass makes = bowl.lines[i].plan;
    ToPrepare one{portion.ingredient.name, makes, {}, portion.reading};
    for (const formula::MadeOf& of : portion.made_of)
      one.from.push_back({of.ingredient.name, of.needs * makes});
    out.push_back(std::move(one));
  }
  return out;
}

std::string words(const ToPrepare& one) {
  std::string from;
  for (std::size_t i = 0; i < one.from.size(); ++i) {
    const bool last = i > 0 && i + 1 == one.from.size();
    from += (last    ? " and "
             : i > 0 ? ", "
                     : "") +
            weight(one.from[i].mass) + " of " + one.from[i].name;
  }
  return fmt::format("{} of {}: from {}; {}", weight(one.makes), one.drink, from, one.how);
}

nlohmann::json to_json(const std::vector<ToPrepare>& all) {
  nlohmann::json out = nlohmann::json::array();
  for (const ToPrepare& one : all) {
    nlohmann::json from = nlohmann::json::array();
    for (const ToPrepare::From& of : one.from)
      from.push_back(object({{"ingredient", of.name}, {"mass_g", of.mass.in(gram)}}));
    out.push_back(object({{"ingredient", one.drink},
                          {"mass_g", one.makes.in(gram)},
                          {"from", from},
                          {"how", one.how}}));
  }
  return out;
}

}  // namespace barm::service
