# Writes FILE, the C++ of cli/version.h, for the version NUMBER and the tree in SOURCE.
cmake_minimum_required(VERSION 3.25)

# git_says(VARIABLE argument…): one line of git's about this tree, or "unknown". A repository around the tree is not asked.
function(git_says variable)
  get_filename_component(around ${SOURCE} DIRECTORY)
  execute_process(COMMAND ${CMAKE_COMMAND} -E env GIT_CEILING_DIRECTORIES=${around} git -C ${SOURCE} ${ARGN}
    OUTPUT_VARIABLE said RESULT_VARIABLE failed ERROR_QUIET OUTPUT_STRIP_TRAILING_WHITESPACE)
  if(failed)
    set(said unknown)
  endif()
  set(${variable} "${said}" PARENT_SCOPE)
endfunction()

git_says(commit describe --always --exclude=* --abbrev=7 --dirty=+)
git_says(date log -1 --format=%cs)

file(GLOB_RECURSE files LIST_DIRECTORIES false RELATIVE ${SOURCE}/data ${SOURCE}/data/*)
list(SORT files)
set(contents "")
foreach(file IN LISTS files)
  file(SHA256 ${SOURCE}/data/${file} digest)
  string(APPEND contents "${file} ${digest}\n")
endforeach()
string(SHA256 data "${contents}")
string(SUBSTRING ${data} 0 12 data)

file(CONFIGURE OUTPUT ${FILE} @ONLY CONTENT [[
#include "cli/version.h"

namespace barm::cli {

const Version& version() {
  static constexpr Version is{"@NUMBER@", "@commit@", "@date@", "@data@"};
  return is;
}

}  // namespace barm::cli
]])
