#pragma once
#include <utility>

#include "base/result.h"
#include "server/door/problem.h"

namespace barm::server {

/// What the daybook answered. Throws Refused with its error.
template <class T>
T from_daybook(Result<T> result) {
  if (!result) throw Refused{problem(result.error())};
  return std::move(*result);
}

}  // namespace barm::server
