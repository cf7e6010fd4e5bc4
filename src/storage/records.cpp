#include "storage/records.h"

#include <array>
#include <utility>

namespace barm::storage {

namespace {

constexpr std::array<std::pair<Kind, std::string_view>, 14> kinds{
    {{Kind::bake, "bake"},
     {Kind::culture, "culture"},
     {Kind::feeding, "feeding"},
     {Kind::bottle, "bottle"},
     {Kind::reading, "reading"},
     {Kind::mark, "mark"},
     {Kind::photo, "photo"},
     {Kind::loaf, "loaf"},
     {Kind::scale, "scale"},
     {Kind::remark, "remark"},
     {Kind::setting, "setting"},
     {Kind::test_bake, "test_bake"},
     {Kind::test_member, "test_member"},
     {Kind::equipment, "equipment"}}};

}  // namespace

std::string_view name(Kind kind) {
  for (const auto& [candidate, word] : kinds) {
    if (candidate == kind) return word;
  }
  return "";
}

std::optional<Kind> kind_of(std::string_view name) {
  for (const auto& [kind, word] : kinds) {
    if (word == name) return kind;
  }
  return std::nullopt;
}

}  // namespace barm::storage
