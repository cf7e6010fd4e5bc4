#pragma once
// Who may ask from another device: a key shown in the terminal, exchanged once for a cookie.
#include <chrono>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"

namespace barm::server {

/// What a guess of the key brings.
struct Guess {
  std::string cookie;  ///< to be set; empty when the guess is wrong or too early
  int wait_s = 0;      ///< over zero: too many wrong guesses, ask again so much later
};

/// The key of this run and the devices that have given one. May be called from any thread.
class Pairing {
 public:
  using Clock = std::chrono::steady_clock;

  /// `file` keeps the devices (a SHA-256 of each cookie, never the cookie) from run to run,
  /// readable by its owner only; empty: forgotten at the end. Errors: bad_input when it cannot be
  /// read.
  [[nodiscard]] static Result<Pairing> open(const std::string& file);

  Pairing(Pairing&& other) noexcept;

  /// Eight letters and digits that cannot be mistaken for others, "K7QX-94MD": 39 bits.
  [[nodiscard]] const std::string& key() const { return key_; }

  /// After five wrong guesses, from wherever they come, each further one waits: a second, doubled
  /// by each wrong one up to a quarter of an hour. Blanks, dashes and small letters do not matter.
  [[nodiscard]] Guess guess(const std::string& key,
                            const std::string& device,
                            Clock::time_point now);

  /// Whether the cookie is one that was given out.
  [[nodiscard]] bool knows(const std::string& cookie) const;

  void forget(const std::string& cookie);

 private:
  struct Device {
    std::string digest;  ///< of its cookie, in hex
    std::string name;
  };

  Pairing(std::string file, std::vector<Device> devices);

  void keep() const;

  std::string file_;
  std::string key_;
  mutable std::mutex mutex_;
  std::vector<Device> devices_;
  int wrong_ = 0;
  Clock::time_point next_guess_{};
};

}  // namespace barm::server
