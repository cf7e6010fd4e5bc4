#include "drawing/picture.h"

#include <cmath>
#include <numbers>

namespace barm::drawing {

void Picture::path(std::vector<Point> points, const Look& look, bool closed) {
  if (points.empty()) return;
  Shape shape;
  shape.points = std::move(points);
  shape.look = look;
  shape.closed = closed;
  shapes_.push_back(std::move(shape));
}

void Picture::line(Point from, Point to, const Look& look) { path({from, to}, look); }

void Picture::box(Point c, double width, double height, const Look& look) {
  path({c, {c.x + width, c.y}, {c.x + width, c.y + height}, {c.x, c.y + height}}, look, true);
}

void Picture::dot(Point centre, double radius, const Look& look) {
  std::vector<Point> round;
  constexpr int corners = 20;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * i / corners;
    round.push_back({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
  }
  path(std::move(round), look, true);
}

void Picture::write(Point at, std::string_view text, const Words& words) {
  if (text.empty()) return;
  Shape shape;
  shape.points = {at};
  shape.text = text;
  shape.words = words;
  shapes_.push_back(std::move(shape));
}

double Picture::write_wrapped(Point at,
                              std::string_view text,
                              const Words& words,
                              std::size_t characters) {
  std::string line;
  std::size_t length = 0;
  const auto flush = [&] {
    write(at, line, words);
    at.y += 1.35 * words.size;
    line.clear();
    length = 0;
  };
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    std::size_t wide = 0;
    for (const char c : word) wide += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
    if (length > 0 && length + 1 + wide > characters) flush();
    line += (line.empty() ? "" : " ") + std::string(word);
    length += (length > 0 ? 1 : 0) + wide;
  }
  if (!line.empty()) flush();
  return at.y;
}

}  // namespace barm::drawing
