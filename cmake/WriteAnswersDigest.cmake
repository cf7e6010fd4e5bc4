# Writes FILE, the C++ of service/answers_digest.h, for the tree in SOURCE: a digest of everything an answer follows from.
cmake_minimum_required(VERSION 3.25)

set(contents "")
foreach(part data src/chemistry src/estimation src/forecast src/formula src/heat src/kinetics src/larder src/numerics src/units)
  file(GLOB_RECURSE files LIST_DIRECTORIES false RELATIVE ${SOURCE} ${SOURCE}/${part}/*)
  list(SORT files)
  foreach(file IN LISTS files)
    file(SHA256 ${SOURCE}/${file} digest)
    string(APPEND contents "${file} ${digest}\n")
  endforeach()
endforeach()
string(SHA256 digest "${contents}")
string(SUBSTRING ${digest} 0 16 digest)

file(CONFIGURE OUTPUT ${FILE} @ONLY CONTENT [[
#include "service/answers_digest.h"

namespace barm::service {

std::string_view answers_digest() { return "@digest@"; }

}  // namespace barm::service
]])
