# barm_write_version(TARGET): adds to TARGET one small file that says which barm it is: the project's version, the commit, a
# digest of data/. Looked up at each build, written only when it has changed.
function(barm_write_version target)
  set(file ${CMAKE_CURRENT_BINARY_DIR}/written_version.cpp)
  add_custom_target(barm_version
    COMMAND ${CMAKE_COMMAND} -DFILE=${file} -DNUMBER=${PROJECT_VERSION} -DSOURCE=${PROJECT_SOURCE_DIR}
      -P ${PROJECT_SOURCE_DIR}/cmake/WriteVersion.cmake
    BYPRODUCTS ${file}
    COMMENT "version"
    VERBATIM)
  set_source_files_properties(${file} PROPERTIES GENERATED ON SKIP_UNITY_BUILD_INCLUSION ON)
  target_sources(${target} PRIVATE ${file})
  add_dependencies(${target} barm_version)
endfunction()
