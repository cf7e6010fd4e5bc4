// The daybook over HTTP when it was put back to a copy, when nothing can be saved, and when the
// page is of another barm.
#include <gmock/gmock.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <optional>

#include "server/running.h"
#include "storage/daybook.h"

namespace barm::test {
namespace {

using nlohmann::json;
using storage::Daybook;
using testing::HasSubstr;

class Saved : public testing::Test {
 protected:
  void start() {
    server::ServerOptions options;
    options.daybook = file_;
    running_.emplace(options);
  }

  [[nodiscard]] json get(const std::string& path) const {
    const auto reply = running_->client()->Get(path);
    return reply ? json::parse(reply->body) : json();
  }

  struct Answer {
    int status = 0;
    json body;
  };

  [[nodiscard]] Answer put(const std::string& path,
                           const json& record,
                           const httplib::Headers& headers = {}) const {
    const auto reply = running_->client()->Put(path, headers, record.dump(), "application/json");
    return reply ? Answer{reply->status, json::parse(reply->body)} : Answer{};
  }

  [[nodiscard]] bool comes_to(const std::string& saving) const {
    using namespace std::chrono_literals;
    for (int i = 0; i < 80; ++i) {
      if (get("/api/status")["saving"] == saving) return true;
      std::this_thread::sleep_for(100ms);
    }
    return false;
  }

  Folder folder_;
  const std::string file_ = folder_ / "daybook.barm";
  std::optional<Running> running_;
};

json bottle(const std::string& remark, std::int64_t revision) {
  return {{"title", "Mead from the shed"},
          {"ingredient", "dry mead"},
          {"size_mL", 750},
          {"remark", remark},
          {"revision", revision}};
}

TEST_F(Saved, WhatWasReadBeforeACopyWasPutBackOverwritesNothing) {
  start();
  EXPECT_EQ(get("/api/status")["epoch"], 1);
  ASSERT_EQ(put("/api/bottles/mead", bottle("one", 0)).status, 200);
  const std::int64_t in_copy = get("/api/changes")["last"];
  ASSERT_TRUE(Daybook::open(file_)->back_up(folder_ / "copy.barm"));
  ASSERT_EQ(put("/api/bottles/mead", bottle("lost", 1)).body["revision"], 2);
  ASSERT_EQ(put("/api/bottles/beer", bottle("lost", 0)).body["revision"], 1);
  EXPECT_FALSE(storage::restore(folder_ / "copy.barm", file_)) << "the server has it open";
  running_.reset();
  ASSERT_TRUE(storage::restore(folder_ / "copy.barm", file_));
  start();
  const std::int64_t epoch = get("/api/status")["epoch"];
  EXPECT_GT(epoch, 2);
  // Another device makes revision 2 of it in the meantime.
  ASSERT_EQ(put("/api/bottles/mead", bottle("after", 1)).body["revision"], epoch);
  const Answer refused = put("/api/bottles/mead", bottle("by who has seen what is lost", 2));
  EXPECT_EQ(refused.status, 409);
  EXPECT_EQ(refused.body["code"], "restored");
  EXPECT_EQ(refused.body["epoch"], epoch);
  EXPECT_EQ(refused.body["current"]["remark"], "after");
  EXPECT_EQ(get("/api/bottles/mead")["remark"], "after");
  const Answer gone = put("/api/bottles/beer", bottle("by who has seen what is lost", 1));
  EXPECT_EQ(gone.status, 409);
  EXPECT_EQ(gone.body["code"], "restored");
  const auto removed = running_->client()->Delete("/api/bottles/mead?revision=2");
  EXPECT_EQ(json::parse(removed->body)["code"], "restored");
  // An ordinary conflict is one still.
  EXPECT_EQ(put("/api/bottles/mead", bottle("next", epoch)).status, 200);
  EXPECT_EQ(put("/api/bottles/mead", bottle("late", epoch)).body["code"], "conflict");
  // Numbers of changes.
  EXPECT_EQ(get("/api/changes?since=" + std::to_string(in_copy + 1))["code"], "restored");
  EXPECT_EQ(get("/api/changes?since=" + std::to_string(in_copy))["changes"].size(), 2U);
  const Raw line(running_->port());
  line.send(request("GET",
                    "/api/events",
                    running_->port(),
                    "Last-Event-ID: " + std::to_string(in_copy + 1) + "\r\n"));
  EXPECT_THAT(line.until("event: reload"), HasSubstr("\"epoch\":" + std::to_string(epoch)));
}

TEST_F(Saved, APageOfAnotherBarmIsToldSoAndChangesNothing) {
  start();
  const std::string version = get("/api/status")["version"];
  EXPECT_EQ(running_->client()->Get("/api/today")->get_header_value("Barm-Version"), version);
  EXPECT_EQ(running_->client()->Get("/")->get_header_value("Barm-Version"), version);
  EXPECT_EQ(put("/api/bottles/mead", bottle("", 0), {{"Barm-Page", version}}).status, 200);
  const Answer stale = put("/api/bottles/beer", bottle("", 0), {{"Barm-Page", "0.0.9"}});
  EXPECT_EQ(stale.status, 409);
  EXPECT_EQ(stale.body["code"], "stale_page");
  EXPECT_THAT(stale.body["detail"].get<std::string>(), HasSubstr("0.0.9"));
  EXPECT_EQ(get("/api/bottles")["total"], 1);
  const auto asked = running_->client()->Get("/api/bottles", {{"Barm-Page", "0.0.9"}});
  EXPECT_EQ(asked->status, 200) << "it may look";
}

// Rights do not bind root: the server runs as somebody else for so long.
class AsSomebody {
 public:
  AsSomebody() : root_(geteuid() == 0) {
    if (root_ && seteuid(65534) != 0) std::abort();
  }

