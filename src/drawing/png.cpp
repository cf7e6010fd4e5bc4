#include <cairo.h>

#include <memory>

#include "base/require.h"
#include "drawing/picture.h"

namespace barm::drawing {

namespace {

struct Release {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }

  void operator()(cairo_t* context) const { cairo_destroy(context); }
};

using Surface = std::unique_ptr<cairo_surface_t, Release>;
using Context = std::unique_ptr<cairo_t, Release>;

void set_colour(cairo_t* cr, Colour colour, double opacity) {
  const std::uint32_t rgb = colour.rgb;
  cairo_set_source_rgba(cr,
                        static_cast<double>(rgb >> 16 & 0xff) / 255,
                        static_cast<double>(rgb >> 8 & 0xff) / 255,
                        static_cast<double>(rgb & 0xff) / 255,
                        opacity);
}

void draw_path(cairo_t* cr, const Shape& shape) {
  cairo_new_path(cr);
  for (const Point& p : shape.points) cairo_line_to(cr, p.x, p.y);
  if (shape.closed) cairo_close_path(cr);
  const Look& look = shape.look;
  if (look.fill) {
    set_colour(cr, *look.fill, look.opacity);
    cairo_fill_preserve(cr);
  }
  if (look.line && look.width > 0) {
    set_colour(cr, *look.line, 1);
    cairo_set_line_width(cr, look.width);
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
    cairo_set_dash(cr, look.dashes.data(), static_cast<int>(look.dashes.size()), 0);
    cairo_stroke(cr);
  }
  cairo_new_path(cr);
}

void draw_words(cairo_t* cr, const Shape& shape) {
  const Words& words = shape.words;
  cairo_select_font_face(cr,
                         "sans-serif",
                         CAIRO_FONT_SLANT_NORMAL,
                         words.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size(cr, words.size);
  cairo_text_extents_t extents;
  cairo_text_extents(cr, shape.text.c_str(), &extents);
  const double back = words.anchor == Anchor::start    ? 0
                      : words.anchor == Anchor::middle ? extents.x_advance / 2
                                                       : extents.x_advance;
  set_colour(cr, words.colour, 1);
  cairo_move_to(cr, shape.points.front().x - back, shape.points.front().y);
  cairo_show_text(cr, shape.text.c_str());
}

cairo_status_t append(void* to, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

std::string Picture::png() const {
  const Surface surface(cairo_image_surface_create(
      CAIRO_FORMAT_ARGB32, static_cast<int>(width_), static_cast<int>(height_)));
  const Context context(cairo_create(surface.get()));
  for (const Shape& shape : shapes_)
    shape.text.empty() ? draw_path(context.get(), shape) : draw_words(context.get(), shape);
  std::string bytes;
  const auto status = cairo_surface_write_to_png_stream(surface.get(), append, &bytes);
  require(status == CAIRO_STATUS_SUCCESS, "a picture can be written to memory");
  return bytes;
}

}  // namespace barm::drawing
