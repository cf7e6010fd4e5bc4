#include "testbakes/reach_map.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <mutex>

#include "forecast/dough_of.h"
#include "forecast/reach.h"
#include "units/units.h"

namespace barm::testbakes {

using forecast::Case;
using forecast::Draw;
using formula::Bake;
using formula::Portion;
using larder::Property;

namespace {

/// The bake with another share of levain on flour: what its flour and water weigh more comes off
/// the other flour, and off drink and water in proportion.
Bake with_starter(const Bake& bake,
                  std::size_t at,
                  std::size_t drink,
                  double hydration,
                  double flour,
                  double share) {
  Bake changed = bake;
  const double more = share * flour - bake.bowl[at].amount;
  const double of_flour = more / (1 + hydration);
  const auto poured = [&](std::size_t i) {
    return i == drink || bake.bowl[i].ingredient.key == "water";
  };
  double flours = 0;
  double liquids = 0;
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    if (bake.bowl[i].ingredient.is_flour()) flours += bake.bowl[i].amount;
    if (poured(i)) liquids += bake.bowl[i].amount;
  }
  for (std::size_t i = 0; i < changed.bowl.size(); ++i) {
    Portion& portion = changed.bowl[i];
    if (i == at) {
      portion.amount += more;
    } else if (portion.ingredient.is_flour()) {
      portion.amount *= 1 - of_flour / flours;
    } else if (poured(i)) {
      portion.amount *= 1 - (more - of_flour) / liquids;
    }
  }
  return changed;
}

class Mapping {
 public:
  Mapping(const Bake& bake, const MapQuestion& question, const forecast::ShowField& show)
      : own_(bake), q_(question), show_(show) {}

  Result<ReachMap> go() {
    const auto ready = prepare();
    if (!ready) return failure(ready);
    auto field = q_.upward == Upward::time ? over_time() : over_field();
    if (error_) return tl::unexpected<Error>(*error_);
    if (!field) return failure(field);
    map_.question = q_;
    map_.field = *std::move(field);
    map_.chance_now = chance_at(map_.now_share, map_.now_up);
    return std::move(map_);
  }

 private:
  Result<bool> prepare() {
    const auto asked =
        q_.drink.empty() ? forecast::main_drink(own_) : std::optional<std::string>(q_.drink);
    if (!asked) return failure(ErrorCode::not_found, own_.file, "no drink in this bowl");
    map_.drink = *asked;
    const auto checked = check();
    if (!checked) return failure(checked);
    const auto mine = forecast::poured(own_, *asked);
    if (!mine) return failure(mine);
    map_.now_share = mine->share;
    map_.room = mine->room;
    auto start = forecast::with_share(own_, *asked, 0.5 * map_.room);  // with a line for water
    if (!start) return failure(start);
    base_ = *std::move(start);
    const auto settled = formula::settle(base_);
    if (!settled) return failure(settled);
    flour_ = formula::in_the_bowl(base_, *settled)->flour.in(kilogram);
    for (std::size_t i = 0; i < base_.bowl.size(); ++i) {
      if (!base_.bowl[i].levain && base_.bowl[i].ingredient.group != larder::Group::starter)
        continue;
      starter_ = i;
      hydration_ = (*settled)[i][Property::hydration];
    }
    if (q_.upward == Upward::starter && !starter_)
      return failure(
          ErrorCode::not_found, own_.file, "no levain in this bowl to take more or less of");
    find_now();
    return draw_all();
  }

  Result<bool> check() const {
    const auto bad = [](const char* where, const char* message) {
      return failure(ErrorCode::bad_input, where, message);
    };
    if (q_.columns < 3 || q_.rows < 3 || q_.columns > 400 || q_.rows > 400)
      return bad("cells", "3 to 400 each way");
    if (q_.draws < 20 || q_.draws > 5000) return bad("draws", "20 to 5000");
    if (!(q_.least < q_.most)) return bad("range", "the first value below the second");
    switch (q_.upward) {
      case Upward::temperature:
        if (q_.least < 0 || q_.most > 45) return bad("temperature", "a dough from 0 C to 45 C");
        break;
      case Upward::starter:
        if (q_.least < 0.01 || q_.most > 0.6) return bad("starter", "1 % to 60 % of flour");
        break;
      case Upward::time:
        if (q_.least < 0 || q_.most > 336) return bad("time", "0 h to 14 days");
        break;
    }
    if (q_.within.in(hour) < 1 || q_.within.in(hour) > 336)
      return bad("within", "a time from 1 h to 14 days, such as 14h");
    return true;
  }

  void find_now() {
    const auto bowl = formula::in_the_bowl(own_);
    double starter = 0;
    for (const formula::Weighed& line : bowl->lines)
      if (line.levain) starter += line.actual.in(kilogram);
    map_.now_up = q_.upward == Upward::temperature ? own_.bulk_temperature().celsius()
                  : q_.upward == Upward::starter   ? starter / bowl->flour.in(kilogram)
                                                   : q_.within.in(hour);
  }

  Result<bool> draw_all() {
    forecast::Options options;
    options.seed = q_.seed;
    options.prior = q_.prior;
    options.threads = q_.threads;
    options.cancelled = q_.cancelled;
    auto drawn = forecast::draws(base_, options, 0, q_.draws);
    if (!drawn) return failure(drawn);
    draws_ = std::move(*drawn);
    return true;
  }

  [[nodiscard]] forecast::Axis across() const { return {0, map_.room, q_.columns}; }

