#include "server/questions/asked_bake.h"

#include <fmt/format.h>

#include "formula/read.h"
#include "server/door/problem.h"
#include "service/bake/form.h"

namespace barm::server {

namespace {

constexpr std::size_t most_bytes = 200'000;  // of a bake's text

void lay_over(formula::Bake& bake, const Json& weighed, Fields& fields) {
  Fields grams(weighed, fields.pointer("weighed_g"));
  for (const auto& [ingredient, value] : weighed.items()) {
    const auto at = bake.find(ingredient);
    if (!at) refuse_field(grams.pointer(ingredient), "is not in this bowl");
    const auto mass = grams.number(ingredient, 0, 1e7, "grams such as 600");
    if (mass) bake.bowl[*at].weighed = *mass * gram;
  }
}

// The JSON pointer that an error of this bake is about.
std::string field_of(const Error& error, const AskedText& asked) {
  const auto line = static_cast<std::size_t>(error.line);
  if (line == 0 || line > asked.pointers.size()) return asked.field;
  return asked.field + asked.pointers[line - 1];
}

// The words of its file are those of the wall where it is asked.
void put_on_the_clock(formula::Bake& bake, const AskedText& asked, const time::Zone& zone) {
  if (!bake.mixed_at) return;
  auto clock = time::WallClock::mixed(*bake.mixed_at, zone);
  if (!clock) throw Refused{problem(clock.error(), asked.field + "/mixed")};
  bake.clock = *std::move(clock);
}

bool is_by_id(Fields& fields, const std::string& key, const std::string& id_key) {
  if (fields.find(key) != nullptr) return false;
  if (fields.find(id_key) == nullptr)
    refuse_field(fields.pointer(key), fmt::format("needs a bake here, or {}", id_key));
  return true;
}

}  // namespace

AskedText asked_text(Fields& fields,
                     const std::string& key,
                     const std::string& id_key,
                     const StoredBakes& stored) {
  if (is_by_id(fields, key, id_key)) {
    const auto id = fields.text(id_key, "the id of a bake in the daybook");
    return {stored.text(*id), fields.pointer(id_key), {}};
  }
  const Json& bake = *fields.find(key);
  const std::string field = fields.pointer(key);
  if (bake.is_string()) {
    AskedText asked{bake.get<std::string>(), field, {}};
    if (asked.text.size() > most_bytes)
      refuse_field(field, fmt::format("is longer than {} bytes: that is not a bake", most_bytes));
    return asked;
  }
  auto written = service::bake_text(bake);
  if (!written) {
    const Error& error = written.error();
    throw Refused{problem(Error{error.code, "", error.message}, field + error.where)};
  }
  return {std::move(written->text), field, std::move(written->pointers)};
}

formula::Bake bake_of(const AskedText& asked) {
  auto bake = formula::parse_bake(asked.text, "bake");
  if (bake) return std::move(*bake);
  Error error = bake.error();
  const std::string field = field_of(error, asked);
  // The lines of an object are ours, not the client's.
  if (!asked.pointers.empty()) error = Error{error.code, "", error.message};
  throw Refused{problem(error, field)};
}

formula::Bake asked_bake(Fields& fields,
                         const std::string& key,
                         const std::string& id_key,
                         const StoredBakes& stored) {
  const auto id = fields.text(id_key, "the id of a bake in the daybook");
  if (is_by_id(fields, key, id_key)) return stored.bake(id.value_or(""));
  const AskedText asked = asked_text(fields, key, id_key, stored);
  formula::Bake bake = bake_of(asked);
  if (id) return stored.unsaved(*id, asked.text);
  put_on_the_clock(bake, asked, stored.now.zone);
  return stored.at_home(std::move(bake));
}

service::Begun asked_start(Fields& fields,
                           const formula::Bake& bake,
                           const StoredBakes& stored,
                           const Watch& watch) {
  Starting starting{bake, "", fields.text("culture_id", "the id of a culture in the daybook")};
  starting.bake_id = fields.text("bake_id", "the id of a bake in the daybook").value_or("");
  return stored.begun(starting, watch);
}

formula::Bake asked_bake(Fields& fields, const StoredBakes& stored) {
  formula::Bake bake = asked_bake(fields, "bake", "bake_id", stored);
  if (const Json* weighed = fields.find("weighed_g")) lay_over(bake, *weighed, fields);
  return bake;
}

}  // namespace barm::server
