#include "drawing/picture.h"

#include <gmock/gmock.h>

namespace barm::drawing {

namespace {

using testing::HasSubstr;
using testing::Not;

Picture small() {
  Picture picture(120, 80);
  Look look;
  look.fill = Colour{0xb4541e};
  picture.box({10, 10}, 50, 30, look);
  picture.line({0, 0}, {120, 80}, {});
  picture.write({60, 40}, "bread & <wine>", {12, Anchor::middle, true, Colour{0x2b2723}});
  return picture;
}

unsigned big_endian(const std::string& bytes, std::size_t at) {
  unsigned value = 0;
  for (std::size_t i = at; i < at + 4; ++i)
    value = value << 8 | static_cast<unsigned char>(bytes[i]);
  return value;
}

TEST(Picture, SvgStandsAloneAndEscapesWords) {
  const std::string svg = small().svg("a \"title\"");
  EXPECT_THAT(svg, HasSubstr("viewBox=\"0 0 120 80\""));
  EXPECT_THAT(svg, HasSubstr("<title>a &quot;title&quot;</title>"));
  EXPECT_THAT(svg, HasSubstr("bread &amp; &lt;wine&gt;"));
  EXPECT_THAT(svg, Not(HasSubstr("href")));
  EXPECT_THAT(svg, Not(HasSubstr("<rect")));  // no ground: it is transparent
}

// PNG, ISO/IEC 15948: signature, then IHDR with width, height, depth 8, colour type 6 (with alpha).
TEST(Picture, PngHasItsSizeAndAnAlphaChannel) {
  const std::string png = small().png();
  ASSERT_GT(png.size(), 40U);
  EXPECT_EQ(png.substr(0, 8), "\x89PNG\r\n\x1a\n");
  EXPECT_EQ(png.substr(12, 4), "IHDR");
  EXPECT_EQ(big_endian(png, 16), 120U);
  EXPECT_EQ(big_endian(png, 20), 80U);
  EXPECT_EQ(png[24], 8);
  EXPECT_EQ(png[25], 6);
}

TEST(Picture, WrapsWordsAtTheWidthAsked) {
  Picture picture(200, 200);
  const double below =
      picture.write_wrapped({0, 10}, "one two three four", {10, Anchor::start, false, ink}, 9);
  ASSERT_EQ(picture.shapes().size(), 3U);
  EXPECT_EQ(picture.shapes()[0].text, "one two");
  EXPECT_EQ(picture.shapes()[2].text, "four");
  EXPECT_NEAR(below, 10 + 3 * 13.5, 1e-9);
}

}  // namespace

}  // namespace barm::drawing
