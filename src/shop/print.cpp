#include "shop/print.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/markup.h"
#include "generated/constants.h"
#include "shop/internal/panel.h"
#include "shop/internal/say.h"

namespace barm::shop {

using internal::cell;
using internal::head;

namespace {

/// Height of a small x over the size of the letter. `font-size-adjust` makes every face print it
/// so; the faces named have more than this where a browser does not know that property.
constexpr double x_of_size = 0.48;
/// Printed a little above the least, for printers that shrink a page.
constexpr double margin = 1.1;
/// Height of a figure over the size of the letter, a little under that of the faces named.
constexpr double height_of_figures = 0.68;

constexpr std::string_view style =
    "@page{margin:12mm}body{margin:0;font-family:'DejaVu Sans',Verdana,Arial,sans-serif;"
    "font-size-adjust:0.48;color:#000;background:#fff;font-size:3.6mm;line-height:1.35}"
    "section{break-inside:avoid;margin:0 0 8mm}h1{font-size:6mm;margin:0 0 2mm}"
    "h2{font-size:4.4mm;margin:0 0 1mm}p{margin:0 0 1mm}"
    "table{border-collapse:collapse;width:100%}td,th{text-align:left;padding:0.4mm 1mm 0.4mm 0;"
    "border-bottom:0.2mm solid #000;font-weight:normal;vertical-align:top}"
    "td.n,th.n{text-align:right}td.n{white-space:nowrap}td.i{padding-left:2mm}td.j{padding-left:"
    "4mm}"
    ".facts .title{font-size:1.6em;font-weight:bold}.facts "
    ".calories{font-size:1.5em;font-weight:bold}"
    ".card{width:90mm;min-height:50mm;border:0.3mm solid #000;padding:4mm;box-sizing:border-box}"
    ".price{font-size:12mm;line-height:1.1}.label{border:0.3mm solid #000;padding:2mm;"
    "box-sizing:border-box;overflow-wrap:anywhere}.draft{font-size:3mm}";

std::string html(const LabelText& text) {
  std::string out;
  for (const TextPiece& piece : text) {
    out += piece.strong ? "<b>" + escaped(piece.text) + "</b>" : escaped(piece.text);
  }
  return out;
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

namespace {

/// A card that names some allergens and does not know of others would be read as the whole of them.
std::string allergens_on(const ShelfCard& card) {
  if (!card.not_said.empty())
    return "<p><b>Not to be shown yet: the allergens of " + escaped(card.not_said) +
           " are not known.</b></p>";
  if (card.allergens.empty()) return "";
  std::string contains = term("contains", card.tongue);
  contains.front() = static_cast<char>(contains.front() - 'a' + 'A');
  return "<p>" + escaped(contains) + " <b>" + escaped(internal::joined(card.allergens)) +
         "</b></p>";
}

}  // namespace

std::string card_block(const ShelfCard& card) {
  std::string out = fmt::format(
      "<section class=\"card\" lang=\"{}\"><h1>{}</h1>", code(card.tongue), escaped(card.name));
  if (card.shelf) {
    out += "<p class=\"price\">" + escaped(text(*card.shelf, card.currency)) + "</p>";
    constexpr std::int64_t mg_in_kilogram = 1'000'000;
    const auto mg = static_cast<std::int64_t>(card.loaf.in(milligram));
    if (mg > 0) {
      const Cash kilogram = card.shelf->times(mg_in_kilogram, mg);
      out += "<p>" + escaped(figure(internal::grams(card.loaf), card.tongue)) + " · " +
             escaped(text(kilogram, card.currency)) + " / kg</p>";
    }
  } else if (card.loaf.si() > 0) {
    out += "<p>" + escaped(figure(internal::grams(card.loaf), card.tongue)) + "</p>";
  }
  out += allergens_on(card);
  if (!card.note.empty()) out += "<p class=\"draft\" lang=\"en\">" + escaped(card.note) + "</p>";
  return out + "</section>";
}

namespace {

/// Net weight in figures as high as its law asks.
std::string weight_block(const Label& label) {
  if (label.loaf.si() <= 0) return "";
  return fmt::format("<p class=\"weight\" style=\"font-size:{:.3f}mm\">{}</p>",
                     weight_height(label).in(millimetre) / height_of_figures,
                     escaped(figure(weight_words(label), label.tongue)));
}

std::string paragraph(const std::string& text) {
  return text.empty() ? "" : "<p>" + escaped(text) + "</p>";
}

/// What no recipe tells, where it is given.
std::string fields_block(const Label& label) {
  const formula::LabelFields& fields = label.fields;
  std::string out;
  if (const LabelLine* date = find(label, "best before")) {
    if (fields.best_before != "same day") out += paragraph(plain(date->text));
  }
  out += paragraph(fields.storage) + paragraph(fields.origin);
  if (!fields.lot.empty()) out += paragraph(term("lot", label.tongue) + " " + fields.lot);
  const std::string comma = fields.maker.empty() || fields.address.empty() ? "" : ", ";
  return out + paragraph(fields.maker + comma + fields.address);
}

/// Instead of a label that would hurt or be none: what is still missing.
std::string blocked_block(const Label& label) {
  std::string out = "<section><h2>" + escaped(label.name) +
                    "</h2><p><b>Not to be printed yet.</b> Still missing:</p><ul>";
  for (const std::string& one : label.missing) out += "<li>" + escaped(one) + "</li>";
  return out + "</ul><p class=\"draft\">" + escaped(label.draft) + "</p></section>";
}

bool is_small(const Label& label, const LabelSize& size) {
  return size.small_pack || (label.fields.largest_side && *label.fields.largest_side < 80);
}

/// On a largest side under 25 cm2 the nutrition may be left out, on one under 10 the list too.
bool wants_nutrition(const Label& label) {
  return label.law == Law::us || !label.fields.largest_side || *label.fields.largest_side >= 25;
}

bool wants_list(const Label& label) {
  return label.law == Law::us || !label.fields.largest_side || *label.fields.largest_side >= 10;
}

/// "contains wheat, milk": where there is no list.
std::string contains_block(const Label& label) {
  std::string names;
  for (const Listed& item : label.ingredients.items) {
    for (const std::string& one : item.set_off) {
      const std::string word = allergen_word(one, label.tongue);
      if (names.find("<b>" + escaped(word) + "</b>") == std::string::npos)
        names += (names.empty() ? "" : ", ") + ("<b>" + escaped(word) + "</b>");
    }
  }
  return names.empty() ? ""
                       : "<p>" + escaped(term("contains", label.tongue)) + " " + names + "</p>";
}

}  // namespace

Length weight_height(const Label& label) {
  namespace figures = constants::weight_figures;
  if (label.law == Law::us) return figures::us.value;
  const double weight = std::round(label.loaf.in(gram));
  if (weight <= 50) return figures::to_50_g.value;
  if (weight <= 200) return figures::to_200_g.value;
  return weight <= 1000 ? Length(figures::to_1000_g.value) : Length(figures::above.value);
}

std::string label_block(const Label& label, const LabelSize& size) {
  if (!label.missing.empty()) return blocked_block(label);
  const bool small = is_small(label, size);
  const double x = printed_x_height(label.law, small).in(millimetre);
  std::string out = fmt::format(
      "<section><div class=\"label\" lang=\"{}\" style=\"width:{:.4g}mm;font-size:{:.3f}mm\">",
      code(label.tongue),
      size.width.in(millimetre),
      x / x_of_size);
  out += "<h2>" + escaped(label.name) + "</h2>" + paragraph(label.fields.legal_name);
  const LabelLine* list = find(label, "ingredients");
  if (wants_list(label) && list != nullptr) out += "<p>" + html(list->text) + "</p>";
  if (!wants_list(label)) out += contains_block(label);
  if (label.law == Law::us) {
    if (const LabelLine* line = find(label, "allergens")) out += "<p>" + html(line->text) + "</p>";
  }
  out += weight_block(label) + fields_block(label);
  if (label.law == Law::us) {
    out += internal::nutrition_facts(label);
  } else if (wants_nutrition(label)) {
    out += internal::nutrition_by_weight(label);
  }
  out += fmt::format(
      "</div><p class=\"draft\">{} Small x printed {:.2f} mm high; the law asks for {:.2f} mm. "
      "Figures of the weight {:.2g} mm.</p></section>",
      escaped(label.draft),
      x,
      least_x_height(label.law, small).in(millimetre),
      weight_height(label).in(millimetre));
  return out;
}

std::string price_block(const std::string& name,
                        const std::vector<Offer>& offers,
                        const Costing& costing,
                        const PriceList& prices) {
  const Currency& currency = prices.currency;
  std::string out = "<section><h2>" + escaped(name) + "</h2><table><tr>";
  for (const char* column :
       {"by", "on the shelf", "net", "tax", "to shops, net", "profit to shops"}) {
    out += head(column, std::string_view(column) != "by");
  }
  out += "</tr>";
  for (const Offer& offer : offers) {
    out += "<tr>" + cell(offer.basis, false);
    for (const Cash cash :
         {offer.shelf, offer.net, offer.tax, offer.wholesale, offer.wholesale_profit}) {
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
