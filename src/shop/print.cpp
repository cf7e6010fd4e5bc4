#include "shop/print.h"

#include <fmt/format.h>

#include "base/markup.h"
#include "generated/constants.h"
#include "shop/internal/say.h"

namespace barm::shop {

namespace {

/// Height of a small x over the size of the letter. `font-size-adjust` makes every face print it
/// so; the faces named have more than this where a browser does not know that property.
constexpr double x_of_size = 0.48;
/// Printed a little above the least, for printers that shrink a page.
constexpr double margin = 1.1;

constexpr std::string_view style =
    "@page{margin:12mm}body{margin:0;font-family:'DejaVu Sans',Verdana,Arial,sans-serif;"
    "font-size-adjust:0.48;color:#000;background:#fff;font-size:3.6mm;line-height:1.35}"
    "section{break-inside:avoid;margin:0 0 8mm}h1{font-size:6mm;margin:0 0 2mm}"
    "h2{font-size:4.4mm;margin:0 0 1mm}p{margin:0 0 1mm}"
    "table{border-collapse:collapse;width:100%}td,th{text-align:left;padding:0.4mm 1mm 0.4mm 0;"
    "border-bottom:0.2mm solid #000;font-weight:normal;vertical-align:top}"
    "td.n,th.n{text-align:right}td.n{white-space:nowrap}td.i{padding-left:2mm}"
    ".card{width:90mm;min-height:50mm;border:0.3mm solid #000;padding:4mm;box-sizing:border-box}"
    ".price{font-size:12mm;line-height:1.1}.label{border:0.3mm solid #000;padding:2mm;"
    "box-sizing:border-box;overflow-wrap:anywhere}.draft{font-size:3mm}";

std::string cell(std::string_view text, bool number) {
  return fmt::format("<td{}>{}</td>", number ? " class=\"n\"" : "", escaped(text));
}

std::string head(std::string_view text, bool number) {
  return fmt::format("<th{}>{}</th>", number ? " class=\"n\"" : "", escaped(text));
}

std::string html(const LabelText& text) {
  std::string out;
  for (const TextPiece& piece : text) {
    out += piece.strong ? "<b>" + escaped(piece.text) + "</b>" : escaped(piece.text);
  }
  return out;
}

std::string name_cell(const NutritionLine& line, const std::string& amount) {
  return fmt::format(
      "<td{}>{}{}</td>", line.indented ? " class=\"i\"" : "", escaped(line.name), escaped(amount));
}

/// A figure is never parted from its unit.
std::string with_unit(const std::string& said, const NutritionLine& line) {
  constexpr const char* unbroken = "\u00a0";
  return line.unit.empty() ? said : said + unbroken + line.unit;
}

/// By 100 g and by the portion.
std::string nutrition_by_weight(const Label& label) {
  std::string out = "<table><tr>" + head("nutrition", false) + head("100 g", true) +
                    head(internal::grams(label.portion), true) + "</tr>";
  for (const NutritionLine& line : label.nutrition) {
    out += "<tr>" + name_cell(line, "") + cell(with_unit(line.said_100_g, line), true) +
           cell(with_unit(line.said_portion, line), true) + "</tr>";
  }
  return out + "</table>";
}

/// By the serving, each amount behind its name and what it is of the day.
std::string nutrition_facts(const Label& label) {
  std::string out = "<table><tr>" +
                    head("Nutrition Facts, a serving of " + internal::grams(label.portion), false) +
                    head("% Daily Value", true) + "</tr>";
  for (const NutritionLine& line : label.nutrition) {
    out += "<tr>" + name_cell(line, " " + with_unit(line.said_portion, line)) +
           cell(line.daily_value.empty() ? "" : line.daily_value + " %", true) + "</tr>";
  }
  return out + "</table>";
}

const LabelLine* find(const Label& label, std::string_view field) {
  for (const LabelLine& line : label.lines) {
    if (line.field == field) return &line;
  }
  return nullptr;
}

}  // namespace

Length least_x_height(Law law, bool small_pack) {
  if (law == Law::us) return constants::letters::us.value;
  return small_pack ? constants::letters::small_pack.value : constants::letters::ordinary.value;
}

Length printed_x_height(Law law, bool small_pack) {
  return margin * least_x_height(law, small_pack);
}

std::string card_block(const ShelfCard& card) {
  std::string out = "<section class=\"card\"><h1>" + escaped(card.name) + "</h1>";
  if (card.shelf) {
    out += "<p class=\"price\">" + escaped(text(*card.shelf, card.currency)) + "</p>";
    constexpr std::int64_t mg_in_kilogram = 1'000'000;
    const auto mg = static_cast<std::int64_t>(card.loaf.in(milligram));
    if (mg > 0) {
      const Cash kilogram = card.shelf->times(mg_in_kilogram, mg);
      out += "<p>" + escaped(internal::grams(card.loaf)) + " · " +
             escaped(text(kilogram, card.currency)) + " / kg</p>";
    }
  } else if (card.loaf.si() > 0) {
    out += "<p>" + escaped(internal::grams(card.loaf)) + "</p>";
  }
  if (!card.allergens.empty())
    out += "<p>Contains <b>" + escaped(internal::joined(card.allergens)) + "</b></p>";
  if (!card.note.empty()) out += "<p class=\"draft\">" + escaped(card.note) + "</p>";
  return out + "</section>";
}

std::string label_block(const Label& label, const LabelSize& size) {
  const double x = printed_x_height(label.law, size.small_pack).in(millimetre);
  const double width = size.width.in(millimetre);
  std::string out =
      fmt::format("<section><div class=\"label\" style=\"width:{:.4g}mm;font-size:{:.3f}mm\">",
                  width,
                  x / x_of_size);
  out += "<h2>" + escaped(label.name) + "</h2>";
  if (const LabelLine* line = find(label, "ingredients")) out += "<p>" + html(line->text) + "</p>";
  if (label.law == Law::us) {
    if (const LabelLine* line = find(label, "allergens")) out += "<p>" + html(line->text) + "</p>";
  }
  if (label.loaf.si() > 0) out += "<p>" + escaped(weight_words(label)) + "</p>";
  out += (label.law == Law::us ? nutrition_facts(label) : nutrition_by_weight(label)) + "</div>";
  out += fmt::format(
      "<p class=\"draft\">{} Small x printed {:.2f} mm high; the law asks for {:.2f} "
      "mm.</p></section>",
      escaped(label.draft),
      x,
      least_x_height(label.law, size.small_pack).in(millimetre));
  return out;
}

std::string price_block(const std::string& name,
                        const std::vector<Offer>& offers,
                        const Costing& costing,
                        const PriceList& prices) {
  const Currency& currency = prices.currency;
  std::string out = "<section><h2>" + escaped(name) + "</h2><table><tr>";
  for (const char* column : {"by", "on the shelf", "net", "tax", "to shops, net"}) {
    out += head(column, std::string_view(column) != "by");
  }
  out += "</tr>";
  for (const Offer& offer : offers) {
    out += "<tr>" + cell(offer.basis, false);
    for (const Cash cash : {offer.shelf, offer.net, offer.tax, offer.wholesale}) {
      out += cell(digits_of(cash, currency), true);
    }
    out += "</tr>";
  }
  out += "</table>";
  out += fmt::format("<p>{}; a loaf of {}; prices from {} to {}</p></section>",
                     escaped(currency.code),
                     escaped(internal::grams(costing.loaf)),
                     escaped(prices.oldest()),
                     escaped(prices.newest()));
  return out;
}

std::string page(std::string_view title, const std::vector<std::string>& blocks) {
  std::string out = "<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>" +
                    escaped(title) + "</title><style>" + std::string(style) +
                    "</style></head><body>";
  for (const std::string& block : blocks) out += block;
  return out + "</body></html>\n";
}

}  // namespace barm::shop
