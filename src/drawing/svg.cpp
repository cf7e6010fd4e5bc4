#include <fmt/format.h>

#include "base/markup.h"
#include "drawing/picture.h"

namespace barm::drawing {

namespace {

const char* anchor(Anchor anchor) {
  switch (anchor) {
    case Anchor::start:
      return "start";
    case Anchor::middle:
      return "middle";
    case Anchor::end:
      return "end";
  }
  return "start";
}

std::string path_of(const Shape& shape) {
  std::string d;
  for (const Point& p : shape.points)
    d += fmt::format("{}{:.1f} {:.1f}", d.empty() ? "M" : "L", p.x, p.y);
  if (shape.closed) d += "Z";
  const Look& look = shape.look;
  std::string out =
      fmt::format("<path d=\"{}\" fill=\"{}\"", d, look.fill ? look.fill->text() : "none");
  if (look.fill && look.opacity < 1) out += fmt::format(" fill-opacity=\"{:.2f}\"", look.opacity);
  if (look.line && look.width > 0) {
    out += fmt::format(" stroke=\"{}\" stroke-width=\"{:.1f}\" stroke-linejoin=\"round\"",
                       look.line->text(),
                       look.width);
  }
  if (!look.dashes.empty()) {
    std::string dashes;
    for (const double dash : look.dashes)
      dashes += fmt::format("{}{:.1f}", dashes.empty() ? "" : " ", dash);
    out += fmt::format(" stroke-dasharray=\"{}\"", dashes);
  }
  return out + "/>\n";
}

std::string words_of(const Shape& shape) {
  const Words& words = shape.words;
  return fmt::format(
      "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"{:.1f}\" text-anchor=\"{}\" "
      "fill=\"{}\"{}>{}</text>\n",
      shape.points.front().x,
      shape.points.front().y,
      words.size,
      anchor(words.anchor),
      words.colour.text(),
      words.bold ? " font-weight=\"bold\"" : "",
      escaped(shape.text));
}

}  // namespace

std::string Colour::text() const { return fmt::format("#{:06x}", rgb); }

std::string Picture::svg(std::string_view title) const {
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0f} {:.0f}\" role=\"img\" "
      "font-family=\"sans-serif\">\n<title>{}</title>\n",
      width_,
      height_,
      escaped(title));
  for (const Shape& shape : shapes_) out += shape.text.empty() ? path_of(shape) : words_of(shape);
  return out + "</svg>\n";
}

}  // namespace barm::drawing
