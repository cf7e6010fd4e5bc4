#include "storage/internal/picture.h"

#include <malloc.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <mutex>
#include <new>

#include "storage/internal/stb.h"

namespace barm::storage::internal {

namespace {

constexpr std::size_t most_bytes = 25000000;
constexpr double most_pixels = 60e6;
constexpr int picture_side = 2400;
constexpr int thumbnail_side = 320;
constexpr int picture_quality = 88;
constexpr int thumbnail_quality = 80;

// Three bytes a pixel, row by row, freed as the library that made them wants.
struct Raster {
  int width = 0, height = 0;
  std::unique_ptr<unsigned char, void (*)(void*)> pixels{nullptr, std::free};

  [[nodiscard]] static Raster of_size(int width, int height) {
    Raster raster{width, height};
    raster.pixels.reset(static_cast<unsigned char*>(std::malloc(raster.bytes())));
    if (!raster.pixels) throw std::bad_alloc();
    return raster;
  }

  [[nodiscard]] std::size_t bytes() const {
    return 3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
  }

  [[nodiscard]] const unsigned char* at(int x, int y) const {
    return pixels.get() + 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
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
  Raster turned = Raster::of_size(turn >= 5 ? stored.height : stored.width,
                                  turn >= 5 ? stored.width : stored.height);
  unsigned char* to = turned.pixels.get();
  for (int y = 0; y < turned.height; ++y) {
    for (int x = 0; x < turned.width; ++x, to += 3)
      std::copy_n(upright_pixel(stored, turn, x, y), 3, to);
  }
  return turned;
}

Raster smaller(const Raster& raster, int side) {
  const double scale = static_cast<double>(side) / std::max(raster.width, raster.height);
  Raster small = Raster::of_size(std::max(1, static_cast<int>(std::lround(scale * raster.width))),
                                 std::max(1, static_cast<int>(std::lround(scale * raster.height))));
  stbir_resize_uint8(raster.pixels.get(),
                     raster.width,
                     raster.height,
                     0,
                     small.pixels.get(),
                     small.width,
                     small.height,
                     0,
                     3);
  return small;
}

bool is_over(const Raster& raster, int side) {
  return std::max(raster.width, raster.height) > side;
}

std::string as_jpeg(const Raster& raster, int quality) {
  std::string bytes;
  const auto append = [](void* to, void* data, int size) {
    static_cast<std::string*>(to)->append(static_cast<const char*>(data),
                                          static_cast<std::size_t>(size));
  };
  stbi_write_jpg_to_func(
      append, &bytes, raster.width, raster.height, 3, raster.pixels.get(), quality);
  return bytes;
}

// Whether every part of a PNG is as long as it says it is: the library makes room for what is said,
// two gigabytes of a file of a hundred bytes. True of what is no PNG.
bool parts_are_there(std::string_view bytes) {
  constexpr std::string_view signature = "\x89PNG\r\n\x1A\n";
  constexpr std::size_t beside = 12;  // bytes of a part besides its content: length, name, check
  if (!bytes.starts_with(signature)) return true;
  bytes.remove_prefix(signature.size());
  while (bytes.size() >= beside) {
    std::size_t length = 0;
    for (std::size_t i = 0; i < 4; ++i)
      length = (length << 8U) | static_cast<unsigned char>(bytes[i]);
    if (length > bytes.size() - beside) return false;
    bytes.remove_prefix(length + beside);
  }
  return true;
}

// What the header says, before anything is decoded.
Result<bool> small_enough(const std::string& bytes) {
  int width = 0;
  int height = 0;
  int channels = 0;
  if (bytes.size() > most_bytes) return failure(ErrorCode::bad_input, "photo", "is over 25 MB");
  if (stbi_info_from_memory(reinterpret_cast<const unsigned char*>(bytes.data()),
                            static_cast<int>(bytes.size()),
                            &width,
                            &height,
                            &channels) == 0)
    return failure(ErrorCode::bad_input, "photo", "is neither JPEG nor PNG");
  if (static_cast<double>(width) * height > most_pixels)
    return failure(ErrorCode::bad_input, "photo", "has more than 60 million pixels");
  if (!parts_are_there(bytes))
    return failure(ErrorCode::bad_input, "photo", "is broken; send it again");
  return true;
}

// Gives freed memory back to the machine: each thread would keep some for its own next picture.
struct GivenBack {
  GivenBack() = default;
  GivenBack(const GivenBack&) = delete;
  GivenBack& operator=(const GivenBack&) = delete;

  ~GivenBack() { ::malloc_trim(0); }
};

// Upright and not too long.
Result<Raster> picture_of(const std::string& bytes) {
  Raster stored;
  int channels = 0;
  stored.pixels.reset(stbi_load_from_memory(reinterpret_cast<const unsigned char*>(bytes.data()),
                                            static_cast<int>(bytes.size()),
                                            &stored.width,
                                            &stored.height,
                                            &channels,
                                            3));
  if (!stored.pixels) return failure(ErrorCode::bad_input, "photo", "is broken; send it again");
  if (is_over(stored, picture_side)) stored = smaller(stored, picture_side);
  return upright(std::move(stored), orientation(bytes));
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

std::optional<PictureSize> own_jpeg_size(const std::string& bytes) {
  int width = 0;
  int height = 0;
  int channels = 0;
  const bool is_own = bytes.starts_with("\xFF\xD8\xFF") &&
                      stbi_info_from_memory(reinterpret_cast<const unsigned char*>(bytes.data()),
                                            static_cast<int>(bytes.size()),
                                            &width,
                                            &height,
                                            &channels) != 0 &&
                      width <= picture_side && height <= picture_side;
  return is_own ? std::optional(PictureSize{width, height}) : std::nullopt;
}

Result<Pictures> make_pictures(const std::string& bytes) {
  const auto small = small_enough(bytes);
  if (!small) return failure(small);
  // One at a time in the whole program: 60 million pixels take most of a gigabyte.
  static std::mutex one_at_a_time;
  const std::scoped_lock turn(one_at_a_time);
  const GivenBack given_back;
  auto picture = picture_of(bytes);
  if (!picture) return failure(picture);
  Pictures made;
  made.width = picture->width;
  made.height = picture->height;
  made.picture = as_jpeg(*picture, picture_quality);
  if (is_over(*picture, thumbnail_side)) *picture = smaller(*picture, thumbnail_side);
  made.thumbnail = as_jpeg(*picture, thumbnail_quality);
  return made;
}

}  // namespace barm::storage::internal
