#pragma once
#include <source_location>
#include <stdexcept>
#include <string>
#include <string_view>

namespace barm {

/// Thrown when our own code breaks a contract. User input never gets this far.
class ContractViolation : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

/// Throws ContractViolation, naming the place of the call, unless the condition holds.
inline void require(bool condition,
                    std::string_view message,
                    std::source_location at = std::source_location::current()) {
  if (condition) return;
  throw ContractViolation(std::string(at.file_name()) + ":" + std::to_string(at.line()) + ": " +
                          std::string(message));
}

}  // namespace barm
