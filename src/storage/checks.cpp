#include "storage/internal/checks.h"

#include <string>

#include "storage/internal/field_check.h"
#include "units/readable.h"

namespace barm::storage::internal {

namespace {

FieldCheck of(const Record& record) {
  FieldCheck check;
  check.id("id", record.id);
  return check;
}

bool is_decimal(const std::string& value) {
  const std::size_t point = value.find('.');
  const std::string whole = value.substr(0, point);
  const std::string part = point == std::string::npos ? "0" : value.substr(point + 1);
  const auto digits = [](const std::string& text) {
    return !text.empty() && text.size() <= 9 &&
           text.find_first_not_of("0123456789") == std::string::npos;
  };
  return digits(whole) && digits(part);
}

bool is_day(const std::string& value) {
  return value.size() == 10 && time::parse_instant(value + "T00:00:00Z").has_value();
}

}  // namespace

std::optional<Error> wrong_with(const Bake& record) {
  FieldCheck check = of(record);
  check.text("title", record.title, title_bytes)
      .that(!record.title.empty() || record.state == "draft", "title", "needs a few words")
      .that(record.tags.size() <= 50, "tags", "at most 50")
      .one_of("state", record.state, {"draft", "planned", "live", "finished", "given_up"})
      .text("toml", record.toml, bake_bytes)
      .id("culture", record.culture)
      .moment("mixed_at", record.mixed_at)
      .moment("finished_at", record.finished_at)
      .that(record.state != "live" || record.mixed_at.has_value(),
            "mixed_at",
            "a live dough was mixed at some time")
      .text("note", record.note);
  for (const std::string& tag : record.tags) check.title("tags", tag);
  return check.result();
}

std::optional<Error> wrong_with(const Culture& record) {
  FieldCheck check = of(record);
  check.title("title", record.title)
      .title("starter", record.starter)
      .title("flour", record.flour)
      .title("feed", record.feed)
      .range("temperature_C", record.temperature_C, -5, 60)
      .range("feed_every_h", record.feed_every_h, 1, 24.0 * 60)
      .range("ripe_weight_g", record.ripe_weight_g, 1, 1e6)
      .text("memory", record.memory, document_bytes)
      .text("note", record.note)
      .that(record.left_out.size() <= 10000, "left_out", "at most 10000");
  for (const std::string& bake : record.left_out) check.id("left_out", bake);
  return check.result();
}

std::optional<Error> wrong_with(const Feeding& record) {
  return of(record)
      .id("culture", record.culture)
      .moment("at", record.at)
      .range("ripe_g", record.ripe_g, 0, 1e6)
      .range("flour_g", record.flour_g, 0, 1e6)
      .range("water_g", record.water_g, 0, 1e6)
      .that(record.flour_g > 0, "flour_g", "a feeding has flour, such as 100")
      .text("flour", record.flour, title_bytes)
      .range("temperature_C", record.temperature_C, -5, 60)
      .text("remark", record.remark)
      .result();
}

std::optional<Error> wrong_with(const Bottle& record) {
  return of(record)
      .title("title", record.title)
      .title("ingredient", record.ingredient)
      .that(record.price.empty() || is_decimal(record.price), "price", "a price such as 9.60")
      .that(record.price.empty() || record.currency.size() == 3,
            "currency",
            "three letters such as EUR")
      .text("currency", record.currency, 3)
      .that(record.priced_on.empty() || is_day(record.priced_on),
            "priced_on",
            "a day such as 2026-11-20")
      .range("size_mL", record.size_mL, 0, 1e6)
      .range("size_g", record.size_g, 0, 1e6)
      .that((record.size_mL > 0) != (record.size_g > 0),
            "size_mL",
            "a bottle has one size, in mL or in g, such as 750 mL")
      .range("left_mL", record.left_mL, 0, record.size_mL)
      .range("left_g", record.left_g, 0, record.size_g)
      .range("whole_bottles", record.whole_bottles, 0, 1e5)
      .range("strength_percent_vol", record.strength_percent_vol, 0, 100)
      .range("sugar_g_per_L", record.sugar_g_per_L, 0, 1500)
      .that(!record.opened_on || is_day(*record.opened_on), "opened_on", "a day such as 2026-11-20")
      .text("toml", record.toml)
      .text("remark", record.remark)
      .result();
}

std::optional<Error> wrong_with(const ReadingRecord& record) {
  const bool says_something = record.height_mm || record.edge_mm || record.dome_mm ||
                              record.ratio || record.sample_C || record.bulk_C || record.room_C ||
                              record.ph || !record.remark.empty();
  return of(record)
      .id("bake", record.bake)
      .moment("at", record.at)
      .that(says_something, "height_mm", "a reading has a number or a remark")
      .range("height_mm", record.height_mm, readable_height_mm)
      .range("edge_mm", record.edge_mm, readable_height_mm)
      .range("dome_mm", record.dome_mm, readable_height_mm)
      .range("ratio", record.ratio, readable_ratio)
      .range("sample_C", record.sample_C, readable_warmth_C)
      .range("bulk_C", record.bulk_C, readable_warmth_C)
      .range("room_C", record.room_C, readable_warmth_C)
      .range("ph", record.ph, readable_ph)
      .text("remark", record.remark)
      .result();
}

std::optional<Error> wrong_with(const Mark& record) {
  return of(record)
      .id("bake", record.bake)
      .title("what", record.what)
      .text("of", record.of, title_bytes)
      .that(!record.stage || (*record.stage >= 0 && *record.stage < 1000),
            "stage",
            "its place in the bake file, 0 the first")
      .range("poured_g", record.poured_g, 0, 5e6)
      .moment("at", record.at)
      .result();
}

std::optional<Error> wrong_with(const Photo& record) {
  const int owners = (record.bake ? 1 : 0) + (record.loaf ? 1 : 0) + (record.culture ? 1 : 0);
  return of(record)
      .id("bake", record.bake)
      .id("loaf", record.loaf)
      .id("culture", record.culture)
      .that(owners == 1, "bake", "a picture belongs to one bake, loaf or culture")
      .moment("taken_at", record.taken_at)
      .text("caption", record.caption)
      .result();
}

std::optional<Error> wrong_with(const Loaf& record) {
  FieldCheck check = of(record);
  check.id("bake", record.bake)
      .text("title", record.title, title_bytes)
      .moment("baked_at", record.baked_at)
      .range("dough_g", record.dough_g, 1, 1e6)
      .range("baked_g", record.baked_g, 1, 1e6)
      .range("height_mm", record.height_mm, 1, 5000)
      .range("width_mm", record.width_mm, 1, 5000)
      .range("length_mm", record.length_mm, 1, 5000)
      .range("spring", record.spring, 0.1, 10)
      .text("crumb", record.crumb)
      .text("crust", record.crust)
      .text("taste", record.taste)
      .that(record.scores.size() <= 100, "scores", "at most 100");
  for (const auto& [title, value] : record.scores)
    check.title("scores", title).range("scores", value, -1e6, 1e6);
  return check.result();
}

std::optional<Error> wrong_with(const Scale& record) {
  return of(record)
      .title("title", record.title)
      .range("low", record.low, -1e6, 1e6)
      .range("high", record.high, -1e6, 1e6)
      .that(record.high > record.low, "high", "more than low, such as 1 to 5")
      .text("low_words", record.low_words, title_bytes)
      .text("high_words", record.high_words, title_bytes)
      .result();
}

std::optional<Error> wrong_with(const Remark& record) {
  return of(record)
      .id("bake", record.bake)
      .id("culture", record.culture)
      .moment("at", record.at)
      .that(!record.text.empty(), "text", "needs a few words")
      .text("text", record.text)
      .result();
}

std::optional<Error> wrong_with(const Setting& record) {
  return of(record).text("value", record.value, bake_bytes).result();
}

std::optional<Error> wrong_with(const TestBake& record) {
  return of(record)
      .title("title", record.title)
      .text("question", record.question)
      .one_of("state", record.state, {"planned", "live", "finished", "given_up"})
      .text("document", record.document, document_bytes)
      .result();
}

std::optional<Error> wrong_with(const TestMember& record) {
  return of(record)
      .id("test_bake", record.test_bake)
      .id("bake", record.bake)
      .title("label", record.label)
      .result();
}

std::optional<Error> wrong_with(const Equipment& record) {
  return of(record)
      .title("title", record.title)
      .one_of("what", record.what, {"oven", "fridge", "mixer"})
      .text("toml", record.toml)
      .text("measured", record.measured, document_bytes)
      .text("remark", record.remark)
      .result();
}

}  // namespace barm::storage::internal
