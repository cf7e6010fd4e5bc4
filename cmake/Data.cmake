# barm_generate(OUTPUT_HEADER TOOL_MODE input...)
#   Runs tools/compile_data over files of data/ and writes one C++ header into generated/.
set(BARM_GENERATED_DIR ${PROJECT_BINARY_DIR}/generated)
function(barm_generate header mode)
  set(output ${BARM_GENERATED_DIR}/generated/${header})
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -E make_directory ${BARM_GENERATED_DIR}/generated
    COMMAND compile_data ${mode} ${output} ${ARGN}
    DEPENDS compile_data ${ARGN}
    COMMENT "data: ${header}"
    VERBATIM)
  set_property(GLOBAL APPEND PROPERTY BARM_GENERATED_HEADERS ${output})
endfunction()