  [[nodiscard]] Bake bake_at(double share, double up) const {
    Bake bake = *forecast::with_share(own_, map_.drink, share);
    if (q_.upward == Upward::starter) {
      bake = with_starter(bake, *starter_, *bake.find(map_.drink), hydration_, flour_, up);
    }
    return bake;
  }

  /// The dough of one draw at one place, in place. A bowl that cannot be stops the whole.
  void fill(double share, double up, int draw, Case& to_fill) {
    const Draw& drawn = draws_[static_cast<std::size_t>(draw)];
    const auto bowl = formula::in_the_bowl(bake_at(share, up), drawn.settled);
    if (!bowl) {
      const std::scoped_lock lock(guard_);
      error_ = bowl.error();
      return;
    }
    to_fill.dough = forecast::dough_of(*bowl, drawn.settled);
    to_fill.parameters = drawn.parameters;
    to_fill.temperature =
        q_.upward == Upward::temperature ? Temperature::from_celsius(up) : own_.bulk_temperature();
  }

  /// The same, each dough made once where the second axis does not change what is in the bowl.
  void fill_once(double share, double up, int draw, Case& to_fill) {
    if (q_.upward == Upward::starter) return fill(share, up, draw, to_fill);
    const forecast::Axis axis = across();
    const double step = (axis.last - axis.first) / (axis.count - 1);
    const auto column = static_cast<std::size_t>(std::lround((share - axis.first) / step));
    Made& made = made_[column * draws_.size() + static_cast<std::size_t>(draw)];
    std::call_once(made.once, [&] { fill(share, up, draw, made.dough); });
    to_fill = made.dough;
    if (q_.upward == Upward::temperature) to_fill.temperature = Temperature::from_celsius(up);
  }

  [[nodiscard]] forecast::ManyOptions many() const {
    forecast::Options options;
    options.target = q_.target;
    options.horizon = q_.within;
    forecast::ManyOptions many;
    const numerics::Accuracy quick = many.proving.accuracy;
    many.proving = forecast::proving_of(own_, options);
    many.proving.accuracy = quick;
    many.proving.sample_every = 0.0 * hour;
    many.proving.stop_at_target = true;
    many.threads = q_.threads;
    many.cancelled = q_.cancelled;
    many.precision = forecast::Precision::single;
    return many;
  }

  Result<forecast::Field> over_field() {
    forecast::FieldQuestion question;
    question.across = across();
    question.up = {q_.least, q_.most, q_.rows};
    question.within = q_.within;
    question.draws = q_.draws;
    question.many = many();
    made_ = std::vector<Made>(static_cast<std::size_t>(q_.columns) * draws_.size());
    return forecast::chance_field(
        question,
        [&](double share, double up, int draw, Case& c) { fill_once(share, up, draw, c); },
        show_);
  }

  /// One run of each share and draw gives the whole column.
  Result<forecast::Field> over_time() {
    const forecast::Axis shares = across();
    const forecast::Axis up{q_.least, q_.most, q_.rows};
    forecast::ManyOptions options = many();
    options.proving.horizon = q_.most * hour;
    const auto draws = static_cast<std::size_t>(q_.draws);
    const auto runs = forecast::foresee_many(
        static_cast<std::size_t>(q_.columns) * draws,
        [&](std::size_t i, Case& c) {
          fill(shares.at(static_cast<int>(i / draws)), 0, static_cast<int>(i % draws), c);
        },
        options);
    if (!runs) return failure(runs);
    forecast::Field field;
    field.columns = q_.columns;
    field.rows = q_.rows;
    field.chance.assign(static_cast<std::size_t>(q_.columns) * static_cast<std::size_t>(q_.rows),
                        0);
    for (std::size_t i = 0; i < runs->passed.size(); ++i) {
      for (int row = 0; row < q_.rows; ++row) {
        if (runs->passed[i].ready <= up.at(row))
          field.chance[static_cast<std::size_t>(row) * static_cast<std::size_t>(q_.columns) +
                       i / draws] += 1.0 / q_.draws;
      }
    }
    field.error = 0;
    field.forecasts = runs->passed.size();
    field.finished = true;
    if (show_) show_(field);
    return field;
  }

  /// Of the same draws, where the bake stands.
  double chance_at(double share, double up) {
    const double height = q_.upward == Upward::time ? 0 : up;
    const auto runs = forecast::foresee_many(
        draws_.size(),
        [&](std::size_t i, Case& c) { fill(share, height, static_cast<int>(i), c); },
        many());
    if (!runs) return 0;
    const auto in_time =
        std::count_if(runs->passed.begin(), runs->passed.end(), [&](const auto& p) {
          return p.ready <= q_.within.in(hour);
        });
    return static_cast<double>(in_time) / static_cast<double>(draws_.size());
  }

  struct Made {
    std::once_flag once;
    Case dough;
  };

  const Bake& own_;
  const MapQuestion& q_;
  const forecast::ShowField& show_;
  ReachMap map_;
  Bake base_;
  double flour_ = 1;
  std::optional<std::size_t> starter_;
  double hydration_ = 0;
  std::vector<Draw> draws_;
  std::vector<Made> made_;
  std::optional<Error> error_;
  std::mutex guard_;
};

}  // namespace

std::string_view name(Upward upward) {
  switch (upward) {
    case Upward::temperature:
      return "temperature";
    case Upward::starter:
      return "starter";
    case Upward::time:
      return "time";
  }
  return "unknown";
}

Result<ReachMap> reach_map(const Bake& bake,
                           const MapQuestion& question,
                           const forecast::ShowField& show) {
  return Mapping(bake, question, show).go();
}

}  // namespace barm::testbakes
