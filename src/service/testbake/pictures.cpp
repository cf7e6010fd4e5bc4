#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "service/testbake/show.h"
#include "service/words.h"
#include "time/date.h"

namespace barm::service {

using drawing::Anchor;
using drawing::Colour;
using drawing::ink;
using drawing::Look;
using drawing::Picture;
using drawing::Point;
using drawing::Words;

namespace {

constexpr Colour pale{0x8d857c};
constexpr Colour accent{0x9b4418};
constexpr Colour paper{0xf6f2e7};

/// Lines that differ by their dashes as well, so that no meaning hangs on colour; no two of the
/// first 32 share both.
Look line_look(std::size_t i) {
  constexpr std::array colours{ink, accent, Colour{0x5c6b3a}, Colour{0x1d4f5c}};
  static const std::vector<std::vector<double>> dashes{
      {}, {14, 8}, {3, 7}, {20, 6, 4, 6}, {8, 5}, {26, 10}, {3, 4, 12, 4}, {2, 10}};
  Look look;
  look.line = colours.at(i % colours.size());
  look.width = 3.5;
  look.dashes = dashes[(i + i / dashes.size()) % dashes.size()];
  return look;
}

/// A picture on paper: one that is black on nothing cannot be read on a dark ground.
Picture sheet(Format format) {
  Picture picture = format == Format::wide     ? Picture(1600, 900)
                    : format == Format::square ? Picture(1080, 1080)
                                               : Picture(900, 1600);
  Look ground;
  ground.line.reset();
  ground.fill = paper;
  picture.box({0, 0}, picture.width(), picture.height(), ground);
  return picture;
}

/// Fewer letters go beside one another than on a wide one.
bool narrow(const Picture& picture) { return picture.width() < 1.2 * picture.height(); }

std::size_t letters(const Picture& picture, double size) {
  return static_cast<std::size_t>((picture.width() - 120) / (0.52 * size));
}

/// A frame with numbers along both sides.
class Axes {
 public:
  Axes(Picture& picture,
       Point corner,
       double width,
       double height,
       double x0,
       double x1,
       double y0,
       double y1)
      : picture_(picture),
        corner_(corner),
        width_(width),
        height_(height),
        x0_(x0),
        x1_(x1),
        y0_(y0),
        y1_(y1) {}

  [[nodiscard]] Point at(double x, double y) const {
    return {corner_.x + width_ * (x - x0_) / (x1_ - x0_),
            corner_.y + height_ * (1 - (y - y0_) / (y1_ - y0_))};
  }

  void across(double step, const std::string& unit, double scale = 1) {
    picture_.line(at(x0_, y0_), at(x1_, y0_), {});
    for (double x = std::ceil(x0_ / step - 1e-9) * step; x <= x1_ + 1e-9; x += step) {
      const Point p = at(x, y0_);
      picture_.line(p, {p.x, p.y + 10}, {});
      picture_.write(
          {p.x, p.y + 42}, fmt::format("{:g}", scale * x + 0.0), {26, Anchor::middle, false, ink});
    }
    const Point end = at(x1_, y0_);
    picture_.write({end.x, end.y + 80}, unit, {26, Anchor::end, false, pale});
  }

  void up(double step, const std::string& unit, double scale = 1) {
    picture_.line(at(x0_, y0_), at(x0_, y1_), {});
    for (double y = std::ceil(y0_ / step - 1e-9) * step; y <= y1_ + 1e-9; y += step) {
      const Point p = at(x0_, y);
      picture_.line({p.x - 10, p.y}, p, {});
      picture_.write(
          {p.x - 18, p.y + 9}, fmt::format("{:g}", scale * y + 0.0), {26, Anchor::end, false, ink});
    }
    const Point top = at(x0_, y1_);
    picture_.write({top.x - 70, top.y - 24}, unit, {26, Anchor::start, false, pale});
  }

