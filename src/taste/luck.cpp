#include "taste/luck.h"

#include "numerics/random.h"

namespace barm::taste {

namespace {

// A stream of its own for each scent: far from those of the doughs.
constexpr std::uint64_t apart = 0x7a57e;

template <std::size_t N>
std::vector<std::array<double, N>> normals(int draws, std::uint64_t seed, std::uint64_t stream) {
  numerics::Random random(seed, stream);
  std::vector<std::array<double, N>> out(static_cast<std::size_t>(draws));
  for (auto& one : out) {
    for (double& z : one) z = random.normal();
  }
  return out;
}

}  // namespace

Luck::Luck(int draws, std::uint64_t seed)
    : seed_(seed), common_(normals<common_count>(draws, seed, apart)) {}

const std::vector<Luck::OfScent>& Luck::of(std::size_t scent) {
  const auto found = scents_.find(scent);
  if (found != scents_.end()) return found->second;
  return scents_.emplace(scent, normals<own_count>(draws(), seed_, apart + 1 + scent))
      .first->second;
}

}  // namespace barm::taste
