#pragma once
// The questions about a bake and those without one: the use cases of service/, each from
// a JSON object to a JSON answer.
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "server/questions/answers.h"
#include "server/questions/asked_bake.h"
#include "server/questions/fields.h"
#include "server/questions/jobs.h"
#include "server/questions/laid_days.h"
#include "service/now.h"

namespace barm::server {

/// What a question may need beside its own fields.
struct AskContext {
  Watch watch;       ///< to stop, and to tell how far it is
  int threads = 1;   ///< for the forecast
  service::Now now;  ///< on the wall of whoever asks
  StoredBakes stored;
  LaidDays* days = nullptr;       ///< days laid before
  KnownDoughs* doughs = nullptr;  ///< doughs foreseen and read before
  std::string dough;  ///< what is asked of a bake of the daybook, and how that stands: the same
                      ///< words are the same dough; empty: it is not of the daybook
};

/// One question: its name is the last step of its route.
struct Question {
  std::string name;
  bool heavy = false;     ///< takes a turn
  bool as_a_job = false;  ///< may be asked as long work
  /// The answer follows from the body, unless that names a record: no clock, no setting.
  bool follows_from_itself = false;
  /// Throws Refused.
  std::function<Reply(Fields&, const AskContext&)> answer;
};

/// All of them. `POST /api/NAME`.
[[nodiscard]] const std::vector<Question>& questions();

[[nodiscard]] const Question* question(std::string_view name);

/// Reads the fields, asks, and refuses fields that were not asked for. Throws Refused.
[[nodiscard]] Reply ask(const Question& question, const Json& body, const AskContext& context);

/// What the larder, the sources and the examples hold: `GET /api/larder?words=`.
[[nodiscard]] Reply larder_reply(const std::string& words);
/// All that is known of one ingredient, by its key. Throws Refused when there is none.
[[nodiscard]] Reply ingredient_reply(const std::string& key);
[[nodiscard]] Reply sources_reply(const std::string& words);
[[nodiscard]] Reply examples_reply();

}  // namespace barm::server
