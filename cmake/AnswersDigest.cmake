# barm_write_answers_digest(TARGET): adds to TARGET one small file with a digest of the larder, the constants and the code by which
# answers are worked out. Looked up at each build, written only when it has changed.
function(barm_write_answers_digest target)
  set(file ${CMAKE_CURRENT_BINARY_DIR}/written_answers_digest.cpp)
  add_custom_target(barm_answers_digest
    COMMAND ${CMAKE_COMMAND} -DFILE=${file} -DSOURCE=${PROJECT_SOURCE_DIR} -P ${PROJECT_SOURCE_DIR}/cmake/WriteAnswersDigest.cmake
    BYPRODUCTS ${file}
    COMMENT "the digest of what answers follow from"
    VERBATIM)
  set_source_files_properties(${file} PROPERTIES GENERATED ON SKIP_UNITY_BUILD_INCLUSION ON)
  target_sources(${target} PRIVATE ${file})
  add_dependencies(${target} barm_answers_digest)
endfunction()
