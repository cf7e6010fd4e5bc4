#pragma once
#include "formula/document.h"

namespace barm::formula::internal {

using formula::Entry;
using formula::find;
using formula::Node;
using formula::parse_document;

}  // namespace barm::formula::internal
