// The fields of a label that no recipe tells.
#include <fmt/format.h>

#include <cstdlib>

#include "shop/internal/label_lines.h"
#include "time/date.h"

namespace barm::shop {

namespace {

/// "3 December 2026", as the language writes it.
std::string day_words(const std::string& day, bool with_year, Tongue tongue) {
  const long number = std::strtol(day.substr(8, 2).c_str(), nullptr, 10);
  const long month = std::strtol(day.substr(5, 2).c_str(), nullptr, 10);
  const std::string name = term(fmt::format("month {}", month), tongue);
  const std::string year = day.substr(0, 4);
  if (tongue == Tongue::us)
    return fmt::format("{} {}{}", name, number, with_year ? ", " + year : "");
  const char* between = tongue == Tongue::de ? ". " : tongue == Tongue::es ? " de " : " ";
  std::string said = fmt::format("{}{}{}", number, between, name);
  if (with_year) said += (tongue == Tongue::es ? " de " : " ") + year;
  return said;
}

constexpr long three_months = 92;

LabelLine field(const char* name,
                const std::string& text,
                std::vector<std::string> rules,
                const char* still_missing) {
  LabelLine line = internal::label_line(name, {{text, false}}, std::move(rules));
  if (text.empty()) line.unknown.emplace_back(still_missing);
  return line;
}

}  // namespace

std::string best_before_words(const Label& label, const std::optional<time::Date>& baked) {
  const std::string& day = label.fields.best_before;
  if (day.empty() || day == "same day") return "";
  const auto last = time::parse_date(day);
  const long keeps = last && baked ? last->days - baked->days : -1;
  const bool short_lived = keeps >= 0 && keeps <= three_months;
  return term("best_before", label.tongue) + " " + day_words(day, !short_lived, label.tongue);
}

namespace internal {

void add_field_lines(const formula::Bake& bake, const Label& label, std::vector<LabelLine>& lines) {
  const formula::LabelFields& fields = label.fields;
  if (label.law == Law::us) {
    lines.push_back(field("maker",
                          fields.maker + (fields.address.empty() ? "" : ", ") + fields.address,
                          {"us_maker"},
                          "still missing: name and place of business"));
    return;
  }
  lines.push_back(field("legal name",
                        fields.legal_name,
                        {"legal_name"},
                        "still missing: what such a bread is called, beside its own name"));
  std::string date = best_before_words(label, bake.mixed_at ? bake.mixed_at->date : std::nullopt);
  const bool same_day = fields.best_before == "same day";
  if (same_day) date = "none: eaten within a day of being made";
  lines.push_back(field("best before",
                        date,
                        {"best_before"},
                        "still missing: the day until which it is best, or \"same day\""));
  lines.push_back(field("storage", fields.storage, {"storage"}, "still missing: how to keep it"));
  lines.push_back(field("lot",
                        fields.lot,
                        {label.law == Law::uk ? "uk_lot" : "lot"},
                        "none given: it may be left out where the date has day and month"));
  const std::string comma = fields.maker.empty() || fields.address.empty() ? "" : ", ";
  lines.push_back(field("maker",
                        fields.maker + comma + fields.address,
                        {"date_and_maker"},
                        "still missing: name and address of who answers for it"));
  if (!fields.maker.empty() && fields.address.empty())
    lines.back().unknown.emplace_back("still missing: the address");
  lines.push_back(field("origin",
                        fields.origin,
                        {"origin"},
                        "wanted where the label names a place and the main ingredient, mostly the "
                        "flour, comes from another"));
  if (fields.largest_side) {
    lines.push_back(field("small pack",
                          fmt::format("largest side {:g} cm²", *fields.largest_side),
                          {"small_pack", "letters"},
                          ""));
  }
}

}  // namespace internal

}  // namespace barm::shop
