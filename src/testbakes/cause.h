#pragma once
#include <array>
#include <cstddef>
#include <string>
#include <string_view>

namespace barm::testbakes {

/// The rival causes, in the order in which they are named; `other` is whatever else is in the base
/// bake's drinks.
enum class Cause { alcohol, acid, sulphite, sugar, sorbate, hops, other };
inline constexpr std::size_t cause_count = static_cast<std::size_t>(Cause::other) + 1;
inline constexpr std::array<Cause, cause_count> all_causes{Cause::alcohol,
                                                           Cause::acid,
                                                           Cause::sulphite,
                                                           Cause::sugar,
                                                           Cause::sorbate,
                                                           Cause::hops,
                                                           Cause::other};

/// "alcohol", "acid", …
[[nodiscard]] std::string_view name(Cause cause);

/// As a sentence has it: "the alcohol", "something else in the drink".
[[nodiscard]] std::string in_a_sentence(Cause cause);

}  // namespace barm::testbakes
