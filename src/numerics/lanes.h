#pragma once
// Several runs of one equation at once: a Pack is a number with one value in each of its lanes.
//
// A Pack is one vector of 32 bytes, the width of an AVX register; a plain x86-64 processor does it
// in two halves. Pack<double> has 4 lanes, Pack<float> has 8. What is in one lane never reaches
// another, except through any() and the like.
//
//     Pack<double> x(2.0);                     // 2 in all lanes
//     x.set(3, 5.0);
//     x = select(x < 3.0, x * x, x);           // 4, 4, 4, 5
#include <array>
#include <cstddef>
#include <cstdint>
#ifdef __SSE2__
#include <emmintrin.h>
#endif

#include "numerics/generic.h"

namespace barm::numerics {

namespace detail {

inline constexpr int bytes = 32;

template <class Real>
struct Vector;

template <>
struct Vector<double> {
  using Values = double __attribute__((vector_size(bytes)));
  using Signed = std::int64_t;
  using Bits = Signed __attribute__((vector_size(bytes)));
  using Unsigned = std::uint64_t __attribute__((vector_size(bytes)));
};

template <>
struct Vector<float> {
  using Values = float __attribute__((vector_size(bytes)));
  using Signed = std::int32_t;
  using Bits = Signed __attribute__((vector_size(bytes)));
  using Unsigned = std::uint32_t __attribute__((vector_size(bytes)));
};

}  // namespace detail

template <class Real>
class Pack;

/// A condition that may hold in some lanes and not in others.
template <class Real>
class Mask {
 public:
  using Bits = typename detail::Vector<Real>::Bits;
  static constexpr int lanes = detail::bytes / static_cast<int>(sizeof(Real));

  BARM_INLINE Mask() : bits_{} {}

  BARM_INLINE explicit Mask(const Bits& bits) : bits_(bits) {}

  // Copies are written out so that a Mask or Pack always travels in memory: whether vectors travel
  // in registers depends on the instruction set a function is compiled for, and callers must not
  // have to know.
  BARM_INLINE Mask(const Mask& other) : bits_(other.bits_) {}

  // NOLINTNEXTLINE(modernize-use-equals-default)
  BARM_INLINE Mask& operator=(const Mask& other) {
    bits_ = other.bits_;
    return *this;
  }

  [[nodiscard]] BARM_INLINE bool operator[](int lane) const { return bits_[lane] != 0; }

  BARM_INLINE void set(int lane, bool holds) { bits_[lane] = holds ? -1 : 0; }

  BARM_INLINE friend Mask operator&(const Mask& a, const Mask& b) {
    return Mask(a.bits_ & b.bits_);
  }

  BARM_INLINE friend Mask operator|(const Mask& a, const Mask& b) {
    return Mask(a.bits_ | b.bits_);
  }

  BARM_INLINE friend Mask operator!(const Mask& a) { return Mask(~a.bits_); }

  /// Whether it holds in some lane.
  BARM_INLINE friend bool any(const Mask& a) { return hold(a.bits_); }

  /// a in the lanes where it holds, b in the others: what select() does for a Mask.
  template <class P>
  [[nodiscard]] BARM_INLINE P chosen(const P& a, const P& b) const {
    return P(bits_ ? a.values() : b.values());
  }

 private:
  BARM_INLINE static bool hold(const Bits& bits) {
#ifdef __SSE2__
    // Every x86-64 processor looks at 16 bytes at once.
    __m128i halves[2];
    __builtin_memcpy(halves, &bits, detail::bytes);
    return _mm_movemask_epi8(_mm_or_si128(halves[0], halves[1])) != 0;
#else
    for (int lane = 0; lane < lanes; ++lane) {
      if (bits[lane] != 0) return true;
    }
    return false;
#endif
  }

  Bits bits_;
};

template <class RealType>
class Pack {
 public:
  using Real = RealType;
  using Values = typename detail::Vector<Real>::Values;
  using Condition = Mask<Real>;
  static constexpr int lanes = Condition::lanes;

  BARM_INLINE Pack() : values_{} {}

  /// The same in all lanes. Not explicit: numbers stand in equations as they do for double.
  BARM_INLINE Pack(double x) : values_(Values{} + static_cast<Real>(x)) {}

  BARM_INLINE explicit Pack(const Values& values) : values_(values) {}

  BARM_INLINE Pack(const Pack& other) : values_(other.values_) {}

  // NOLINTNEXTLINE(modernize-use-equals-default)
  BARM_INLINE Pack& operator=(const Pack& other) {
    values_ = other.values_;
    return *this;
  }

  [[nodiscard]] BARM_INLINE Real operator[](int lane) const { return values_[lane]; }

  BARM_INLINE void set(int lane, double x) { values_[lane] = static_cast<Real>(x); }

  [[nodiscard]] BARM_INLINE const Values& values() const { return values_; }

#define BARM_PACK_OPERATOR(op)                                        \
  BARM_INLINE friend Pack operator op(const Pack& a, const Pack& b) { \
    return Pack(a.values_ op b.values_);                              \
  }
  BARM_PACK_OPERATOR(+)
  BARM_PACK_OPERATOR(-)
  BARM_PACK_OPERATOR(*)
  BARM_PACK_OPERATOR(/)
#undef BARM_PACK_OPERATOR

#define BARM_PACK_COMPARISON(op)                                           \
  BARM_INLINE friend Condition operator op(const Pack& a, const Pack& b) { \
    return Condition(a.values_ op b.values_);                              \
  }
  BARM_PACK_COMPARISON(<)
  BARM_PACK_COMPARISON(>)
  BARM_PACK_COMPARISON(<=)
  BARM_PACK_COMPARISON(>=)
#undef BARM_PACK_COMPARISON

  BARM_INLINE friend Pack operator-(const Pack& a) { return Pack(-a.values_); }

 private:
  Values values_;
};

}  // namespace barm::numerics
