#include "forecast/many.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <mutex>
#include <optional>

#include "base/together.h"
#include "forecast/internal/lanes_chunk.h"
#include "kinetics/terms.h"

namespace barm::forecast {

namespace {

Passed passed_in(const Course& course, double begin) {
  const auto hours = [&](const std::optional<Time>& time) {
    return time ? begin + time->in(hour) : Passed::never;
  };
  return {hours(course.fifth),
          hours(course.ready),
          hours(course.peak),
          hours(course.collapsed),
          hours(course.sour),
          course.largest_rise,
          begin + course.end.in(hour),
          course.least_room};
}

// Shares the cases among threads, chunk by chunk.
class Work {
 public:
  Work(std::size_t count, const FillCase& fill, const ManyOptions& options, Many& many)
      : count_(count),
        fill_(fill),
        options_(options),
        many_(many),
        chunk_(chunk_size(count, threads())) {}

  std::optional<Error> go() {
    together(threads(), [this] { guarded_work(); });
    if (exception_) std::rethrow_exception(exception_);
    return error_;
  }

 private:
  // Small enough that all threads end together and a wish to stop is heard soon; large enough that
  // few lanes stand idle at the end of a chunk.
  static std::size_t chunk_size(std::size_t count, int threads) {
    return std::clamp<std::size_t>(count / (2 * static_cast<std::size_t>(threads)), 64, 512);
  }

  [[nodiscard]] int threads() const { return threads_for(options_.threads); }

  void guarded_work() {
    try {
      work();
    } catch (...) {
      const std::scoped_lock lock(guard_);
      if (!exception_) exception_ = std::current_exception();
      next_ = count_;
    }
  }

  void work() {
    std::vector<Case> cases;
    std::vector<char> lost;
    for (std::size_t from = next_.fetch_add(chunk_); from < count_;
         from = next_.fetch_add(chunk_)) {
      if (options_.cancelled && options_.cancelled())
        return stop_with({ErrorCode::cancelled, "", "stopped"});
      const std::size_t size = std::min(chunk_, count_ - from);
      cases.resize(size);
      lost.assign(size, 0);
      run_chunk(from, cases, lost);
      tell(size);
    }
  }

  void run_chunk(std::size_t from, std::vector<Case>& cases, std::vector<char>& lost) {
    for (std::size_t i = 0; i < cases.size(); ++i) fill_(from + i, cases[i]);
    internal::LanesChunk chunk;
    chunk.cases = cases;
    chunk.passed = std::span(many_.passed).subspan(from, cases.size());
    chunk.samples = many_.samples;
    chunk.rise = std::span(many_.rise).subspan(from * many_.samples, cases.size() * many_.samples);
    if (!many_.ph.empty())
      chunk.ph = std::span(many_.ph).subspan(from * many_.samples, cases.size() * many_.samples);
    if (!many_.at_end.empty()) chunk.at_end = std::span(many_.at_end).subspan(from, cases.size());
    chunk.lost = lost;
    chunk.proving = &options_.proving;
    internal::run_in_lanes(chunk, options_.precision, options_.instructions);
    for (std::size_t i = 0; i < cases.size(); ++i) {
      if (lost[i] != 0) run_alone(cases[i], chunk, i);
    }
  }

  void run_alone(const Case& one, const internal::LanesChunk& chunk, std::size_t i) {
    Proving proving = options_.proving;
    proving.temperature = one.temperature;
    proving.track = one.track;
    if (one.handlings) proving.handlings = *one.handlings;
    if (one.target > 0) proving.target = one.target;
    proving.least_room = one.least_room;
    proving.horizon = std::min(proving.horizon, one.until * hour);
    const double begin = one.under_way ? one.under_way->at : 0;
    if (one.under_way) set_out(one, proving);
    const auto course = run(one.dough, one.parameters, proving);
    if (!course) return stop_with(course.error());
    chunk.passed[i] = passed_in(*course, begin);
    if (!chunk.at_end.empty()) {
      const bool by_target = proving.stop_at_target && course->ready;
      chunk.at_end[i] = by_target ? course->at_ready : course->at_end;
    }
    const double every = proving.sample_every.in(hour);
    for (std::size_t s = 0; s < chunk.samples; ++s) {
      const double into = every > 0 ? static_cast<double>(s) - begin / every : 0;
      if (into < -1e-9) continue;
      const auto at = static_cast<std::size_t>(std::lround(into));
      if (at >= course->curve.size()) break;
      chunk.rise[i * chunk.samples + s] = static_cast<float>(course->curve[at].rise);
      if (!chunk.ph.empty())
        chunk.ph[i * chunk.samples + s] = static_cast<float>(course->curve[at].ph);
    }
  }

  // The run's own time 0 is where the dough is taken up.
  static void set_out(const Case& one, Proving& proving) {
    const double at = one.under_way->at;
    const auto terms = kinetics::terms(one.dough,
                                       one.parameters,
                                       one.under_way->start_celsius,
                                       one.under_way->start_celsius,
                                       {proving.surface});
    proving.beginning = Beginning{
        one.under_way->state, terms.volume_at_start, std::nullopt, one.under_way->start_celsius};
    proving.horizon -= at * hour;
    if (!proving.track.empty()) proving.track = proving.track.after(at);
    std::vector<Handling> later;
    for (const Handling& handling : proving.handlings) {
      if (handling.at.in(hour) > at) later.push_back({handling.at - at * hour, handling.gas_out});
    }
    proving.handlings = later;
  }

  void stop_with(const Error& why) {
    const std::scoped_lock lock(guard_);
    if (!error_) error_ = why;
    next_ = count_;
  }

  void tell(std::size_t size) {
    if (!options_.progress) return;
    const std::scoped_lock lock(guard_);
    done_ += size;
    options_.progress(static_cast<double>(done_) / static_cast<double>(count_));
  }

  std::size_t count_;
  const FillCase& fill_;
  const ManyOptions& options_;
  Many& many_;
  std::size_t chunk_;
  std::atomic<std::size_t> next_{0};
  std::mutex guard_;
  std::size_t done_ = 0;
  std::optional<Error> error_;
  std::exception_ptr exception_;
};

}  // namespace

Result<Many> foresee_many(std::size_t count, const FillCase& fill, const ManyOptions& options) {
  Many many;
  many.passed.resize(count);
  if (options.states) many.at_end.resize(count);
  const double every = options.proving.sample_every.in(hour);
  if (every > 0) {
    many.samples =
        static_cast<std::size_t>(std::floor(options.proving.horizon.in(hour) / every + 1e-9)) + 1;
    many.rise.assign(count * many.samples, std::numeric_limits<float>::quiet_NaN());
    if (options.ph_too)
      many.ph.assign(count * many.samples, std::numeric_limits<float>::quiet_NaN());
  }
  Work work(count, fill, options, many);
  if (const auto error = work.go()) return failure(*error);
  return many;
}

Result<Many> foresee_many(std::span<const Case> cases, const ManyOptions& options) {
  return foresee_many(
      cases.size(), [&](std::size_t i, Case& to_fill) { to_fill = cases[i]; }, options);
}

}  // namespace barm::forecast
