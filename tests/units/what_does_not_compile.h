#pragma once

// Concepts that ask whether an expression compiles, so that tests can hold that wrong code does
// not.

namespace barm::test {

template <class A, class B>
concept Addable = requires(A a, B b) { a + b; };

template <class A, class B>
concept Subtractable = requires(A a, B b) { a - b; };

template <class A, class B>
concept Comparable = requires(A a, B b) { a < b; };

template <class A, class B>
concept Assignable = requires(A a, B b) { a = b; };

}  // namespace barm::test
