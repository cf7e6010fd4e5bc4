#pragma once
// The routes of the questions: asked at once, or as long work.
#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "server/door/router.h"
#include "server/questions/answers.h"
#include "server/questions/ask.h"
#include "server/questions/jobs.h"
#include "server/questions/turns.h"

namespace barm::server {

/// Must outlive the router, and what it is given must outlive it.
class QuestionRoutes {
 public:
  /// `last_change`: the number of the daybook's newest change.
  QuestionRoutes(Turns& turns,
                 Jobs& jobs,
                 std::function<StoredBakes(const service::Now&)> stored,
                 std::function<std::int64_t()> last_change)
      : turns_(turns),
        jobs_(jobs),
        stored_(std::move(stored)),
        last_change_(std::move(last_change)) {}

  void add_to(Router& router);

  /// What comes of a dough of the daybook by what was read of it, as each of its screens tells it;
  /// nothing where it cannot be read.
  [[nodiscard]] std::optional<forecast::Timeline> as_read(const std::string& bake_id,
                                                          const Request& request);

 private:
  void add_questions(Router& router);
  void add_jobs(Router& router);
  [[nodiscard]] Reply ask_now(const Question& one, const Request& request);
  [[nodiscard]] Reply calendar_link(const Request& request, const Parts& parts);
  [[nodiscard]] Reply start_job(const Request& request);
  /// Which ovens, fridges and mixers the answers of now rest on.
  [[nodiscard]] std::string house_of(const service::Now& now);
  /// AskContext::dough.
  [[nodiscard]] std::string dough_of(Json body, const Request& request);
  [[nodiscard]] AskContext context(Watch watch, const service::Now& now, std::string dough);

  Turns& turns_;
  Jobs& jobs_;
  std::function<StoredBakes(const service::Now&)> stored_;
  std::function<std::int64_t()> last_change_;
  Answers answers_;
  KnownDoughs doughs_;
  LaidDays days_;
};

}  // namespace barm::server
