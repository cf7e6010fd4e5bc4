#include "server/questions/jobs.h"

#include <gmock/gmock.h>

#include <future>

#include "server/door/problem.h"
#include "server/running.h"

namespace barm::test {
namespace {

using nlohmann::json;
using server::Jobs;
using server::Reply;
using server::Watch;
using testing::HasSubstr;

std::string id_of(const std::string& job) { return json::parse(job).at("id"); }

// Looks until the job is over.
json ended(Jobs& jobs, const std::string& id) {
  while (true) {
    const json job = json::parse(jobs.look(id));
    if (job.at("state") != "waiting" && job.at("state") != "running") return job;
    std::this_thread::yield();
  }
}

Reply answer(const std::string& body, int status = 200) {
  Reply reply;
  reply.status = status;
  reply.body = body;
  return reply;
}

TEST(Jobs, BringTheAnswer) {
  Jobs jobs([](const std::string&) {});
  const std::string id =
      id_of(jobs.start("reach", [](const Watch&) { return answer("{\"x\":1}"); }));
  const json job = ended(jobs, id);
  EXPECT_EQ(job.at("state"), "done");
  EXPECT_EQ(job.at("answer"), json({{"x", 1}}));
  EXPECT_EQ(job.at("progress"), 1);
}

TEST(Jobs, BringTheProblem) {
  Jobs jobs([](const std::string&) {});
  const std::string refused = id_of(jobs.start("reach", [](const Watch&) -> Reply {
    throw server::Refused{server::problem(server::Refusal::bad_request, "no")};
  }));
  EXPECT_EQ(ended(jobs, refused).at("problem").at("code"), "bad_input");
  const std::string broken =
      id_of(jobs.start("reach", [](const Watch&) -> Reply { throw std::runtime_error("x"); }));
  EXPECT_EQ(ended(jobs, broken).at("problem").at("code"), "our_fault");
}

TEST(Jobs, SayOnTheTerminalWhatWentWrong) {
  testing::internal::CaptureStderr();
  {
    Jobs jobs([](const std::string&) {});
    (void)ended(jobs, id_of(jobs.start("reach", [](const Watch&) -> Reply {
                  throw std::runtime_error("the oven is out");
                })));
    const std::string odd = id_of(jobs.start("rescue", [](const Watch&) -> Reply { throw 7; }));
    EXPECT_EQ(ended(jobs, odd).at("problem").at("code"), "our_fault");
  }
  const std::string said = testing::internal::GetCapturedStderr();
  EXPECT_THAT(said, HasSubstr("the oven is out"));
  EXPECT_THAT(said, HasSubstr("(rescue): an error of no known kind"));
}

TEST(Jobs, StopWhenTold) {
  Jobs jobs([](const std::string&) {});
  std::promise<void> begun;
  const std::string id = id_of(jobs.start("reach", [&](const Watch& watch) {
    begun.set_value();
    while (!watch.cancelled()) std::this_thread::yield();
    return answer("{}", 499);
  }));
  begun.get_future().wait();
  (void)jobs.stop(id);
  EXPECT_EQ(ended(jobs, id).at("state"), "stopped");
}

TEST(Jobs, TellHowFarTheyAre) {
  std::mutex mutex;
  std::vector<double> shares;
  {
    Jobs jobs([&](const std::string& job) {
      const std::scoped_lock lock(mutex);
      shares.push_back(json::parse(job).at("progress"));
    });
    const std::string id = id_of(jobs.start("reach", [](const Watch& watch) {
      for (int i = 1; i <= 1000; ++i) watch.progress(i / 1000.0);
      return answer("{}");
    }));
    (void)ended(jobs, id);
  }
  EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end()));
  EXPECT_GT(shares.size(), 20U);
  EXPECT_LT(shares.size(), 100U) << "not every little step is worth telling";
  EXPECT_EQ(shares.back(), 1);
}

TEST(Jobs, AreOnlySoMany) {
  Jobs jobs([](const std::string&) {});
  const auto patient = [](const Watch& watch) {
    while (!watch.cancelled()) std::this_thread::yield();
    return answer("{}", 499);
  };
  std::vector<std::string> ids;
  for (std::size_t i = 0; i < Jobs::most; ++i) ids.push_back(id_of(jobs.start("reach", patient)));
  EXPECT_THROW((void)jobs.start("reach", patient), server::Refused);
  (void)jobs.stop(ids.back());  // one that waits
  EXPECT_NO_THROW(ids.push_back(id_of(jobs.start("reach", patient))));
}

TEST(Jobs, EndWithTheServer) {
  Jobs jobs([](const std::string&) {});
  (void)jobs.start("reach", [](const Watch& watch) {
    while (!watch.cancelled()) std::this_thread::yield();
    return answer("{}", 499);
  });
  jobs.stop_all();  // returns
}

TEST(JobsOverTheWire, GiveWhatTheRouteWouldGive) {
  const Running running;
  const auto client = running.client();
  const json with = {{"bake", example("mead-loaf")}, {"draws", 40}, {"drink", "dry mead"}};
  const auto now = client->Post("/api/reach", with.dump(), "application/json");
  ASSERT_EQ(now->status, 200) << now->body;
  const auto job =
      client->Post("/api/jobs", json{{"ask", "reach"}, {"with", with}}.dump(), "application/json");
  ASSERT_EQ(job->status, 202) << job->body;
  json later;
  do later = json::parse(client->Get("/api/jobs/" + id_of(job->body))->body);
  while (later.at("state") == "running" || later.at("state") == "waiting");
  EXPECT_EQ(later.at("answer"), json::parse(now->body));
  EXPECT_EQ(client->Get("/api/jobs/none")->status, 404);
  EXPECT_EQ(
      client->Post("/api/jobs", json{{"ask", "sing"}, {"with", with}}.dump(), "application/json")
          ->status,
      400);
}

}  // namespace
}  // namespace barm::test
