#pragma once
// The routes of the questions: asked at once, or as long work.
#include <functional>

#include "server/door/router.h"
#include "server/questions/answers.h"
#include "server/questions/ask.h"
#include "server/questions/jobs.h"
#include "server/questions/turns.h"

namespace barm::server {

/// Must outlive the router, and what it is given must outlive it.
class QuestionRoutes {
 public:
  QuestionRoutes(Turns& turns, Jobs& jobs, std::function<StoredBakes(const service::Now&)> stored)
      : turns_(turns), jobs_(jobs), stored_(std::move(stored)) {}

  void add_to(Router& router);

 private:
  void add_questions(Router& router);
  void add_jobs(Router& router);
  [[nodiscard]] Reply ask_now(const Question& one, const Request& request);
  [[nodiscard]] Reply calendar_link(const Request& request, const Parts& parts);
  [[nodiscard]] Reply start_job(const Request& request);
  /// Which ovens, fridges and mixers the answers of now rest on.
  [[nodiscard]] std::string house_of(const service::Now& now);
  [[nodiscard]] AskContext context(Watch watch, const service::Now& now);

  Turns& turns_;
  Jobs& jobs_;
  std::function<StoredBakes(const service::Now&)> stored_;
  Answers answers_;
  LaidDays days_;
};

}  // namespace barm::server
