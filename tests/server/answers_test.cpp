#include "server/questions/answers.h"

#include <gmock/gmock.h>

#include <atomic>
#include <future>
#include <thread>

#include "server/door/problem.h"
#include "server/running.h"

namespace barm::test {
namespace {

using nlohmann::json;
using server::Answers;
using server::Reply;

Reply saying(const std::string& body) {
  Reply reply;
  reply.body = body;
  return reply;
}

TEST(Answers, AreWorkedOutOnceForEachQuestion) {
  Answers answers;
  int worked = 0;
  const auto ask = [&](const std::string& question) {
    return answers.to(question, [&] { return saying(question + std::to_string(++worked)); }).body;
  };
  EXPECT_EQ(ask("a"), "a1");
  EXPECT_EQ(ask("b"), "b2");
  EXPECT_EQ(ask("a"), "a1");
}

TEST(Answers, AreWaitedForWhileTheyAreWorkedOut) {
  Answers answers;
  std::atomic<int> worked = 0;
  std::promise<void> begun;
  std::promise<void> go_on;
  std::thread first([&] {
    EXPECT_EQ(answers
                  .to("a",
                      [&] {
                        ++worked;
                        begun.set_value();
                        go_on.get_future().wait();
                        return saying("x");
                      })
                  .body,
              "x");
  });
  begun.get_future().wait();
  std::vector<std::thread> others;
  others.reserve(8);
  for (int i = 0; i < 8; ++i) {
    others.emplace_back([&] {
      EXPECT_EQ(answers
                    .to("a",
                        [&] {
                          ++worked;
                          return saying("another");
                        })
                    .body,
                "x");
    });
  }
  // Another question does not wait.
  EXPECT_EQ(answers.to("b", [] { return saying("y"); }).body, "y");
  go_on.set_value();
  first.join();
  for (std::thread& other : others) other.join();
  EXPECT_EQ(worked, 1);
}

TEST(Answers, DoNotKeepWhatWentWrong) {
  Answers answers;
  EXPECT_THROW(
      (void)answers.to("a",
                       []() -> Reply {
                         throw server::Refused{server::problem(server::Refusal::bad_request, "no")};
                       }),
      server::Refused);
  EXPECT_THROW((void)answers.to("a", []() -> Reply { throw std::runtime_error("x"); }),
               std::runtime_error);
  Reply refusal = saying("stopped");
  refusal.status = 499;
  EXPECT_EQ(answers.to("a", [&] { return refusal; }).status, 499);
  EXPECT_EQ(answers.to("a", [] { return saying("at last"); }).body, "at last");
}

TEST(Answers, ForgetWhatWasNotAskedForLongest) {
  Answers answers(30);
  int worked = 0;
  const auto ask = [&](const std::string& question) {
    (void)answers.to(question, [&] {
      ++worked;
      return saying("123456789");
    });
  };
  ask("a");
  ask("b");
  ask("c");
  ask("a");
  EXPECT_EQ(worked, 3);
  ask("d");  // b goes
  ask("a");
  ask("c");
  EXPECT_EQ(worked, 4);
  ask("b");
  EXPECT_EQ(worked, 5);
}

// A bake of the daybook may be another one by the next question.
TEST(Answers, FollowTheDaybook) {
  const Folder folder;
  Running running({.daybook = folder / "d.barm"});
  const auto client = running.client();
  const auto post = [&](const std::string& path, const json& body) {
    const auto reply = client->Post(path, body.dump(), "application/json");
    EXPECT_TRUE(reply && reply->status < 300) << path;
    return json::parse(reply->body);
  };
  const json bake = post("/api/bakes", {{"toml", example("plain-loaf")}});
  const json question = {{"bake_id", bake.at("id")}, {"draws", 20}};
  const json before = post("/api/foresee", question);
  EXPECT_EQ(post("/api/foresee", question), before);
  const json changed = {{"revision", bake.at("revision")}, {"toml", example("mead-loaf")}};
  const auto put = client->Put(
      "/api/bakes/" + bake.at("id").get<std::string>(), changed.dump(), "application/json");
  ASSERT_TRUE(put && put->status == 200);
  EXPECT_NE(post("/api/foresee", question), before);
}

}  // namespace
}  // namespace barm::test
