#include "taste/corridor.h"

#include <algorithm>
#include <mutex>

#include "forecast/dough_of.h"
#include "forecast/many.h"
#include "forecast/reach.h"
#include "taste/internal/offer.h"

namespace barm::taste {

namespace {

Result<bool> check(const CorridorQuestion& q) {
  const auto bad = [](const char* where, const char* message) {
    return failure(ErrorCode::bad_input, where, message);
  };
  const double hours = q.within.in(hour);
  if (!(hours > 0 && hours <= 336)) return bad("within", "a time from 0 to 14 days, such as 14h");
  if (!(q.chance > 0 && q.chance < 1))
    return bad("chance", "a chance between 0 and 1, such as 0.8");
  if (!(q.noticed > 0 && q.noticed < 1))
    return bad("noticed", "a share of tasters between 0 and 1, such as 0.5");
  if (q.shares < 3 || q.shares > 101) return bad("shares", "3 to 101 points");
  return true;
}

AtTheOven between(const AtTheOven& none, const AtTheOven& all, double share) {
  const auto mix = [&](double a, double b) { return a + share * (b - a); };
  return {mix(none.ph, all.ph),
          mix(none.lactate, all.lactate),
          mix(none.acetate, all.acetate),
          mix(none.sugar, all.sugar),
          true};
}

/// Where a curve that holds at one end of a step crosses what is wanted.
double crossing(double from, double to, double at_from, double at_to, double wanted) {
  return at_to == at_from ? from : from + (to - from) * (wanted - at_from) / (at_to - at_from);
}

class Picture {
 public:
  Picture(const formula::Bake& bake, const CorridorQuestion& question)
      : bake_(bake), q_(question) {}

  Result<Corridor> draw() {
    const auto drink = internal::asked_drink(bake_, q_.drink);
    if (!drink) return failure(drink);
    out_.drink = drink->name;
    const auto poured = forecast::poured(bake_, out_.drink);
    if (!poured) return failure(poured);
    out_.now = poured->share;
    room_ = poured->room;
    out_.points.resize(static_cast<std::size_t>(q_.shares));
    for (std::size_t i = 0; i < out_.points.size(); ++i) out_.points[i].share = room_ * across(i);
    const auto rise = rise_of_all();
    if (!rise) return failure(rise);
    const auto taste = taste_of_all();
    if (!taste) return failure(taste);
    find_corridor();
    return std::move(out_);
  }

 private:
  Result<bool> rise_of_all() {
    const auto base = forecast::with_share(bake_, out_.drink, 0.5 * room_);  // with its water
    if (!base) return failure(base);
    const auto made = forecast::draws(*base, q_.options, 0, q_.options.draws);
    if (!made) return failure(made);
    const std::vector<forecast::Draw>& draws = *made;
    std::vector<formula::Bake> bakes;
    for (const CorridorPoint& point : out_.points)
      bakes.push_back(*forecast::with_share(bake_, out_.drink, point.share));
    std::optional<Error> error;
    std::mutex guard;
    const auto fill = [&](std::size_t i, forecast::Case& to_fill) {
      const forecast::Draw& drawn = draws[i % draws.size()];
      const auto bowl = formula::in_the_bowl(bakes[i / draws.size()], drawn.settled);
      if (!bowl) {
        const std::scoped_lock lock(guard);
        error = bowl.error();
        return;
      }
      to_fill = {forecast::dough_of(*bowl, drawn.settled),
                 drawn.parameters,
                 q_.options.temperature.value_or(bake_.bulk_temperature())};
    };
    const auto many = forecast::foresee_many(bakes.size() * draws.size(), fill, how());
    if (error) return failure(*error);
    if (!many) return failure(many);
    for (std::size_t i = 0; i < many->passed.size(); ++i) {
      if (many->passed[i].ready <= q_.within.in(hour))
        out_.points[i / draws.size()].ready += 1.0 / static_cast<double>(draws.size());
    }
    return true;
  }

