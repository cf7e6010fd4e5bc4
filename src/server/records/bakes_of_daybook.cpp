#include "server/records/bakes_of_daybook.h"

#include "server/records/internal/from_daybook.h"
#include "service/day/under_way.h"
#include "service/daybook/daybook.h"

namespace barm::server {

namespace {

service::Asking asking_of(const Watch& watch) {
  return {.cancelled = watch.cancelled, .progress = watch.progress};
}

}  // namespace

StoredBakes BakesOfDaybook::of(const service::Now& now) {
  StoredBakes out;
  out.now = now;
  out.bake = [this, now](const std::string& id) {
    return from_daybook(service::stored_bake(*open_(), id, now));
  };
  out.unsaved = [this, now](const std::string& id, const std::string& text) {
    return from_daybook(service::unsaved_bake(*open_(), id, text, now));
  };
  out.at_home = [this, now](formula::Bake bake) {
    if (!there_ || !bake.oven) return bake;
    return service::at_home(std::move(bake), from_daybook(service::house_of(*open_())), now.zone);
  };
  out.text = [this](const std::string& id) {
    return from_daybook(open_()->get<storage::Bake>(id)).toml;
  };
  out.named = [this, now](const std::string& words) -> Result<service::KnownBake> {
    return service::known_bake(*open_(), words, now);
  };
  out.house = [this] {
    return there_ ? from_daybook(service::house_of(*open_())) : service::Inventory();
  };
  out.shelf = [this] { return from_daybook(open_()->list<storage::Bottle>()); };
  out.anew = [this, now](const service::MadePlan& made, const Watch& watch) {
    return from_daybook(service::day_anew(*open_(), made, now, watch.cancelled));
  };
  out.kept = [this](const std::string& id) {
    const auto lease = open_();
    return from_daybook(service::kept_bake(*lease, from_daybook(lease->get<storage::Bake>(id))));
  };
  out.setting = [this](const std::string& id) { return setting(id); };
  out.begun = [this, now](const Starting& starting, const Watch& watch) {
    return begun(starting, watch, now);
  };
  out.culture = [this, now](const std::string& id, bool anew, const Watch& watch) {
    const auto lease = open_();
    const auto record = from_daybook(lease->get<storage::Culture>(id));
    service::Asking asking = asking_of(watch);
    asking.anew = anew;
    return from_daybook(service::kept_culture(*lease, record, now, asking));
  };
  return out;
}

service::Begun BakesOfDaybook::begun(const Starting& starting,
                                     const Watch& watch,
                                     const service::Now& now) {
  // How far the learning is says nothing of how far the question is.
  service::Asking asking = asking_of({watch.cancelled, nullptr});
  asking.but = starting.bake_id;
  const bool by_bake = !starting.culture && !starting.bake_id.empty();
  const auto culture = by_bake ? from_daybook(open_()->get<storage::Bake>(starting.bake_id)).culture
                               : starting.culture;
  if (culture.value_or("").empty()) return {};
  const auto known = from_daybook(cultures_.of(*open_(), *culture, now, asking));
  return from_daybook(service::begun_from(*known, starting.bake));
}

std::string BakesOfDaybook::setting(const std::string& id) const {
  if (!there_) return "";
  const auto found = open_()->get<storage::Setting>(id);
  if (!found && found.error().code == ErrorCode::not_found) return "";
  return from_daybook(found).deleted_at ? "" : from_daybook(found).value;
}

}  // namespace barm::server
