#include "server/door/pairing.h"

#include <openssl/crypto.h>
#include <openssl/rand.h>
#include <openssl/sha.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <utility>

#include "base/require.h"
#include "server/wire/internal/private_file.h"

namespace barm::server {

namespace {

constexpr std::string_view letters = "ABCDEFGHJKMNPQRSTUVWXYZ23456789";  // no I, L, O, 0, 1
constexpr std::size_t key_letters = 8;
constexpr int free_guesses = 5;
constexpr int longest_wait_s = 900;
constexpr std::size_t most_guessers = 1000;  // that are remembered
constexpr std::size_t longest_name = 80;
constexpr std::size_t hex_digits = std::size_t{2} * SHA256_DIGEST_LENGTH;

std::string hex(const unsigned char* bytes, std::size_t count) {
  static constexpr char digits[] = "0123456789abcdef";
  std::string out;
  for (std::size_t i = 0; i < count; ++i) {
    out += digits[bytes[i] >> 4U];
    out += digits[bytes[i] & 15U];
  }
  return out;
}

std::vector<unsigned char> random_bytes(std::size_t count) {
  std::vector<unsigned char> bytes(count);
  require(RAND_bytes(bytes.data(), static_cast<int>(count)) == 1, "the machine has random numbers");
  return bytes;
}

// Each letter equally likely: bytes beyond the last whole round of letters are thrown away.
std::string random_key() {
  std::string key;
  const std::size_t fair = 256 - 256 % letters.size();
  while (key.size() < key_letters) {
    const unsigned char byte = random_bytes(1).front();
    if (byte < fair) key += letters[byte % letters.size()];
  }
  return key.insert(key_letters / 2, "-");
}

std::string plain(const std::string& key) {
  std::string out;
  for (const char c : key) {
    if (c >= 'a' && c <= 'z') {
      out += static_cast<char>(c - 'a' + 'A');
    } else if (letters.find(c) != std::string_view::npos) {
      out += c;
    }
    if (out.size() > key_letters) break;
  }
  return out;
}

std::string digest(const std::string& cookie) {
  std::array<unsigned char, SHA256_DIGEST_LENGTH> out{};
  SHA256(reinterpret_cast<const unsigned char*>(cookie.data()), cookie.size(), out.data());
  return hex(out.data(), out.size());
}

// In a time that does not tell how much of it is right.
bool same(const std::string& a, const std::string& b) {
  return a.size() == b.size() && CRYPTO_memcmp(a.data(), b.data(), a.size()) == 0;
}

// One line of words: nothing that could end the line or the screen's.
std::string one_line(const std::string& name) {
  std::string out;
  for (const char c : name) {
    if (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F && out.size() < longest_name) out += c;
  }
  return out;
}

}  // namespace

Result<Pairing> Pairing::open(const std::string& file) {
  std::vector<Device> devices;
  std::ifstream in(file);
  for (std::string line; devices.size() < most_devices && std::getline(in, line);) {
    const std::size_t blank = line.find(' ');
    if (blank != hex_digits)
      return failure(ErrorCode::bad_input,
                     file,
                     "is not a list of paired devices: delete it and pair them again");
    devices.push_back({line.substr(0, blank), line.substr(blank + 1)});
  }
  return Pairing(file, std::move(devices));
}

Pairing::Pairing(std::string file, std::vector<Device> devices)
    : file_(std::move(file)), key_(random_key()), devices_(std::move(devices)) {}

Pairing::Pairing(Pairing&& other) noexcept
    : file_(std::move(other.file_)),
      key_(std::move(other.key_)),
      devices_(std::move(other.devices_)),
      guessers_(std::move(other.guessers_)) {}

Guess Pairing::guess(const std::string& key, const Newcomer& who, Clock::time_point now) {
  const std::scoped_lock lock(mutex_);
  const auto guesser = guessers_.find(who.address);
  if (guesser != guessers_.end() && now < guesser->second.next) {
    const auto left = std::chrono::ceil<std::chrono::seconds>(guesser->second.next - now);
    return {.wait_s = static_cast<int>(left.count())};
  }
  if (!same(plain(key), plain(key_))) {
    count_wrong(who.address, now);
    return {};
  }
  guessers_.erase(who.address);
  const std::string before = digest(who.cookie);
  std::erase_if(devices_, [&](const Device& device) { return device.digest == before; });
  if (devices_.size() >= most_devices) return {.full = true};
  const auto bytes = random_bytes(SHA256_DIGEST_LENGTH);
  const std::string cookie = hex(bytes.data(), bytes.size());
  devices_.push_back({digest(cookie), one_line(who.name)});
  keep();
  return {.cookie = cookie};
}

void Pairing::count_wrong(const std::string& address, Clock::time_point now) {
  const auto waited_longest = [](const auto& a, const auto& b) {
    return a.second.next < b.second.next;
  };
  if (guessers_.size() >= most_guessers && !guessers_.contains(address))
    guessers_.erase(std::min_element(guessers_.begin(), guessers_.end(), waited_longest));
  Guesser& guesser = guessers_[address];
  if (++guesser.wrong < free_guesses) return;
  const int doublings = std::min(guesser.wrong - free_guesses, 10);
  guesser.next = now + std::chrono::seconds(std::min(1 << doublings, longest_wait_s));
}

bool Pairing::knows(const std::string& cookie) const { return !device(cookie).empty(); }

std::string Pairing::device(const std::string& cookie) const {
  if (cookie.empty()) return "";
  const std::string asked = digest(cookie);
  const std::scoped_lock lock(mutex_);
  const bool known = std::any_of(devices_.begin(), devices_.end(), [&](const Device& device) {
    return same(device.digest, asked);
  });
  return known ? asked : "";
}

void Pairing::forget(const std::string& cookie) {
  const std::string asked = digest(cookie);
  const std::scoped_lock lock(mutex_);
  std::erase_if(devices_, [&](const Device& device) { return device.digest == asked; });
  keep();
}

void Pairing::keep() const {
  if (file_.empty()) return;
  std::string text;
  for (const Device& device : devices_) text += device.digest + ' ' + device.name + '\n';
  internal::write_private(file_, text);
}

}  // namespace barm::server
