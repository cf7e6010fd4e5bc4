# barm_made_first(TARGET FILE…): FILEs that a command makes are there before TARGET is compiled.
#   As sources alone they wait for every library that TARGET is linked to, and with them all that is compiled after: a command
#   waits for what all its targets wait for, and this one waits for nothing.
function(barm_made_first target)
  add_custom_target(${target}_made DEPENDS ${ARGN})
  add_dependencies(${target} ${target}_made)
endfunction()
