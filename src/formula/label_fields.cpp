#include "formula/label_fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <vector>

#include "formula/amount.h"
#include "formula/internal/label_table.h"
#include "formula/internal/reading.h"
#include "formula/words.h"

namespace barm::formula {

namespace {

using namespace internal;

constexpr std::size_t longest_field = 400;

constexpr std::array<std::string_view, 15> keys = {"legal_name",
                                                   "maker",
                                                   "address",
                                                   "storage",
                                                   "lot",
                                                   "best_before",
                                                   "origin",
                                                   "language",
                                                   "fortified",
                                                   "slices",
                                                   "largest_side",
                                                   "trans_fat",
                                                   "cholesterol",
                                                   "vitamin_d",
                                                   "iron"};

constexpr std::array<std::string_view, 5> languages = {"en", "de", "fr", "it", "es"};

Result<bool> wrong(std::string_view key, std::string message) {
  return failure(ErrorCode::bad_input, std::string(key), std::move(message));
}

int whole_number(std::string_view text) {
  int value = -1;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc() && end == text.data() + text.size() ? value : -1;
}

/// "2026-12-03", a day of the calendar.
bool is_day(std::string_view text) {
  constexpr std::size_t length = 10;
  if (text.size() != length || text[4] != '-' || text[7] != '-') return false;
  const int year = whole_number(text.substr(0, 4));
  const int month = whole_number(text.substr(5, 2));
  const int day = whole_number(text.substr(8, 2));
  if (year < 1 || month < 1 || month > 12 || day < 1) return false;
  constexpr std::array<int, 12> days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return day <= days.at(static_cast<std::size_t>(month - 1)) + (month == 2 && leap ? 1 : 0);
}

Result<bool> set_day(LabelFields& fields, const std::string& text) {
  if (text != "same day" && !is_day(text)) {
    return wrong("best_before", "is no day: write \"2026-12-03\", or \"same day\"");
  }
  fields.best_before = text;
  return true;
}

Result<bool> set_language(LabelFields& fields, const std::string& text) {
  if (std::find(languages.begin(), languages.end(), text) == languages.end()) {
    return wrong("language", fmt::format("{} is none of en, de, fr, it, es", in_quotes(text)));
  }
  fields.language = text;
  return true;
}

Result<bool> set_fortified(LabelFields& fields, const std::string& text) {
  if (text != "yes" && text != "no") {
    return wrong("fortified",
                 "says whether minerals and vitamins were added to the flour: yes or no");
  }
  fields.fortified = text;
  return true;
}

Result<bool> set_slices(LabelFields& fields, const std::string& text) {
  constexpr int most = 100;
  const int slices = text.empty() ? 0 : whole_number(text);
  if (slices < 0 || slices > most || (slices == 0 && !text.empty())) {
    return wrong("slices", "is a whole number from 1 to 100");
  }
  fields.slices = slices;
  return true;
}

struct Measured {
  std::string_view key, unit, example;
  std::optional<double> LabelFields::* into;
  double most;
};

constexpr std::array<Measured, 5> measured = {{
    {"largest_side", "cm2", "160 cm2", &LabelFields::largest_side, 10'000},
    {"trans_fat", "g", "0.1 g", &LabelFields::trans_fat, 100},
    {"cholesterol", "mg", "12 mg", &LabelFields::cholesterol, 10'000},
    {"vitamin_d", "ug", "0.2 ug", &LabelFields::vitamin_d, 10'000},
    {"iron", "mg", "1.4 mg", &LabelFields::iron, 10'000},
}};

Result<bool> set_measured(LabelFields& fields, const Measured& one, const std::string& text) {
  if (text.empty()) {
    (fields.*one.into).reset();
    return true;
  }
  const auto number = parse_number(text);
  std::string unit = number ? folded(number->unit) : "";
  if (unit == "µg" || unit == "mcg") unit = "ug";
  if (unit == "cm²") unit = "cm2";
  if (!number || unit != one.unit || !(number->value >= 0 && number->value <= one.most)) {
    return wrong(one.key, fmt::format("needs its unit: write \"{}\"", one.example));
  }
  fields.*one.into = number->value;
  return true;
}

std::string* words_at(LabelFields& fields, std::string_view key) {
  if (key == "legal_name") return &fields.legal_name;
  if (key == "maker") return &fields.maker;
  if (key == "address") return &fields.address;
  if (key == "storage") return &fields.storage;
  if (key == "lot") return &fields.lot;
  return key == "origin" ? &fields.origin : nullptr;
}

Result<bool> clear(LabelFields& fields, std::string_view key) {
  if (key == "best_before") fields.best_before.clear();
  if (key == "language") fields.language.clear();
  if (key == "fortified") fields.fortified.clear();
  return true;
}

}  // namespace

std::span<const std::string_view> label_field_keys() { return keys; }

Result<bool> set_field(LabelFields& fields, std::string_view key, std::string_view text) {
  const std::string value(trimmed(text));
  if (std::find(keys.begin(), keys.end(), key) == keys.end()) {
    const std::vector<std::string> known(keys.begin(), keys.end());
    const std::string word(key);
    return wrong(key, "is no field of a label. " + near_or_all(word, known));
  }
  if (value.size() > longest_field) return wrong(key, "is longer than 400 letters");
  if (std::string* words = words_at(fields, key)) {
    *words = value;
    return true;
  }
  const auto* number = std::find_if(
      measured.begin(), measured.end(), [&](const Measured& one) { return one.key == key; });
  if (number != measured.end()) return set_measured(fields, *number, value);
  if (key == "slices") return set_slices(fields, value);
  if (value.empty()) return clear(fields, key);
  if (key == "best_before") return set_day(fields, value);
  return key == "language" ? set_language(fields, value) : set_fortified(fields, value);
}

namespace internal {

LabelFields read_label(const Entry& entry) {
  check_table(entry, "[label]");
  LabelFields fields;
  for (const Entry& one : entry.value.entries) {
    const Node& value = one.value;
    std::string text = value.text;
    if (value.kind == Node::Kind::whole) text = fmt::format("{:.0f}", value.number);
    const bool written = value.kind == Node::Kind::text || value.kind == Node::Kind::date ||
                         value.kind == Node::Kind::whole;
    if (!written) stop(value.place, "is not text in quotes: write \"…\"");
    const auto set = set_field(fields, one.key, text);
    if (!set) stop(one.place, in_quotes(one.key) + " " + set.error().message);
  }
  return fields;
}

}  // namespace internal

}  // namespace barm::formula
