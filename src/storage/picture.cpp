#include "storage/internal/picture.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <vector>

#include "storage/internal/stb.h"

namespace barm::storage::internal {

namespace {

constexpr std::size_t most_bytes = 25000000;
constexpr double most_pixels = 60e6;
constexpr int picture_side = 2400;
constexpr int thumbnail_side = 320;
constexpr int picture_quality = 88;
constexpr int thumbnail_quality = 80;

// Three bytes a pixel, row by row.
struct Raster {
  int width = 0, height = 0;
  std::vector<unsigned char> pixels;

  [[nodiscard]] const unsigned char* at(int x, int y) const {
    return pixels.data() + 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                                static_cast<std::size_t>(x));
  }
};

// Unsigned numbers out of a TIFF header in its own byte order; 0 beyond the end.
class Tiff {
 public:
  explicit Tiff(std::string_view bytes) : bytes_(bytes), little_(bytes.starts_with("II")) {}

  [[nodiscard]] std::size_t number(std::size_t at, std::size_t length) const {
    if (at > bytes_.size() || length > bytes_.size() - at) return 0;
    std::size_t value = 0;
    for (std::size_t i = 0; i < length; ++i) {
      const std::size_t from = little_ ? length - 1 - i : i;
      value = (value << 8U) | static_cast<unsigned char>(bytes_[at + from]);
    }
    return value;
  }

 private:
  std::string_view bytes_;
  bool little_;
};

int orientation_of_exif(std::string_view tiff_bytes) {
  constexpr std::size_t orientation_tag = 0x0112;
  const Tiff tiff(tiff_bytes);
  const std::size_t directory = tiff.number(4, 4);
  const std::size_t entries = tiff.number(directory, 2);
  for (std::size_t i = 0; i < entries; ++i) {
    const std::size_t entry = directory + 2 + 12 * i;
    if (tiff.number(entry, 2) != orientation_tag) continue;
    const std::size_t value = tiff.number(entry + 8, 2);
    return value >= 1 && value <= 8 ? static_cast<int>(value) : 1;
  }
  return 1;
}

// The pixel of the stored picture that stands at (x, y) of the upright one.
const unsigned char* upright_pixel(const Raster& stored, int turn, int x, int y) {
  const int right = stored.width - 1;
  const int bottom = stored.height - 1;
  switch (turn) {
    case 2:
      return stored.at(right - x, y);
    case 3:
      return stored.at(right - x, bottom - y);
    case 4:
      return stored.at(x, bottom - y);
    case 5:
      return stored.at(y, x);
    case 6:
      return stored.at(y, bottom - x);
    case 7:
      return stored.at(right - y, bottom - x);
    case 8:
      return stored.at(right - y, x);
    default:
      return stored.at(x, y);
  }
}

Raster upright(Raster stored, int turn) {
  if (turn == 1) return stored;
  Raster turned{
      turn >= 5 ? stored.height : stored.width, turn >= 5 ? stored.width : stored.height, {}};
  turned.pixels.reserve(stored.pixels.size());
  for (int y = 0; y < turned.height; ++y) {
    for (int x = 0; x < turned.width; ++x) {
      const unsigned char* pixel = upright_pixel(stored, turn, x, y);
      turned.pixels.insert(turned.pixels.end(), pixel, pixel + 3);
    }
  }
  return turned;
}

Raster at_most(const Raster& raster, int side) {
  const int longest = std::max(raster.width, raster.height);
  if (longest <= side) return raster;
  const double scale = static_cast<double>(side) / longest;
  Raster small{std::max(1, static_cast<int>(std::lround(scale * raster.width))),
               std::max(1, static_cast<int>(std::lround(scale * raster.height))),
               {}};
  small.pixels.resize(3 * static_cast<std::size_t>(small.width) *
                      static_cast<std::size_t>(small.height));
  stbir_resize_uint8(raster.pixels.data(),
                     raster.width,
                     raster.height,
                     0,
                     small.pixels.data(),
                     small.width,
                     small.height,
                     0,
                     3);
  return small;
}

std::string as_jpeg(const Raster& raster, int quality) {
  std::string bytes;
  const auto append = [](void* to, void* data, int size) {
    static_cast<std::string*>(to)->append(static_cast<const char*>(data),
                                          static_cast<std::size_t>(size));
  };
  stbi_write_jpg_to_func(
      append, &bytes, raster.width, raster.height, 3, raster.pixels.data(), quality);
  return bytes;
}

Result<Raster> decoded(const std::string& bytes) {
  const auto* data = reinterpret_cast<const unsigned char*>(bytes.data());
  const int size = static_cast<int>(bytes.size());
  int width = 0;
  int height = 0;
  int channels = 0;
  if (stbi_info_from_memory(data, size, &width, &height, &channels) == 0)
    return failure(ErrorCode::bad_input, "photo", "is neither JPEG nor PNG");
  if (static_cast<double>(width) * height > most_pixels)
    return failure(ErrorCode::bad_input, "photo", "has more than 60 million pixels");
  const std::unique_ptr<unsigned char, void (*)(void*)> pixels(
      stbi_load_from_memory(data, size, &width, &height, &channels, 3), std::free);
  if (!pixels) return failure(ErrorCode::bad_input, "photo", "is broken; send it again");
  const std::size_t count = 3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
  return Raster{width, height, {pixels.get(), pixels.get() + count}};
}

}  // namespace

int orientation(const std::string& jpeg) {
  const std::string_view bytes(jpeg);
  if (!bytes.starts_with("\xFF\xD8")) return 1;
  std::size_t at = 2;
  while (at + 4 <= bytes.size() && bytes[at] == '\xFF') {
    const auto marker = static_cast<unsigned char>(bytes[at + 1]);
    if (marker == 0xDA || marker == 0xD9) return 1;  // the pixels begin: nothing said
    const std::size_t length =
        (static_cast<std::size_t>(static_cast<unsigned char>(bytes[at + 2])) << 8U) |
        static_cast<unsigned char>(bytes[at + 3]);
    if (length < 2) return 1;
    const std::string_view segment = bytes.substr(at + 4, length - 2);
    if (marker == 0xE1 && segment.starts_with(std::string_view("Exif\0\0", 6)))
      return orientation_of_exif(segment.substr(6));
    at += 2 + length;
  }
  return 1;
}

bool is_own_jpeg(const std::string& bytes) {
  int width = 0;
  int height = 0;
  int channels = 0;
  return bytes.starts_with("\xFF\xD8\xFF") &&
         stbi_info_from_memory(reinterpret_cast<const unsigned char*>(bytes.data()),
                               static_cast<int>(bytes.size()),
                               &width,
                               &height,
                               &channels) != 0 &&
         width <= picture_side && height <= picture_side;
}

Result<Pictures> make_pictures(const std::string& bytes) {
  if (bytes.size() > most_bytes) return failure(ErrorCode::bad_input, "photo", "is over 25 MB");
  auto raster = decoded(bytes);
  if (!raster) return failure(raster);
  const Raster picture = upright(at_most(*raster, picture_side), orientation(bytes));
  return Pictures{as_jpeg(picture, picture_quality),
                  as_jpeg(at_most(picture, thumbnail_side), thumbnail_quality),
                  picture.width,
                  picture.height};
}

}  // namespace barm::storage::internal
