#pragma once
// One field of a record after another held against what may be kept of it. The first thing that is
// wrong is said, with the field's name as the place.
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

#include "base/error.h"
#include "time/instant.h"
#include "units/readable.h"

namespace barm::storage::internal {

inline constexpr std::size_t title_bytes = 200;
inline constexpr std::size_t text_bytes = 20000;
inline constexpr std::size_t bake_bytes = 1000000;
inline constexpr std::size_t document_bytes = 4000000;

class FieldCheck {
 public:
  FieldCheck& text(const char* field, const std::string& value, std::size_t most = text_bytes);
  FieldCheck& title(const char* field, const std::string& value);  ///< a few words
  FieldCheck& range(const char* field, std::optional<double> value, double low, double high);
  FieldCheck& range(const char* field, std::optional<double> value, Readable range_of_it);
  FieldCheck& id(const char* field, const std::string& value);
  FieldCheck& id(const char* field, const std::optional<std::string>& value);
  FieldCheck& moment(const char* field, std::optional<time::Instant> value);
  FieldCheck& one_of(const char* field,
                     const std::string& value,
                     std::initializer_list<std::string_view> words);
  FieldCheck& that(bool good, const char* field, const std::string& remedy);

  [[nodiscard]] std::optional<Error> result() const { return error_; }

 private:
  FieldCheck& wrong(const char* field, const std::string& remedy);

  std::optional<Error> error_;
};

}  // namespace barm::storage::internal
