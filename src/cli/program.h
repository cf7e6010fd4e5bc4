#pragma once

namespace barm::cli {

/// The terminal program: reads the command line, answers on standard output, says errors on
/// standard error. Exit status: 0 answered, 2 bad input, 3 not found, 4 cannot be met, 5 no
/// convergence, 6 conflict, 7 unavailable, 64 wrong usage, 70 a fault of ours.
int run_program(int argc, char** argv);

}  // namespace barm::cli
