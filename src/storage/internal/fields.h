#pragma once
// The fields of each record, named once: columns of the file, keys of JSON and heads of CSV all
// follow from here. The tables themselves stand in schema.cpp; a test holds the two together.
#include <string>
#include <tuple>

#include "storage/records.h"

namespace barm::storage::internal {

template <class T, class M>
struct Field {
  const char* name;
  M T::* member;
};

template <class T, class M>
constexpr Field<T, M> field(const char* name, M T::* member) {
  return {name, member};
}

/// Kind, order of a list, the column that owns a record, the columns a search looks into.
template <class T>
struct Shape;

template <>
struct Shape<Bake> {
  static constexpr Kind kind = Kind::bake;
  static constexpr const char* order = "coalesce(mixed_at, saved_at) DESC, id";
  static constexpr const char* owner = "culture";
  // All that was typed of it, of its readings and its loaves; and its month.
  static constexpr const char* searched =
      "bake.title || ' ' || bake.tags || ' ' || bake.note || ' ' || bake.toml"
      " || ' ' || coalesce((SELECT group_concat(l.title || ' ' || l.crumb || ' ' || l.crust || ' ' "
      "|| l.taste, ' ') FROM loaf l WHERE l.bake = bake.id AND l.deleted_at IS NULL), '')"
      " || ' ' || coalesce((SELECT group_concat(r.remark, ' ') FROM reading r WHERE r.bake = "
      "bake.id AND r.deleted_at IS NULL), '')"
      " || ' ' || coalesce((SELECT group_concat(m.text, ' ') FROM remark m WHERE m.bake = bake.id "
      "AND m.deleted_at IS NULL), '')"
      " || ' ' || rtrim(substr('January  February March    April    May      June     July     "
      "August   SeptemberOctober  November December ', 9 * strftime('%m', coalesce(bake.mixed_at, "
      "bake.saved_at), 'unixepoch') - 8, 9))"
      " || strftime(' %Y %Y-%m-%d', coalesce(bake.mixed_at, bake.saved_at), 'unixepoch')";
  static constexpr auto fields = std::make_tuple(field("title", &Bake::title),
                                                 field("tags", &Bake::tags),
                                                 field("state", &Bake::state),
                                                 field("toml", &Bake::toml),
                                                 field("culture", &Bake::culture),
                                                 field("mixed_at", &Bake::mixed_at),
                                                 field("finished_at", &Bake::finished_at),
                                                 field("note", &Bake::note));
};

template <>
struct Shape<Culture> {
  static constexpr Kind kind = Kind::culture;
  static constexpr const char* order = "title, id";
  static constexpr const char* owner = "";
  static constexpr const char* searched = "title || ' ' || note";
  static constexpr auto fields = std::make_tuple(field("title", &Culture::title),
                                                 field("starter", &Culture::starter),
                                                 field("flour", &Culture::flour),
                                                 field("feed", &Culture::feed),
                                                 field("temperature_C", &Culture::temperature_C),
                                                 field("feed_every_h", &Culture::feed_every_h),
                                                 field("ripe_weight_g", &Culture::ripe_weight_g),
                                                 field("memory", &Culture::memory),
                                                 field("note", &Culture::note),
                                                 field("left_out", &Culture::left_out));
};

template <>
struct Shape<Feeding> {
  static constexpr Kind kind = Kind::feeding;
  static constexpr const char* order = "at, id";
  static constexpr const char* owner = "culture";
  static constexpr const char* searched = "remark";
  static constexpr auto fields = std::make_tuple(field("culture", &Feeding::culture),
                                                 field("at", &Feeding::at),
                                                 field("ripe_g", &Feeding::ripe_g),
                                                 field("flour_g", &Feeding::flour_g),
                                                 field("water_g", &Feeding::water_g),
                                                 field("flour", &Feeding::flour),
                                                 field("temperature_C", &Feeding::temperature_C),
                                                 field("remark", &Feeding::remark));
};

template <>
struct Shape<Bottle> {
  static constexpr Kind kind = Kind::bottle;
  static constexpr const char* order = "title, id";
  static constexpr const char* owner = "";
  static constexpr const char* searched = "title || ' ' || ingredient || ' ' || remark";
  static constexpr auto fields =
      std::make_tuple(field("title", &Bottle::title),
                      field("ingredient", &Bottle::ingredient),
                      field("price", &Bottle::price),
                      field("currency", &Bottle::currency),
                      field("priced_on", &Bottle::priced_on),
                      field("size_mL", &Bottle::size_mL),
                      field("size_g", &Bottle::size_g),
                      field("left_mL", &Bottle::left_mL),
                      field("left_g", &Bottle::left_g),
                      field("whole_bottles", &Bottle::whole_bottles),
                      field("strength_percent_vol", &Bottle::strength_percent_vol),
                      field("sugar_g_per_L", &Bottle::sugar_g_per_L),
                      field("opened_on", &Bottle::opened_on),
                      field("toml", &Bottle::toml),
                      field("remark", &Bottle::remark));
};

template <>
struct Shape<ReadingRecord> {
  static constexpr Kind kind = Kind::reading;
  static constexpr const char* order = "at, id";
  static constexpr const char* owner = "bake";
  static constexpr const char* searched = "remark";
  static constexpr auto fields = std::make_tuple(field("bake", &ReadingRecord::bake),
                                                 field("at", &ReadingRecord::at),
                                                 field("height_mm", &ReadingRecord::height_mm),
                                                 field("edge_mm", &ReadingRecord::edge_mm),
                                                 field("dome_mm", &ReadingRecord::dome_mm),
                                                 field("ratio", &ReadingRecord::ratio),
                                                 field("sample_C", &ReadingRecord::sample_C),
                                                 field("bulk_C", &ReadingRecord::bulk_C),
                                                 field("room_C", &ReadingRecord::room_C),
                                                 field("ph", &ReadingRecord::ph),
                                                 field("remark", &ReadingRecord::remark));
};

template <>
struct Shape<Mark> {
  static constexpr Kind kind = Kind::mark;
  static constexpr const char* order = "at, id";
  static constexpr const char* owner = "bake";
  static constexpr const char* searched = "what || ' ' || of";
  static constexpr auto fields = std::make_tuple(field("bake", &Mark::bake),
                                                 field("what", &Mark::what),
                                                 field("of", &Mark::of),
                                                 field("stage", &Mark::stage),
                                                 field("poured_g", &Mark::poured_g),
                                                 field("at", &Mark::at));
};

template <>
struct Shape<Photo> {
  static constexpr Kind kind = Kind::photo;
  static constexpr const char* order = "taken_at DESC, id";
  static constexpr const char* owner = "coalesce(bake, loaf, culture)";
  static constexpr const char* searched = "caption";
  static constexpr auto fields = std::make_tuple(field("bake", &Photo::bake),
                                                 field("loaf", &Photo::loaf),
                                                 field("culture", &Photo::culture),
                                                 field("taken_at", &Photo::taken_at),
                                                 field("caption", &Photo::caption),
                                                 field("width_px", &Photo::width_px),
                                                 field("height_px", &Photo::height_px),
                                                 field("size_bytes", &Photo::size_bytes));
};

template <>
struct Shape<Loaf> {
  static constexpr Kind kind = Kind::loaf;
  static constexpr const char* order = "baked_at DESC, id";
  static constexpr const char* owner = "bake";
  static constexpr const char* searched = "title || ' ' || crumb || ' ' || crust || ' ' || taste";
  static constexpr auto fields = std::make_tuple(field("bake", &Loaf::bake),
                                                 field("title", &Loaf::title),
                                                 field("baked_at", &Loaf::baked_at),
                                                 field("dough_g", &Loaf::dough_g),
                                                 field("baked_g", &Loaf::baked_g),
                                                 field("height_mm", &Loaf::height_mm),
                                                 field("width_mm", &Loaf::width_mm),
                                                 field("length_mm", &Loaf::length_mm),
                                                 field("spring", &Loaf::spring),
                                                 field("crumb", &Loaf::crumb),
                                                 field("crust", &Loaf::crust),
                                                 field("taste", &Loaf::taste),
                                                 field("scores", &Loaf::scores));
};

template <>
struct Shape<Scale> {
  static constexpr Kind kind = Kind::scale;
  static constexpr const char* order = "title, id";
  static constexpr const char* owner = "";
  static constexpr const char* searched = "title";
  static constexpr auto fields = std::make_tuple(field("title", &Scale::title),
                                                 field("low", &Scale::low),
                                                 field("high", &Scale::high),
                                                 field("low_words", &Scale::low_words),
                                                 field("high_words", &Scale::high_words));
};

template <>
struct Shape<Remark> {
  static constexpr Kind kind = Kind::remark;
  static constexpr const char* order = "at DESC, id";
  static constexpr const char* owner = "coalesce(bake, culture)";
  static constexpr const char* searched = "text";
  static constexpr auto fields = std::make_tuple(field("bake", &Remark::bake),
                                                 field("culture", &Remark::culture),
                                                 field("at", &Remark::at),
                                                 field("text", &Remark::text));
};

template <>
struct Shape<Setting> {
  static constexpr Kind kind = Kind::setting;
  static constexpr const char* order = "id";
  static constexpr const char* owner = "";
  static constexpr const char* searched = "id || ' ' || value";
  static constexpr auto fields = std::make_tuple(field("value", &Setting::value));
};

template <>
struct Shape<TestBake> {
  static constexpr Kind kind = Kind::test_bake;
  static constexpr const char* order = "saved_at DESC, id";
  static constexpr const char* owner = "";
  static constexpr const char* searched = "title || ' ' || question";
  static constexpr auto fields = std::make_tuple(field("title", &TestBake::title),
                                                 field("question", &TestBake::question),
                                                 field("state", &TestBake::state),
                                                 field("document", &TestBake::document));
};

template <>
struct Shape<TestMember> {
  static constexpr Kind kind = Kind::test_member;
  static constexpr const char* order = "label, id";
  static constexpr const char* owner = "test_bake";
  static constexpr const char* searched = "label";
  static constexpr auto fields = std::make_tuple(field("test_bake", &TestMember::test_bake),
                                                 field("bake", &TestMember::bake),
                                                 field("label", &TestMember::label));
};

template <>
struct Shape<Equipment> {
  static constexpr Kind kind = Kind::equipment;
  static constexpr const char* order = "what, title, id";
  static constexpr const char* owner = "";
  static constexpr const char* searched = "title || ' ' || what || ' ' || remark";
  static constexpr auto fields = std::make_tuple(field("title", &Equipment::title),
                                                 field("what", &Equipment::what),
                                                 field("toml", &Equipment::toml),
                                                 field("measured", &Equipment::measured),
                                                 field("remark", &Equipment::remark));
};

/// Calls f(name, member of the record) for each field in order.
template <class T, class F>
void each_field(T& record, F f) {
  using Plain = std::remove_const_t<T>;
  std::apply([&](const auto&... one) { (f(one.name, record.*(one.member)), ...); },
             Shape<Plain>::fields);
}

/// The record as a Record, without its own fields.
template <class T>
Record& head(T& record) {
  return record;
}

/// Calls f with an empty record of each kind, parents before what belongs to them.
template <class F>
void each_kind(F f) {
  f(Setting{}), f(Scale{}), f(Culture{}), f(Feeding{}), f(Bottle{}), f(Bake{}), f(ReadingRecord{});
  f(Mark{}), f(Loaf{}), f(Remark{}), f(Photo{}), f(TestBake{}), f(TestMember{});
  f(Equipment{});
}

}  // namespace barm::storage::internal

/// Instantiates something for every kind of record: BARM_EACH_RECORD(INSTANTIATE).
// clang-format off
#define BARM_EACH_RECORD(DO)                                              \
  DO(Bake) DO(Culture) DO(Feeding) DO(Bottle) DO(ReadingRecord) DO(Mark)        \
  DO(Photo) DO(Loaf) DO(Scale) DO(Remark) DO(Setting) DO(TestBake)        \
  DO(TestMember) DO(Equipment)
// clang-format on
