# Flags for our own code; third-party headers stay SYSTEM.
add_library(barm_flags INTERFACE)
target_compile_options(barm_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wnon-virtual-dtor -Wold-style-cast
  # Where a module is one compile, what a file keeps to itself stands beside the other files' and may be hidden by a local.
  $<IF:$<BOOL:${CMAKE_UNITY_BUILD}>,-Wshadow=local,-Wshadow>)
if(BARM_WERROR)
  target_compile_options(barm_flags INTERFACE -Werror)
endif()
if(BARM_SANITIZE)
  add_compile_options(-fsanitize=${BARM_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
  add_link_options(-fsanitize=${BARM_SANITIZE})
endif()