  AsSomebody(const AsSomebody&) = delete;
  AsSomebody& operator=(const AsSomebody&) = delete;

  ~AsSomebody() {
    if (root_ && seteuid(0) != 0) std::abort();
  }

 private:
  bool root_;
};

void may_be_written(const std::string& folder, const std::string& file, bool may) {
  chmod(file.c_str(), may ? 0666 : 0444);
  chmod(folder.c_str(), may ? 0777 : 0555);
}

TEST_F(Saved, AFileThatMayOnlyBeReadIsShownAndSaysSo) {
  ASSERT_TRUE(Daybook::open(file_, {.create = true}));
  may_be_written(folder_.path(), file_, false);
  std::optional<AsSomebody> somebody(std::in_place);
  start();
  EXPECT_EQ(get("/api/status")["saving"], "read_only");
  EXPECT_EQ(get("/api/bottles")["total"], 0);
  EXPECT_EQ(get("/api/today")["schema"], "barm.today/1");
  const Answer refused = put("/api/bottles/mead", bottle("", 0));
  EXPECT_EQ(refused.status, 503);
  EXPECT_EQ(refused.body["code"], "unavailable");
  EXPECT_EQ(refused.body["saving"], "read_only");
  somebody.reset();
  may_be_written(folder_.path(), file_, true);
  somebody.emplace();
  EXPECT_TRUE(comes_to("yes"));
  EXPECT_EQ(put("/api/bottles/mead", bottle("", 0)).status, 200);
  running_.reset();
}

// While it stands, no file of this process can grow beyond so many bytes.
class NoRoom {
 public:
  explicit NoRoom(rlim_t bytes) {
    std::signal(SIGXFSZ, SIG_IGN);
    getrlimit(RLIMIT_FSIZE, &old_);
    const rlimit limit{bytes, old_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &limit);
  }

  NoRoom(const NoRoom&) = delete;
  NoRoom& operator=(const NoRoom&) = delete;

  ~NoRoom() { setrlimit(RLIMIT_FSIZE, &old_); }

 private:
  rlimit old_{};
};

TEST_F(Saved, AFullDiskIsShownAndSaysSoAndGoesOnOnceThereIsRoom) {
  start();
  for (int i = 0; i < 20; ++i) {
    const std::string path = "/api/bottles/b" + std::to_string(i);
    ASSERT_EQ(put(path, bottle(std::string(15000, 'x'), 0)).status, 200);
  }
  EXPECT_EQ(get("/api/status")["saving"], "yes");
  {
    const NoRoom limit(100000);
    const Answer refused = put("/api/bottles/mead", bottle("", 0));
    EXPECT_EQ(refused.status, 503);
    EXPECT_EQ(refused.body["saving"], "disk_full");
    EXPECT_THAT(refused.body["detail"].get<std::string>(), HasSubstr("nothing of this was saved"));
    EXPECT_EQ(get("/api/status")["saving"], "disk_full");
    EXPECT_EQ(get("/api/bottles")["total"], 20);
    // It starts in this state too.
    running_.reset();
    start();
    EXPECT_EQ(get("/api/status")["saving"], "disk_full");
    EXPECT_EQ(get("/api/bottles")["total"], 20);
  }
  EXPECT_TRUE(comes_to("yes"));
  EXPECT_EQ(put("/api/bottles/wine", bottle("", 0)).status, 200);
}

}  // namespace
}  // namespace barm::test
