#include "server/questions/asked.h"

#include <algorithm>
#include <utility>

#include "storage/record_json.h"

namespace barm::server {

namespace {

// A reading on its way to the daybook: a record as it would be saved.
storage::ReadingRecord unsent_reading(nlohmann::json record,
                                      const std::string& bake,
                                      const std::string& field) {
  if (!record.is_object())
    refuse_field(field, "needs a reading such as {\"at\": …, \"height_mm\": 52}");
  record["bake"] = bake;
  auto reading = storage::from_json<storage::ReadingRecord>(record);
  if (!reading) throw Refused{problem(reading.error(), field + "/" + reading.error().where)};
  return *std::move(reading);
}

}  // namespace

std::string field_meant(const std::string& where) {
  static constexpr std::pair<std::string_view, const char*> table[] = {
      {"--aim", "/aims"},         {"--to", "/strength"},   {"ratio", "/feed"},
      {"starter", "/starter"},    {"drink", "/drink"},     {"flour", "/flour"},
      {"fed", "/fed_at"},         {"peak-at", "/peak_at"}, {"need", "/need_g"},
      {"chance", "/chance"},      {"within", "/within_h"}, {"friction", "/friction_C"},
      {"water", "/water_g"},      {"tap", "/tap_C"},       {"share", "/share_of_liquid"},
      {"--reading", "/readings"}, {"alarm", "/alarm_min"}, {"mixed", "/bake/mixed"},
      {"oven", "/oven"},
  };
  for (const auto& [name, field] : table) {
    if (where == name) return field;
  }
  for (const char* text : {"bake", "prices", "buyers"}) {
    if (where.starts_with(text)) return std::string("/") + text;
  }
  return "";
}

forecast::Options options_of(Fields& fields, const AskContext& context) {
  forecast::Options options;
  options.draws = static_cast<int>(
      fields.whole("draws", 20, 20000, "how many doughs to simulate, from 20 to 20000")
          .value_or(400));
  options.seed = static_cast<unsigned long long>(
      fields.whole("seed", 0, 1'000'000'000, "a whole number from 0 on").value_or(1));
  options.horizon =
      fields.number("horizon_h", 1, 336, "hours from 1 to 336, such as 72").value_or(72) * hour;
  const auto warm =
      fields.number("temperature_C", 0, 45, "a dough's temperature from 0 to 45, such as 24");
  if (warm) options.temperature = Temperature::from_celsius(*warm);
  options.threads = context.threads;
  options.cancelled = context.watch.cancelled;
  options.progress = context.watch.progress;
  return options;
}

Asked::Asked(Fields& fields, const AskContext& context)
    : options(options_of(fields, context)),
      bake(asked_bake(fields, context.stored)),
      doughs_(context.doughs),
      dough_(context.dough),
      now_(context.now),
      start_(asked_start(fields, bake, context.stored, context.watch)),
      prior_(estimation::prior_of(start_.belief)) {
  options.prior = &prior_;
  const auto id = fields.text("bake_id", "the id of a bake in the daybook");
  if (!id) return;
  kept_ = context.stored.kept(*id);
  kept_->record.mixed_at = bake.clock ? bake.clock->instant(Time{}) : std::nullopt;
}

forecast::Options Asked::as_it_stands() const {
  forecast::Options standing = options;
  if (!kept_ || kept_->record.state != "live") return standing;
  standing.done = service::done_of(*kept_);
  standing.now = service::age_of(kept_->record, now_);
  return standing;
}

service::ForeseeAnswer Asked::foreseen() const {
  const forecast::Options standing = as_it_stands();
  const auto work = [&] {
    return std::make_shared<const service::ForeseeAnswer>(got(service::foresee(bake, standing)));
  };
  service::ForeseeAnswer answer = *(dough_.empty() ? work() : doughs_->foreseen.to(dough_, work));
  answer.now = standing.now;
  return answer;
}

KnownDoughs::Read Asked::known_read(const service::ReadRequest& request) const {
  const auto work = [&] {
    return std::make_shared<const service::ReadAnswer>(
        got(service::read(bake, request, as_it_stands())));
  };
  return dough_.empty() ? work() : doughs_->read.to(dough_, work);
}

service::ReadAnswer Asked::read(const service::ReadRequest& request) const {
  service::ReadAnswer answer = *known_read(request);
  if (const auto now = as_it_stands().now) answer.now = now;
  return answer;
}

std::shared_ptr<const estimation::Learned> Asked::learned(
    const service::ReadRequest& request) const {
  const forecast::Options usual;
  const bool as_usual = options.horizon == usual.horizon && options.draws <= usual.draws;
  const bool nothing_read = request.known.empty() && request.typed.empty();
  if (dough_.empty() || nothing_read || !as_usual || !as_it_stands().done.empty()) return nullptr;
  const KnownDoughs::Read read = known_read(request);
  return {read, &read->learned};
}

std::vector<estimation::Reading> Asked::read_of_it(Fields& fields) const {
  const Json* unsent = fields.find("unsent");
  if (!kept_) {
    if (unsent != nullptr) refuse_field("/unsent", "belongs to a bake of the daybook: bake_id");
    return {};
  }
  std::vector<storage::ReadingRecord> all = kept_->readings;
  if (unsent != nullptr) {
    if (!unsent->is_array()) refuse_field("/unsent", "needs a list of readings");
    for (std::size_t i = 0; i < unsent->size(); ++i) {
      storage::ReadingRecord one =
          unsent_reading((*unsent)[i], kept_->record.id, "/unsent/" + std::to_string(i));
      const bool there =
          !one.id.empty() && std::any_of(all.begin(), all.end(), [&](const auto& known) {
            return known.id == one.id;
          });
      if (!there) all.push_back(std::move(one));
    }
  }
  if (!kept_->record.mixed_at) return {};
  return service::rows_of(all, *kept_->record.mixed_at);
}

}  // namespace barm::server
