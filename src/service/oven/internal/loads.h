#pragma once
#include "service/oven/oven.h"

namespace barm::service::internal {

/// The most that are told one by one.
inline constexpr int most_loads = 12;

/// What is asked of the dough of each load.
struct Loading {
  formula::Bake bake;  ///< with the bulk that it is to have
  forecast::Options options;
  int pieces = 1;
  int loads = 1;
};

/// How ripe the doughs of the first load are and how far they spring; and where the loaves do not
/// all fit, how those behind it stand, each left in its last place until those before it are out.
/// The room is that of doughs drawn; dough k springs in oven k of answer.many,
///
///     rise_k = 1 + min(room_k, s_k S/S_1)
///
/// s_k of a loaf of the first load with room for it; S of the middle dough of this load and S_1 of
/// the first's, in the typical oven.
///
/// Errors: as foresee().
[[nodiscard]] Result<bool> tell_loads(const Loading& loading, OvenAnswer& answer);

}  // namespace barm::service::internal
