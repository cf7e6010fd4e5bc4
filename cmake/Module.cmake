# barm_module(NAME [SPEAKS] DEPENDS a b [LIBRARIES x::y])
#   One folder of src/, with its rooms, is one static library barm_NAME with alias barm::NAME. DEPENDS lists every
#   module whose headers it may include; a test refuses any other. LIBRARIES are third-party and private.
#   SPEAKS: reads, keeps and says, and computes little by itself: -O1, which compiles in two thirds of the time (docs/bench-build.md).
function(barm_module name)
  cmake_parse_arguments(MODULE "SPEAKS" "" "DEPENDS;LIBRARIES;PUBLIC_LIBRARIES" ${ARGN})
  set(target barm_${name})
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.cpp)
  list(FILTER sources EXCLUDE REGEX "/main\\.cpp$")
  file(GLOB_RECURSE headers CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/*.h)
  list(TRANSFORM MODULE_DEPENDS PREPEND barm:: OUTPUT_VARIABLE depends)

  if(sources)
    add_library(${target} STATIC ${sources})
    set(scope PUBLIC)
    target_link_libraries(${target} PRIVATE barm_flags ${MODULE_LIBRARIES})
    if(MODULE_SPEAKS)
      target_compile_options(${target} PRIVATE $<$<CONFIG:Release>:-O1>)
    endif()
  else()
    add_library(${target} INTERFACE)
    set(scope INTERFACE)
  endif()
  add_library(barm::${name} ALIAS ${target})
  target_include_directories(${target} ${scope} ${PROJECT_SOURCE_DIR}/src)
  target_link_libraries(${target} ${scope} ${depends} ${MODULE_PUBLIC_LIBRARIES})
  target_sources(${target} ${scope} FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR}/src FILES ${headers})

  add_test(NAME layering.${name}
    COMMAND ${CMAKE_COMMAND} -DMODULE=${name} "-DDEPENDS=${MODULE_DEPENDS}"
      -DDIR=${CMAKE_CURRENT_SOURCE_DIR} -P ${PROJECT_SOURCE_DIR}/cmake/CheckLayers.cmake)
endfunction()
