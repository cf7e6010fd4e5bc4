#pragma once
// A picture of lines, areas and words on a transparent ground, as SVG or PNG.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barm::drawing {

struct Point {
  double x = 0, y = 0;  ///< from the upper left, in units of the picture
};

struct Colour {
  std::uint32_t rgb = 0;  ///< 0x9b4418

  /// "#9b4418".
  [[nodiscard]] std::string text() const;
};

inline constexpr Colour ink{0x2b2723};

/// How a line or an area looks; without a colour there is none.
struct Look {
  std::optional<Colour> line = ink;
  double width = 2;
  std::optional<Colour> fill;
  double opacity = 1;          ///< of the fill
  std::vector<double> dashes;  ///< lengths of line and gap; empty for a whole line
};

enum class Anchor { start, middle, end };

/// How words look. Set in a plain sans serif that every machine has.
struct Words {
  double size = 28;
  Anchor anchor = Anchor::start;
  bool bold = false;
  Colour colour = ink;
};

/// One thing drawn; later ones lie over earlier ones.
struct Shape {
  std::vector<Point> points;  ///< of a path; the place of words
  bool closed = false;
  Look look;
  std::string text;  ///< words when not empty
  Words words;
};

class Picture {
 public:
  Picture(double width, double height) : width_(width), height_(height) {}

  void path(std::vector<Point> points, const Look& look, bool closed = false);
  void line(Point from, Point to, const Look& look);
  void box(Point corner, double width, double height, const Look& look);
  void dot(Point centre, double radius, const Look& look);
  void write(Point at, std::string_view text, const Words& words = {});

  /// Writes words in lines of at most so many characters; gives the y below them.
  double write_wrapped(Point at, std::string_view text, const Words& words, std::size_t characters);

  [[nodiscard]] double width() const { return width_; }

  [[nodiscard]] double height() const { return height_; }

  [[nodiscard]] const std::vector<Shape>& shapes() const { return shapes_; }

  /// A self-contained SVG. `title` is read out by screen readers.
  [[nodiscard]] std::string svg(std::string_view title) const;

  /// The same as a PNG with transparent ground, one pixel a unit; the bytes of the file.
  [[nodiscard]] std::string png() const;

 private:
  double width_, height_;
  std::vector<Shape> shapes_;
};

}  // namespace barm::drawing
