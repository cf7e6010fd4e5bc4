#pragma once
// Texts that people type or spreadsheets write: a price file, answers of buyers, readings. Each is
// read or refused in words; what is read can be used.
#include <string_view>

namespace barm::fuzz {

void prices(std::string_view text);
void answers(std::string_view text);
void readings(std::string_view text);

}  // namespace barm::fuzz
