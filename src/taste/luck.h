#pragma once
// What is not known about scents, drawn: the same luck whatever is asked, so that answers can be
// held against one another.
#include <array>
#include <cstdint>
#include <map>
#include <vector>

namespace barm::taste {

/// What is in doubt about every scent alike.
enum class Common { fat, flour, gas, vented, dilution };
inline constexpr std::size_t common_count = static_cast<std::size_t>(Common::dilution) + 1;

/// What is in doubt about one scent.
enum class Own {
  content,
  solubility,
  volatility,
  microbes,
  threshold,
  nose,
  kept
};  // nose: of the tongue
inline constexpr std::size_t own_count = static_cast<std::size_t>(Own::kept) + 1;

/// Standard normal numbers by draw; those of a scent do not depend on which others are asked for.
class Luck {
 public:
  Luck(int draws, std::uint64_t seed);

  using OfDraw = std::array<double, common_count>;
  using OfScent = std::array<double, own_count>;

  [[nodiscard]] int draws() const { return static_cast<int>(common_.size()); }

  [[nodiscard]] const std::vector<OfDraw>& common() const { return common_; }

  [[nodiscard]] const std::vector<OfScent>& of(std::size_t scent);

 private:
  std::uint64_t seed_;
  std::vector<OfDraw> common_;
  std::map<std::size_t, std::vector<OfScent>> scents_;
};

}  // namespace barm::taste
