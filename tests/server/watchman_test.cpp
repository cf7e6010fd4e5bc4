#include "server/records/watchman.h"

#include <gmock/gmock.h>

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <string>
#include <thread>

#include "server/door/problem.h"

namespace barm::test {
namespace {

using namespace std::chrono_literals;
using server::Watchman;
using testing::HasSubstr;

TEST(Watchman, GoesOnWhateverGoesWrong) {
  std::atomic<int> looks = 0;
  testing::internal::CaptureStderr();
  Watchman watchman(
      [&] {
        switch (++looks) {
          case 1:
            throw std::runtime_error("the file is torn");
          case 2:
            throw std::runtime_error("the file is torn still");
          case 3:
            throw server::Refused{};
          case 5:
            throw 7;
          default:
            break;
        }
      },
      1ms);
  std::thread watching([&] { watchman.run(); });
  while (looks < 7) std::this_thread::sleep_for(1ms);
  watchman.stop();
  watching.join();
  const std::string said = testing::internal::GetCapturedStderr();
  EXPECT_THAT(said, HasSubstr("the file is torn;"));
  EXPECT_THAT(said, testing::Not(HasSubstr("torn still"))) << "said once until it goes well again";
  EXPECT_THAT(said, HasSubstr("an error of no known kind"));
}

TEST(Watchman, LooksWhenTheBellIsRung) {
  std::atomic<int> looks = 0;
  Watchman watchman([&] { ++looks; }, 1h);
  std::thread watching([&] { watchman.run(); });
  for (int wanted = 1; wanted <= 3; ++wanted) {
    watchman.ring();
    while (looks < wanted) std::this_thread::sleep_for(1ms);
  }
  watchman.stop();
  watching.join();
  EXPECT_EQ(looks, 3);
}

}  // namespace
}  // namespace barm::test
