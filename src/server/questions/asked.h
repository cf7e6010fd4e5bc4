#pragma once
// What most questions ask of a bake: the bake, how it is to be foreseen, what it starts from, and
// the reply made of an answer.
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "estimation/readings.h"
#include "server/door/problem.h"
#include "server/questions/ask.h"
#include "service/bake/foresee.h"
#include "service/bake/read.h"
#include "service/larder/larder.h"
#include "service/larder/sources.h"

namespace barm::server {

/// The field of the request that an error of the use cases is about, as a JSON pointer; they name
/// it as the terminal does, or not at all.
[[nodiscard]] std::string field_meant(const std::string& where);

template <class Answer>
const Answer& got(const Result<Answer>& result) {
  if (!result) throw Refused{problem(result.error(), field_meant(result.error().where))};
  return *result;
}

template <class Answer>
Reply reply_of(const Result<Answer>& result) {
  using service::to_json;
  return answered(to_json(got(result)));
}

/// An answer that says from which culture it starts.
template <class Answer>
Reply reply_from(const std::string& culture, const Result<Answer>& result) {
  using service::to_json;
  nlohmann::json out = to_json(got(result));
  out["culture"] = culture;
  return answered(out);
}

/// `draws`, `seed`, `horizon_h`, `temperature_C`. Throws Refused.
[[nodiscard]] forecast::Options options_of(Fields& fields, const AskContext& context);

/// A bake, how it is to be foreseen, and the culture it starts from.
class Asked {
 public:
  /// Throws Refused.
  Asked(Fields& fields, const AskContext& context);

  Asked(const Asked&) = delete;
  Asked& operator=(const Asked&) = delete;

  template <class Answer>
  [[nodiscard]] Reply reply(const Result<Answer>& result) const {
    return reply_from(batch.start.culture, result);
  }

  /// The batch with what its daybook has been told and `unsent`, readings it has not been told yet.
  /// Throws Refused.
  [[nodiscard]] service::Batch with_kept_readings(
      Fields& fields, std::optional<Length> start_mark = std::nullopt) const;

  /// The batch with these readings instead. Throws Refused.
  [[nodiscard]] service::Batch with_typed_readings(const std::vector<std::string>& typed,
                                                   std::optional<Length> start_mark) const;

  /// The dough foreseen, and read, as it stands now: of a bake of the daybook worked out once while
  /// that stays as it is. Throws Refused.
  [[nodiscard]] service::ForeseeAnswer foreseen() const;
  [[nodiscard]] service::ReadAnswer read(const service::Batch& as_read) const;

  /// What the readings teach of the bake as it was planned, with the usual draws and horizon;
  /// nothing where it was asked otherwise. Throws Refused.
  [[nodiscard]] std::shared_ptr<const estimation::Learned> learned(
      const service::Batch& as_read) const;

  service::Batch batch;       ///< all that is known without the question's own readings
  forecast::Options options;  ///< of the question; they start where the batch does

 private:
  [[nodiscard]] KnownDoughs::Read known_read(const service::Batch& as_read) const;

  KnownDoughs* doughs_;
  std::string dough_;                      ///< AskContext::dough
  std::optional<service::KeptBake> kept_;  ///< mixed when the bake is
};

}  // namespace barm::server
