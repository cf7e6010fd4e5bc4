#pragma once
// Answers that follow from the question alone, or from it and the daybook as it stands.
#include <memory>

#include "server/questions/once.h"
#include "server/wire/exchange.h"
#include "service/bake/foresee.h"
#include "service/bake/read.h"

namespace barm::server {

/// Replies; one with a status other than 200 is kept for nobody.
class Answers : public Once<Reply> {
 public:
  explicit Answers(std::size_t most_bytes = 8'000'000)
      : Once(most_bytes, [](const Reply& reply) {
          return reply.status == 200 ? std::optional(reply.body.size()) : std::nullopt;
        }) {}
};

/// Doughs foreseen and read, so that each screen of a dough, and today, tells of the same work.
/// What time it is they do not say: whoever tells of one puts it in.
struct KnownDoughs {
  using Foreseen = std::shared_ptr<const service::ForeseeAnswer>;
  using Read = std::shared_ptr<const service::ReadAnswer>;

  Once<Foreseen> foreseen{8'000'000, [](const Foreseen& one) { return bytes(*one); }};
  Once<Read> read{32'000'000, [](const Read& one) { return bytes(*one); }};

 private:
  static std::optional<std::size_t> bytes(const service::ForeseeAnswer& one) {
    return sizeof one + one.forecast.band.size() * sizeof one.forecast.band.front() +
           2 * one.forecast.ready_hours.size() * sizeof(double);
  }

  static std::optional<std::size_t> bytes(const service::ReadAnswer& one) {
    const std::size_t of_draws = one.learned.z.size() + 8 * one.learned.weight.size();
    return sizeof one + of_draws * sizeof(double);
  }
};

}  // namespace barm::server
