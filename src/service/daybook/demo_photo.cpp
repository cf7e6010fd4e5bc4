#include "service/daybook/demo_photo.h"

#include <cmath>
#include <numbers>
#include <vector>

#include "drawing/picture.h"
#include "numerics/random.h"

namespace barm::service {

namespace {

using drawing::Look;
using drawing::Picture;
using drawing::Point;

constexpr double width = 960;
constexpr double height = 640;
constexpr Point middle{480, 330};

Look plain(drawing::Colour fill) {
  Look look;
  look.line.reset();
  look.fill = fill;
  return look;
}

// The outline of the cut face, `part` of the way from its middle: domed above, flat below.
Point outline(double part, double turn) {
  const double up = std::sin(turn);
  return {middle.x + part * 350 * std::cos(turn),
          middle.y - part * (up > 0 ? 210 : 130) * std::copysign(std::pow(std::abs(up), 0.7), up)};
}

std::vector<Point> face(double part) {
  constexpr int corners = 120;
  std::vector<Point> points;
  for (int i = 0; i < corners; ++i)
    points.push_back(outline(part, 2 * std::numbers::pi * i / corners));
  return points;
}

// Small holes, smaller and closer towards the base.
void draw_crumb(Picture& picture) {
  numerics::Random random(5, 1);
  for (int i = 0; i < 420; ++i) {
    const double part = 0.9 * std::sqrt(random.uniform());
    const Point at = outline(part, 2 * std::numbers::pi * random.uniform());
    const double open = at.y < middle.y ? 1.0 : 0.5;
    picture.dot(at, open * (2 + 9 * std::pow(random.uniform(), 3)), plain({0xd8bf93}));
  }
}

}  // namespace

std::string drawn_loaf() {
  Picture picture(width, height);
  picture.box({0, 0}, width, height, plain({0xe9e3d6}));
  picture.box({0, 450}, width, height - 450, plain({0xb58a5e}));
  picture.path(face(1.0), plain({0x7a4a22}), true);
  picture.path(face(0.95), plain({0xf1e2bf}), true);
  draw_crumb(picture);
  drawing::Words words;
  words.anchor = drawing::Anchor::middle;
  picture.write({middle.x, 590}, "drawn, not photographed: an invented loaf", words);
  return picture.png();
}

}  // namespace barm::service
