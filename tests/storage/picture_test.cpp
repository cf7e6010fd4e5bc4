#include "storage/internal/picture.h"

#include <gmock/gmock.h>

#include <cstdlib>
#include <thread>
#include <vector>

#include "../support/matchers.h"
#include "../support/memory.h"
#include "daybooks.h"
#include "storage/internal/stb.h"

namespace barm::storage::test {

namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using testing::HasSubstr;
using testing::Not;

void append(void* to, void* data, int size) {
  static_cast<std::string*>(to)->append(static_cast<const char*>(data),
                                        static_cast<std::size_t>(size));
}

// Four quarters: red and green above, blue and white below.
std::vector<unsigned char> quarters(int width, int height) {
  std::vector<unsigned char> pixels;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const bool right = 2 * x >= width;
      const bool below = 2 * y >= height;
      const bool white = right && below;
      pixels.push_back(white || (!right && !below) ? 255 : 0);
      pixels.push_back(white || (right && !below) ? 255 : 0);
      pixels.push_back(white || (!right && below) ? 255 : 0);
    }
  }
  return pixels;
}

std::string jpeg(int width, int height) {
  std::string bytes;
  stbi_write_jpg_to_func(append, &bytes, width, height, 3, quarters(width, height).data(), 95);
  return bytes;
}

std::string png(int width, int height) {
  std::string bytes;
  stbi_write_png_to_func(append, &bytes, width, height, 3, quarters(width, height).data(), 0);
  return bytes;
}

// The same with an EXIF segment that says how to turn it, and a place that must not be kept.
std::string turned(const std::string& plain, int orientation) {
  std::string tiff("II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0", 18);
  tiff += std::string{static_cast<char>(orientation), 0, 0, 0};
  tiff += std::string(4, '\0') + "GPS 54.0 N 8.5 E";
  const std::string segment = std::string("Exif\0\0", 6) + tiff;
  const std::size_t length = segment.size() + 2;
  return plain.substr(0, 2) + "\xFF\xE1" + static_cast<char>(length >> 8U) +
         static_cast<char>(length & 0xFFU) + segment + plain.substr(2);
}

struct Shown {
  int width = 0, height = 0;
  std::string corners;  // top left, top right, bottom left, bottom right: r, g, b, w
};

Shown shown(const std::string& bytes) {
  Shown picture;
  int channels = 0;
  unsigned char* pixels =
      stbi_load_from_memory(reinterpret_cast<const unsigned char*>(bytes.data()),
                            static_cast<int>(bytes.size()),
                            &picture.width,
                            &picture.height,
                            &channels,
                            3);
  if (pixels == nullptr) return picture;
  for (const bool below : {false, true}) {
    for (const bool right : {false, true}) {
      const int x = right ? picture.width * 3 / 4 : picture.width / 4;
      const int y = below ? picture.height * 3 / 4 : picture.height / 4;
      const unsigned char* p = pixels + 3 * (y * picture.width + x);
      const bool red = p[0] > 128;
      const bool green = p[1] > 128;
      picture.corners += red && green ? 'w' : red ? 'r' : green ? 'g' : 'b';
    }
  }
  std::free(pixels);
  return picture;
}

// EXIF 2.3 (JEITA CP-3451C), tag 274: where row 0 and column 0 stand to the eye.
TEST(Picture, StandsUprightHoweverTheCameraWasHeld) {
  constexpr const char* upright[] = {
      "rgbw", "grwb", "wbgr", "bwrg", "rbgw", "brwg", "wgbr", "gwrb"};
  for (int orientation = 1; orientation <= 8; ++orientation) {
    const auto made = internal::make_pictures(turned(jpeg(96, 64), orientation));
    ASSERT_THAT(made, Holds());
    const Shown picture = shown(made->picture);
    EXPECT_EQ(picture.corners, upright[orientation - 1]) << orientation;
    EXPECT_EQ(picture.width, orientation >= 5 ? 64 : 96) << orientation;
    EXPECT_EQ(made->width, picture.width);
    EXPECT_EQ(made->height, picture.height);
    EXPECT_EQ(shown(made->thumbnail).corners, upright[orientation - 1]) << orientation;
  }
}

TEST(Picture, DoesNotKeepWhereItWasTaken) {
  const auto made = internal::make_pictures(turned(jpeg(96, 64), 6));
  ASSERT_THAT(made, Holds());
  EXPECT_THAT(made->picture, Not(HasSubstr("GPS")));
  EXPECT_THAT(made->picture, Not(HasSubstr("Exif")));
}

