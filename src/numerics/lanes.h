#pragma once
// Several runs of one equation at once: a Pack is a number with one value in each of its lanes.
//
// A Pack is built of 32-byte vectors, the width of an AVX register; a plain x86-64 processor does
// each in two halves. Pack<double, 1> has 4 lanes, Pack<double, 2> and Pack<float, 1> have 8,
// Pack<float, 2> has 16. What is in one lane never reaches another, except through any() and the
// like.
//
//     Pack<double, 1> x(2.0);                  // 2 in all lanes
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

template <class Real>
struct Register;

template <>
struct Register<double> {
  using Values = double __attribute__((vector_size(32)));
  using Bits = std::int64_t __attribute__((vector_size(32)));
  using Word = std::int64_t;
};

template <>
struct Register<float> {
  using Values = float __attribute__((vector_size(32)));
  using Bits = std::int32_t __attribute__((vector_size(32)));
  using Word = std::int32_t;
};

}  // namespace detail

template <class Real, int Registers>
class Pack;

/// A condition that may hold in some lanes and not in others.
template <class Real, int Registers>
class Mask {
 public:
  using Bits = typename detail::Register<Real>::Bits;
  static constexpr int lanes = Registers * static_cast<int>(32 / sizeof(Real));

  BARM_INLINE Mask() {
    for (Bits& bits : bits_) bits = Bits{};
  }

  // Copies are written out so that a Mask or Pack always travels in memory: whether vectors travel
  // in registers depends on the instruction set a function is compiled for, and callers must not
  // have to know.
  BARM_INLINE Mask(const Mask& other) {
    for (int r = 0; r < Registers; ++r) bits_[r] = other.bits_[r];
  }

  // A register assigned to itself stays what it is.
  // NOLINTNEXTLINE(bugprone-unhandled-self-assignment)
  BARM_INLINE Mask& operator=(const Mask& other) {
    for (int r = 0; r < Registers; ++r) bits_[r] = other.bits_[r];
    return *this;
  }

  [[nodiscard]] BARM_INLINE bool operator[](int lane) const {
    const Bits& bits = bits_[lane / per];
    return bits[lane % per] != 0;  // NOLINT(clang-analyzer-core.*)
  }

  BARM_INLINE void set(int lane, bool holds) { bits_[lane / per][lane % per] = holds ? -1 : 0; }

  [[nodiscard]] BARM_INLINE Bits& bits(int r) { return bits_[r]; }

  [[nodiscard]] BARM_INLINE const Bits& bits(int r) const { return bits_[r]; }

  BARM_INLINE friend Mask operator&(const Mask& a, const Mask& b) {
    Mask both;
    for (int r = 0; r < Registers; ++r) both.bits_[r] = a.bits_[r] & b.bits_[r];
    return both;
  }

  BARM_INLINE friend Mask operator|(const Mask& a, const Mask& b) {
    Mask either;
    for (int r = 0; r < Registers; ++r) either.bits_[r] = a.bits_[r] | b.bits_[r];
    return either;
  }

  BARM_INLINE friend Mask operator!(const Mask& a) {
    Mask neither;
    for (int r = 0; r < Registers; ++r) neither.bits_[r] = ~a.bits_[r];
    return neither;
  }

  /// Whether it holds in some lane.
  BARM_INLINE friend bool any(const Mask& a) {
    Bits some = a.bits_[0];
    for (int r = 1; r < Registers; ++r) some |= a.bits_[r];
    return hold(some);
  }

  /// a in the lanes where it holds, b in the others: what select() does for a Mask.
  template <class P>
  [[nodiscard]] BARM_INLINE P chosen(const P& a, const P& b) const {
    P out;
    for (int r = 0; r < Registers; ++r) out.values(r) = bits_[r] ? a.values(r) : b.values(r);
    return out;
  }

 private:
  static constexpr int per = static_cast<int>(32 / sizeof(Real));

  BARM_INLINE static bool hold(const Bits& bits) {
#ifdef __SSE2__
    using Half = long long __attribute__((vector_size(16)));
    using Whole = long long __attribute__((vector_size(32)));
    const auto whole = reinterpret_cast<Whole>(bits);
    const Half either = Half{whole[0], whole[1]} | Half{whole[2], whole[3]};
    return _mm_movemask_epi8(either) != 0;
#else
    for (int i = 0; i < per; ++i) {
      if (bits[i] != 0) return true;
    }
    return false;
#endif
  }

  Bits bits_[Registers];
};

template <class RealType, int Registers>
class Pack {
 public:
  using Real = RealType;
  using Values = typename detail::Register<Real>::Values;
  using Condition = Mask<Real, Registers>;
  static constexpr int registers = Registers;
  static constexpr int lanes = Condition::lanes;

  BARM_INLINE Pack() : Pack(0.0) {}

  /// The same in all lanes. Not explicit: numbers stand in equations as they do for double.
  BARM_INLINE Pack(double x) {
    const auto real = static_cast<Real>(x);
    for (Values& values : values_) values = Values{} + real;
  }

  BARM_INLINE Pack(const Pack& other) {
    for (int r = 0; r < Registers; ++r) values_[r] = other.values_[r];
  }

  // NOLINTNEXTLINE(bugprone-unhandled-self-assignment)
  BARM_INLINE Pack& operator=(const Pack& other) {
    for (int r = 0; r < Registers; ++r) values_[r] = other.values_[r];
    return *this;
  }

  [[nodiscard]] BARM_INLINE Real operator[](int lane) const {
    return values_[lane / per][lane % per];
  }

  BARM_INLINE void set(int lane, double x) {
    values_[lane / per][lane % per] = static_cast<Real>(x);
  }

  [[nodiscard]] BARM_INLINE Values& values(int r) { return values_[r]; }

  [[nodiscard]] BARM_INLINE const Values& values(int r) const { return values_[r]; }

#define BARM_PACK_OPERATOR(op)                                                         \
  BARM_INLINE friend Pack operator op(const Pack& a, const Pack& b) {                  \
    Pack out{Unset{}};                                                                 \
    for (int r = 0; r < Registers; ++r) out.values_[r] = a.values_[r] op b.values_[r]; \
    return out;                                                                        \
  }
  BARM_PACK_OPERATOR(+)
  BARM_PACK_OPERATOR(-)
  BARM_PACK_OPERATOR(*)
  BARM_PACK_OPERATOR(/)
#undef BARM_PACK_OPERATOR

#define BARM_PACK_COMPARISON(op)                                                    \
  BARM_INLINE friend Condition operator op(const Pack& a, const Pack& b) {          \
    Condition out;                                                                  \
    for (int r = 0; r < Registers; ++r) out.bits(r) = a.values_[r] op b.values_[r]; \
    return out;                                                                     \
  }
  BARM_PACK_COMPARISON(<)
  BARM_PACK_COMPARISON(>)
  BARM_PACK_COMPARISON(<=)
  BARM_PACK_COMPARISON(>=)
#undef BARM_PACK_COMPARISON

  BARM_INLINE friend Pack operator-(const Pack& a) {
    Pack out{Unset{}};
    for (int r = 0; r < Registers; ++r) out.values_[r] = -a.values_[r];
    return out;
  }

 private:
  static constexpr int per = static_cast<int>(32 / sizeof(Real));

  struct Unset {};

  BARM_INLINE explicit Pack(Unset) {}

  Values values_[Registers];
};

}  // namespace barm::numerics