  // From none of it to all that there can be.
  [[nodiscard]] double across(std::size_t point) const {
    return static_cast<double>(point) / (q_.shares - 1);
  }

  [[nodiscard]] forecast::ManyOptions how() const {
    forecast::Options options = q_.options;
    options.horizon = q_.within;
    forecast::ManyOptions many;
    const numerics::Accuracy quick = many.proving.accuracy;
    many.proving = forecast::proving_of(bake_, options);
    many.proving.accuracy = quick;
    many.proving.sample_every = 0.0 * hour;
    many.proving.stop_at_target = true;
    many.threads = q_.options.threads;
    many.cancelled = q_.options.cancelled;
    many.precision = forecast::Precision::single;
    return many;
  }

  Result<bool> taste_of_all() {
    Luck luck(q_.options.draws, q_.options.seed);
    std::vector<Situation> ends;
    for (const double share : {0.0, room_}) {
      const auto bake = forecast::with_share(bake_, out_.drink, share);
      if (!bake) return failure(bake);
      auto end = situation_of(*bake, q_.oven, q_.options);
      if (!end) return failure(end);
      ends.push_back(*std::move(end));
    }
    for (std::size_t i = 0; i < out_.points.size(); ++i) {
      CorridorPoint& point = out_.points[i];
      const auto bake = forecast::with_share(bake_, out_.drink, point.share);
      if (!bake) return failure(bake);
      const auto settled = formula::settle(*bake);
      if (!settled) return failure(settled);
      const auto bowl = formula::in_the_bowl(*bake, *settled);
      if (!bowl) return failure(bowl);
      const Contents in = contents(*bake, *bowl, *settled);
      Question question{.contents = &in,
                        .baking = ends.front().baking,
                        .dough = between(ends[0].dough, ends[1].dough, across(i))};
      question.baking.ph = question.dough.ph;
      const auto found = tasted(question, luck);
      if (!found) return failure(found);
      point.noticed = found->noticed;
      point.strength = range_of(found->strength);
    }
    return true;
  }

  /// The longest stretch in which both hold.
  void find_corridor() {
    const auto holds = [&](const CorridorPoint& p) {
      return p.ready >= q_.chance && p.noticed >= q_.noticed;
    };
    std::size_t best = 0;
    for (std::size_t i = 0; i < out_.points.size(); ++i) {
      if (!holds(out_.points[i])) continue;
      std::size_t end = i;
      while (end + 1 < out_.points.size() && holds(out_.points[end + 1])) ++end;
      if (!out_.from || end - i > best) {
        best = end - i;
        out_.from = edge(i, -1);
        out_.to = edge(end, +1);
      }
      i = end;
    }
  }

  /// Between the last point that holds and its neighbour that does not.
  [[nodiscard]] double edge(std::size_t at, int towards) const {
    const CorridorPoint& in = out_.points[at];
    const std::size_t next = at + static_cast<std::size_t>(towards);
    if ((at == 0 && towards < 0) || next >= out_.points.size()) return in.share;
    const CorridorPoint& out = out_.points[next];
    double nearest = out.share;
    const auto look = [&](double here, double there, double wanted) {
      if (there >= wanted) return;
      const double cross = crossing(in.share, out.share, here, there, wanted);
      if (std::abs(cross - in.share) < std::abs(nearest - in.share)) nearest = cross;
    };
    look(in.ready, out.ready, q_.chance);
    look(in.noticed, out.noticed, q_.noticed);
    return nearest;
  }

  const formula::Bake& bake_;
  const CorridorQuestion& q_;
  Corridor out_;
  double room_ = 1;  // of the drink and the water in the liquid
};

}  // namespace

Result<Corridor> corridor(const formula::Bake& bake, const CorridorQuestion& question) {
  const auto good = check(question);
  if (!good) return failure(good);
  return Picture(bake, question).draw();
}

}  // namespace barm::taste
