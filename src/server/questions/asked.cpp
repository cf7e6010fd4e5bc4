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
    : options(options_of(fields, context)), doughs_(context.doughs), dough_(context.dough) {
  formula::Bake bake = asked_bake(fields, context.stored);
  service::Begun start = asked_start(fields, bake, context.stored, context.watch);
  if (const auto id = fields.text("bake_id", "the id of a bake in the daybook")) {
    kept_ = context.stored.kept(*id);
    kept_->record.mixed_at = bake.clock ? bake.clock->instant(Time{}) : std::nullopt;
    batch = service::batch_of(*kept_, std::move(bake), std::move(start), context.now);
  } else {
    batch.clock = service::clock_of(bake);
    batch.bake = std::move(bake);
    batch.start = std::move(start);
  }
  options.prior = &batch.start.prior;
}

service::ForeseeAnswer Asked::foreseen() const {
  const auto work = [&] {
    return std::make_shared<const service::ForeseeAnswer>(
        got(service::foresee(batch.bake, batch.as_it_stands(options))));
  };
  service::ForeseeAnswer answer = *(dough_.empty() ? work() : doughs_->foreseen.to(dough_, work));
  answer.now = batch.now;
  return answer;
}

KnownDoughs::Read Asked::known_read(const service::Batch& as_read) const {
  const auto work = [&] {
    // A dough is read seldom and takes its second: all of the machine's threads share it.
    forecast::Options by_all = options;
    by_all.threads = 0;
    return std::make_shared<const service::ReadAnswer>(got(service::read(as_read, by_all)));
  };
  return dough_.empty() ? work() : doughs_->read.to(dough_, work);
}

service::ReadAnswer Asked::read(const service::Batch& as_read) const {
  service::ReadAnswer answer = *known_read(as_read);
  if (batch.now) answer.now = batch.now;
  return answer;
}

std::shared_ptr<const estimation::Learned> Asked::learned(const service::Batch& as_read) const {
  const forecast::Options usual;
  const bool as_usual = options.horizon == usual.horizon && options.draws <= usual.draws;
  const bool as_planned = batch.ticked.empty();
  if (dough_.empty() || as_read.readings.rows.empty() || !as_usual || !as_planned) return nullptr;
  const KnownDoughs::Read read = known_read(as_read);
  return {read, &read->learned};
}

service::Batch Asked::with_typed_readings(const std::vector<std::string>& typed,
                                          std::optional<Length> start_mark) const {
  service::Batch out = batch;
  out.readings =
      got(estimation::with_typed({}, typed, {.clock = batch.clock, .start_mark = start_mark}));
  return out;
}

service::Batch Asked::with_kept_readings(Fields& fields, std::optional<Length> start_mark) const {
  const Json* unsent = fields.find("unsent");
  if (!kept_) {
    if (unsent != nullptr) refuse_field("/unsent", "belongs to a bake of the daybook: bake_id");
    return batch;
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
  service::Batch out = batch;
  if (kept_->record.mixed_at) {
    out.readings = estimation::readings_from(service::rows_of(all, *kept_->record.mixed_at),
                                             {.clock = batch.clock, .start_mark = start_mark});
  }
  return out;
}

}  // namespace barm::server
