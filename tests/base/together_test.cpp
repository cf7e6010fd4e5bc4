#include "base/together.h"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <thread>
#include <vector>

namespace barm {

namespace {

// How often each of so many things was done.
std::vector<int> done_by(int threads, int count) {
  std::vector<std::atomic<int>> done(static_cast<std::size_t>(count));
  std::atomic<std::size_t> next{0};
  together(threads, [&] {
    for (std::size_t i = next++; i < done.size(); i = next++) ++done[i];
  });
  return {done.begin(), done.end()};
}

TEST(Together, EachShareIsDoneOnceByAnyNumberOfThreads) {
  for (const int threads : {0, 1, 2, 7})
    EXPECT_EQ(done_by(threads, 500), std::vector<int>(500, 1)) << threads;
}

TEST(Together, OthersTakeTheirShare) {
  std::atomic<int> there{0};
  // Ends only when two of them are there at once.
  together(2, [&] {
    ++there;
    while (there < 2) std::this_thread::yield();
  });
  EXPECT_EQ(there, 2);
}

TEST(Together, AllHaveEndedWhenItReturns) {
  for (int round = 0; round < 200; ++round) {
    std::atomic<int> inside{0};
    together(3, [&] {
      ++inside;
      std::this_thread::yield();
      --inside;
    });
    ASSERT_EQ(inside, 0);
  }
}

TEST(Together, ACallWithinACallAndManyCallersAtOnceAreWell) {
  std::vector<std::jthread> callers;
  std::atomic<int> right{0};
  for (int caller = 0; caller < 8; ++caller) {
    callers.emplace_back([&] {
      std::atomic<int> next{0};
      together(2, [&] {
        for (int i = next++; i < 20; i = next++)
          if (done_by(3, 30) == std::vector<int>(30, 1)) ++right;
      });
    });
  }
  callers.clear();
  EXPECT_EQ(right, 8 * 20);
}

TEST(Together, WhatIsThrownHereIsThrownOn) {
  const auto here = std::this_thread::get_id();
  EXPECT_THROW(together(2,
                        [&] {
                          if (std::this_thread::get_id() == here) throw std::runtime_error("x");
                        }),
               std::runtime_error);
  EXPECT_EQ(done_by(2, 50), std::vector<int>(50, 1));
}

}  // namespace

}  // namespace barm
