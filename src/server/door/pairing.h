#pragma once
// Who may ask from another device: a key shown in the terminal, exchanged once for a cookie.
#include <chrono>
#include <cstddef>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"

namespace barm::server {

/// Who gives a key.
struct Newcomer {
  std::string name;     ///< by which the device is to be known
  std::string address;  ///< where it asks from
  std::string cookie;   ///< that it has, perhaps of an earlier pairing, which this one replaces
};

/// What a guess of the key brings.
struct Guess {
  std::string cookie = {};  ///< to be set; empty when the guess is wrong or too early
  int wait_s = 0;           ///< over zero: too many wrong guesses, ask again so much later
  bool full = false;        ///< the key is right, but so many devices are paired already
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

  /// After five wrong guesses from one address each further one from there waits: a second, doubled
  /// by each wrong one up to a quarter of an hour. Nobody makes another address wait. Blanks,
  /// dashes and small letters do not matter. No device is put out by another's pairing.
  [[nodiscard]] Guess guess(const std::string& key, const Newcomer& who, Clock::time_point now);

  static constexpr std::size_t most_devices = 100;

  /// Whether the cookie is one that was given out.
  [[nodiscard]] bool knows(const std::string& cookie) const;

  /// By what the device of this cookie is told from others; empty when there is none.
  [[nodiscard]] std::string device(const std::string& cookie) const;

  void forget(const std::string& cookie);

 private:
  struct Device {
    std::string digest;  ///< of its cookie, in hex
    std::string name;
  };

  /// How one address has guessed.
  struct Guesser {
    int wrong = 0;
    Clock::time_point next{};
  };

  Pairing(std::string file, std::vector<Device> devices);

  void keep() const;
  void count_wrong(const std::string& address, Clock::time_point now);

  std::string file_;
  std::string key_;
  mutable std::mutex mutex_;
  std::vector<Device> devices_;
  std::map<std::string, Guesser> guessers_;
};

}  // namespace barm::server
