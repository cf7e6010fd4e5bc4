#pragma once
#include <array>
#include <cstddef>
#include <string_view>

namespace barm::testbakes {

/// The rival causes, in the order in which they are named.
enum class Cause { alcohol, acid, sulphite, sugar, sorbate, hops };
inline constexpr std::size_t cause_count = static_cast<std::size_t>(Cause::hops) + 1;
inline constexpr std::array<Cause, cause_count> all_causes{
    Cause::alcohol, Cause::acid, Cause::sulphite, Cause::sugar, Cause::sorbate, Cause::hops};

/// "alcohol", "acid", …
[[nodiscard]] std::string_view name(Cause cause);

}  // namespace barm::testbakes
