#include "cli/program.h"

int main(int argc, char** argv) { return barm::cli::run_program(argc, argv); }