TEST(Picture, IsMadeSmallerAndTheThumbnailSmaller) {
  const auto made = internal::make_pictures(png(3000, 1000));
  ASSERT_THAT(made, Holds());
  EXPECT_EQ(made->width, 2400);
  EXPECT_EQ(made->height, 800);
  const Shown small = shown(made->thumbnail);
  EXPECT_EQ(small.width, 320);
  EXPECT_EQ(small.height, 107);
  EXPECT_EQ(small.corners, "rgbw");
}

TEST(Picture, RefusesWhatIsNone) {
  EXPECT_THAT(internal::make_pictures(""), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(internal::make_pictures("<svg onload=alert(1)>"), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(internal::make_pictures(std::string(25000001, 'x')), FailsWith(ErrorCode::bad_input));
  const std::string whole = png(200, 200);
  EXPECT_THAT(internal::make_pictures(whole.substr(0, whole.size() / 2)),
              FailsWith(ErrorCode::bad_input));
  // A head that promises 20 000 x 20 000 pixels.
  std::string bomb = whole;
  bomb.replace(16, 8, std::string("\0\0\x4E\x20\0\0\x4E\x20", 8));
  EXPECT_THAT(internal::make_pictures(bomb), FailsWith(ErrorCode::bad_input));
}

TEST(Picture, IsKeptWithTheBakeAndItsWordsCanChange) {
  const Folder folder;
  auto daybook = Daybook::open(folder / "daybook.barm", {.create = true});
  ASSERT_THAT(daybook, Holds());
  ASSERT_THAT(daybook->save(a_bake("b"), noon), Holds());
  Photo photo;
  photo.id = "p";
  photo.bake = "b";
  photo.taken_at = noon;
  EXPECT_THAT(daybook->save(photo, noon), FailsWith(ErrorCode::bad_input));
  const auto kept = daybook->add_photo(photo, jpeg(400, 200), noon);
  ASSERT_THAT(kept, Holds());
  EXPECT_EQ(kept->width_px, 400);
  EXPECT_EQ(shown(*daybook->picture("p")).corners, "rgbw");
  EXPECT_EQ(shown(*daybook->thumbnail("p")).width, 320);
  EXPECT_EQ(daybook->add_photo(photo, jpeg(400, 200), noon)->revision, 1) << "sent again";
  EXPECT_THAT(daybook->add_photo(photo, jpeg(300, 200), noon), FailsWith(ErrorCode::conflict))
      << "another picture under its id";
  EXPECT_EQ(daybook->get<Photo>(photo.id)->width_px, 400);
  Photo changed = *kept;
  changed.caption = "the crumb";
  changed.width_px = 7;
  const auto saved = daybook->save(changed, noon);
  ASSERT_THAT(saved, Holds());
  EXPECT_EQ(saved->width_px, 400);
  EXPECT_EQ(daybook->list_bakes()->front().photo, "p");
  EXPECT_THAT(daybook->picture("q"), FailsWith(ErrorCode::not_found));
  Photo orphan = photo;
  orphan.id = "o";
  orphan.bake = "nowhere";
  EXPECT_THAT(daybook->add_photo(orphan, jpeg(40, 20), noon), FailsWith(ErrorCode::not_found));
}

long memory_of_pictures(const std::string& bytes, int at_once) {
  return barm::test::memory_taken_by([&] {
    std::vector<std::thread> threads;
    for (int i = 0; i < at_once; ++i)
      threads.emplace_back([&] { static_cast<void>(internal::make_pictures(bytes)); });
    for (std::thread& thread : threads) thread.join();
  });
}

TEST(Pictures, AreDecodedInTurnSoThatManyTakeTheMemoryOfOne) {
  constexpr int width = 5000;
  constexpr int height = 4000;
  std::string bytes;
  {
    const std::vector<unsigned char> grey(3UL * width * height, 120);
    stbi_write_jpg_to_func(append, &bytes, width, height, 3, grey.data(), 60);
  }
  const long one = memory_of_pictures(bytes, 1);
  EXPECT_GT(one, 3L * width * height) << "its pixels";
  EXPECT_LT(memory_of_pictures(bytes, 6), 2 * one);
}

}  // namespace

}  // namespace barm::storage::test
