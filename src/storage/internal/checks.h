#pragma once
#include <optional>

#include "base/error.h"
#include "storage/records.h"

namespace barm::storage::internal {

/// What cannot be in a record, with the field's name as the place; nothing when it may be kept.
/// Texts: UTF-8 without NUL, titles to 200 bytes, remarks to 20 000, documents to 4 MB, a bake file
/// to 1 MB. Numbers: finite, in the range a baker can mean.
[[nodiscard]] std::optional<Error> wrong_with(const Bake& record);
[[nodiscard]] std::optional<Error> wrong_with(const Culture& record);
[[nodiscard]] std::optional<Error> wrong_with(const Feeding& record);
[[nodiscard]] std::optional<Error> wrong_with(const Bottle& record);
[[nodiscard]] std::optional<Error> wrong_with(const ReadingRecord& record);
[[nodiscard]] std::optional<Error> wrong_with(const Mark& record);
[[nodiscard]] std::optional<Error> wrong_with(const Photo& record);
[[nodiscard]] std::optional<Error> wrong_with(const Loaf& record);
[[nodiscard]] std::optional<Error> wrong_with(const Scale& record);
[[nodiscard]] std::optional<Error> wrong_with(const Remark& record);
[[nodiscard]] std::optional<Error> wrong_with(const Setting& record);
[[nodiscard]] std::optional<Error> wrong_with(const TestBake& record);
[[nodiscard]] std::optional<Error> wrong_with(const TestMember& record);
[[nodiscard]] std::optional<Error> wrong_with(const Equipment& record);

}  // namespace barm::storage::internal