 private:
  Picture& picture_;
  Point corner_;
  double width_, height_, x0_, x1_, y0_, y1_;
};

double step_for(double range) {
  for (const double step : {0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 50.0, 100.0})
    if (range / step <= 8) return step;
  return 200;
}

/// What was seen of a jar: on the first day a dot, then a ring, a square, an open square, and so
/// on.
void seen(Picture& picture, Point at, std::size_t day, Colour colour) {
  constexpr double half = 6;
  Look look;
  look.line = colour;
  look.fill = day % 2 == 0 ? colour : paper;
  if (day % 4 < 2)
    picture.dot(at, half, look);
  else
    picture.box({at.x - half, at.y - half}, 2 * half, 2 * half, look);
}

double headline(Picture& picture, const std::string& title, const std::string& below) {
  double y =
      picture.write_wrapped({60, 76}, title, {44, Anchor::start, true, ink}, letters(picture, 44));
  if (!below.empty())
    y = picture.write_wrapped(
        {60, y - 6}, below, {30, Anchor::start, false, accent}, letters(picture, 30));
  return y;
}

}  // namespace

Drawn curves_picture(const TestBakeAfter& after, Format format) {
  Drawn drawn{"curves", "How the doughs rose", sheet(format)};
  Picture& picture = drawn.picture;
  double last = 4;
  double most = 1.6;
  for (const auto& jar : after.verdict.observed) {
    for (const auto& look : jar.looks) {
      last = std::max(last, look.hours);
      most = std::max(most, look.ratio);
    }
  }
  for (const double fitted : after.verdict.fitted) most = std::max(most, fitted);
  const double y = headline(picture, after.test.name, after.verdict.sentence);
  const bool tall = narrow(picture);
  const std::size_t days = after.test.days.size();
  const std::size_t lines = after.rivals.size() + (days > 1 ? days : 0);
  const double names = tall ? 44.0 * static_cast<double>(lines) : 0;
  const double right = tall ? 60 : 420;
  Axes axes(picture,
            {130, y + 30},
            picture.width() - 130 - right,
            picture.height() - y - 150 - names,
            0,
            last,
            0.9,
            std::ceil(4 * most) / 4);
  axes.across(step_for(last), "hours after mixing");
  axes.up(step_for(most - 1), "times its volume");
  std::size_t look_index = 0;
  std::set<std::size_t> named;
  double name_y = tall ? picture.height() - names + 20 : y + 60;
  for (const auto& jar : after.verdict.observed) {
    Look look = line_look(jar.dough);
    std::vector<Point> course{axes.at(0, 1)};
    for (const auto& at : jar.looks) {
      const double fitted = after.verdict.fitted[look_index++];
      course.push_back(axes.at(at.hours, fitted));
    }
    picture.path(std::move(course), look);
    for (const auto& at : jar.looks)
      seen(picture, axes.at(at.hours, at.ratio), jar.day, *look.line);
    if (!named.insert(jar.dough).second) continue;
    const double x = tall ? 100 : picture.width() - right + 30;
    picture.line({x, name_y - 9}, {x + 70, name_y - 9}, look);
    picture.write({x + 84, name_y}, after.rivals[jar.dough].name, {26, Anchor::start, false, ink});
    name_y += 44;
  }
  if (days < 2) return drawn;
  for (std::size_t day = 0; day < days; ++day, name_y += 44) {
    const double x = tall ? 100 : picture.width() - right + 30;
    seen(picture, {x + 35, name_y - 9}, day, ink);
    const auto date = time::parse_date(after.test.days[day]);
    picture.write({x + 84, name_y},
                  date ? date->weekday() + " " + date->in_words() : after.test.days[day],
                  {26, Anchor::start, false, ink});
  }
  return drawn;
}

Drawn causes_picture(const TestBakeAfter& after, Format format) {
  Drawn drawn{"causes", "How likely each cause is", sheet(format)};
  Picture& picture = drawn.picture;
  double y = headline(picture, after.test.name, after.verdict.sentence) + 50;
  const double wide = picture.width() - 2 * 60.0;
  const double room =
      (picture.height() - y - 40) / static_cast<double>(after.verdict.causes.size());
  const double row = std::min(room, 190.0);
  for (const auto& found : after.verdict.causes) {
    picture.write({60, y}, std::string(name(found.prior.cause)), {36, Anchor::start, true, ink});
    picture.write(
        {60 + wide, y}, odds(Probability(found.weight), 1000), {32, Anchor::end, false, ink});
    Look frame;
    frame.line = pale;
    frame.width = 1.5;
    picture.box({60, y + 16}, wide, 30, frame);
    Look full;
    full.line.reset();
    full.fill = found.finding == testbakes::Finding::acts ? accent : ink;
    full.opacity = found.finding == testbakes::Finding::acts ? 1 : 0.45;
    picture.box({60, y + 16}, std::max(2.0, wide * found.weight), 30, full);
    picture.write_wrapped(
        {60, y + 82}, found.words, {26, Anchor::start, false, pale}, letters(picture, 26));
    y += row;
  }
  return drawn;
}

Drawn dose_picture(const TestBakeAfter::DoseAnswer& dose, Format format) {
  const std::string cause(name(dose.cause));
  Drawn drawn{"dose-" + cause, "Speed against " + cause, sheet(format)};
  Picture& picture = drawn.picture;
  const double y = headline(picture,
                            "Speed of the dough against " + cause,
                            fmt::format("half speed at {} {}, 8 of 10: {} to {}",
                                        testbakes::two_figures(dose.curve.half_speed_dose),
                                        unit(dose.cause),
                                        testbakes::two_figures(dose.curve.half_low),
                                        testbakes::two_figures(dose.curve.half_high)));
  const double most = 1.05 * std::max(dose.curve.half_speed_dose,
                                      *std::max_element(dose.dose.begin(), dose.dose.end()));
  const double top = std::max(1.2, 1.05 * *std::max_element(dose.speed.begin(), dose.speed.end()));
  Axes axes(
      picture, {130, y + 50}, picture.width() - 200, picture.height() - y - 170, 0, most, 0, top);
  axes.across(step_for(most), std::string(unit(dose.cause)) + " in the dough's water");
  axes.up(0.25, "speed over plain");
  std::vector<Point> line;
  constexpr int parts = 120;
  for (int i = 0; i <= parts; ++i) {
    const double x = most * i / parts;
    line.push_back(axes.at(x, dose.curve.at(x)));
  }
  picture.path(std::move(line), line_look(1));
  Look dot;
  dot.line.reset();
  dot.fill = ink;
  for (std::size_t i = 0; i < dose.dose.size(); ++i)
    picture.dot(axes.at(dose.dose[i], dose.speed[i]), 7, dot);
  Look half = line_look(2);
  half.width = 2;
  picture.line(axes.at(dose.curve.half_speed_dose, 0),
               axes.at(dose.curve.half_speed_dose, dose.curve.at(dose.curve.half_speed_dose)),
               half);
  return drawn;
}

Drawn map_picture(const TestBakeMap& answer, Format format) {
  Drawn drawn{"reach", "How far the drink can go", sheet(format)};
  Picture& picture = drawn.picture;
  const auto& q = answer.map.question;
  const auto& field = answer.map.field;
  const bool time = q.upward == testbakes::Upward::time;
  const double y =
      headline(picture,
               answer.name,
               time ? "chance to be ready by then" : "chance to be ready within " + span(q.within));
  Axes axes(picture,
            {140, y + 50},
            picture.width() - 200,
            picture.height() - y - 230,
            0,
            answer.map.room,
            q.least,
            q.most);
  const double dx = answer.map.room / (field.columns - 1);
  const double dy = (q.most - q.least) / (field.rows - 1);
  for (int row = 0; row + 1 < field.rows; ++row) {
    for (int column = 0; column + 1 < field.columns; ++column) {
      const double chance = 0.25 * (field.at(column, row) + field.at(column + 1, row) +
                                    field.at(column, row + 1) + field.at(column + 1, row + 1));
      if (chance < 0.02) continue;
      Look cell;
      cell.line.reset();
      cell.fill = accent;
      cell.opacity = 0.6 * chance;
      const Point upper = axes.at(column * dx, q.least + (row + 1) * dy);
      const Point lower = axes.at((column + 1) * dx, q.least + row * dy);
      picture.box(upper, lower.x - upper.x, lower.y - upper.y, cell);
    }
  }
  for (const auto& contour : answer.contours) {
    std::vector<Point> line;
    for (const auto& p : contour.points)
      line.push_back(axes.at(p.column * dx, q.least + p.row * dy));
    const std::size_t style = contour.level < 0.3 ? 2 : contour.level < 0.7 ? 4 : 0;
    Look look = line_look(style);
    look.line = ink;
    if (!line.empty()) {
      // A quarter, a half and three quarters along: apart from one another.
      const Point beside = line[line.size() *
                                (contour.level < 0.3   ? 3
                                 : contour.level < 0.7 ? 2
                                                       : 1) /
                                4];
      picture.write({beside.x + 10, beside.y - 12},
                    contour.level < 0.3   ? "1 in 4"
                    : contour.level < 0.7 ? "1 in 2"
                                          : "9 in 10",
                    {24, Anchor::start, true, ink});
    }
    picture.path(std::move(line), look, contour.closed);
  }
  axes.across(0.1, "% " + answer.map.drink + " of the liquid", 100);
  const bool starter = q.upward == testbakes::Upward::starter;
  axes.up(step_for(q.most - q.least),
          starter ? "% starter on flour"
          : time  ? "hours"
                  : "°C",
          starter ? 100 : 1);
  Look here;
  here.fill = ink;
  if (answer.map.now_up >= q.least && answer.map.now_up <= q.most)
    picture.dot(axes.at(answer.map.now_share, answer.map.now_up), 10, here);
  picture.write({140, picture.height() - 30},
                fmt::format("● this bake: {}", odds(Probability(answer.map.chance_now), q.draws)),
                {28, Anchor::start, false, ink});
  return drawn;
}

Drawn whiteboard_picture(const TestBakePlan& plan, Format format) {
  Drawn drawn{"whiteboard", "The working", sheet(format)};
  Picture& picture = drawn.picture;
  const double top = headline(picture, plan.test.name, plan.test.question) + 20;
  const testbakes::Rival* plain = nullptr;
  for (const auto& rival : plan.rivals)
    if (rival.plain && plain == nullptr) plain = &rival;
  const std::size_t columns = narrow(picture) ? 2 : 3;
  const std::size_t rows = (plan.rivals.size() + columns - 1) / columns;
  const double wide = (picture.width() - 120) / static_cast<double>(columns);
  const double high = (picture.height() - top - 30) / static_cast<double>(rows);
  // As large as lets the longest list fit.
  const double size = std::clamp(high / 11, 13.0, 26.0);
  for (std::size_t i = 0; i < plan.rivals.size(); ++i) {
    const auto& rival = plan.rivals[i];
    const double x = 60 + wide * static_cast<double>(i % columns);
    const std::size_t row = i / columns;
    double y = top + high * static_cast<double>(row) + size;
    picture.write({x, y}, rival.name, {1.15 * size, Anchor::start, true, accent});
    y += 1.4 * size;
    for (const auto& line : rival.bowl.lines) {
      picture.write({x + 4.2 * size, y}, weight(line.actual), {size, Anchor::end, false, ink});
      picture.write({x + 4.7 * size, y}, line.name, {size, Anchor::start, false, ink});
      y += 1.25 * size;
    }
    std::string differs;
    if (plain != nullptr && plain != &rival) {
      for (const auto& d : testbakes::differences(rival.bowl, plain->bowl))
        differs += (differs.empty() ? "" : ", ") + testbakes::in_words(d);
    }
    const auto characters = static_cast<std::size_t>((wide - 20) / (0.45 * size));
    picture.write_wrapped(
        {x, y + 0.2 * size}, differs, {0.8 * size, Anchor::start, false, pale}, characters);
  }
  return drawn;
}

}  // namespace barm::service
