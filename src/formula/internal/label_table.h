#pragma once
#include "formula/document.h"
#include "formula/label_fields.h"

namespace barm::formula::internal {

/// The [label] table of a bake file; stops at a field that is none.
[[nodiscard]] LabelFields read_label(const Entry& entry);

}  // namespace barm::formula::internal
