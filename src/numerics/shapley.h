#pragma once
#include <cstddef>
#include <functional>
#include <vector>

namespace barm::numerics {

/// Shapley values: what each of n factors contributes to value(all) - value(none), averaged over
/// every order in which they could have been brought in. `value` takes a bit mask of the factors
/// present; it is called once for each of the 2^n masks. The values sum to value(all) -
/// value(none). n at most 16. Source: Shapley, A value for n-person games, 1953.
[[nodiscard]] std::vector<double> shapley(std::size_t n,
                                          const std::function<double(unsigned)>& value);

}  // namespace barm::numerics
