// compile_texts HEADER NAME FILE…: writes a header with the files' texts as
// barm::texts::NAME, each under its file name.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace {

std::string contents(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) {
    std::fprintf(stderr, "compile_texts HEADER NAME FILE...\n");
    return 1;
  }
  std::ostringstream out;
  out << "#pragma once\n// Written by tools/compile_texts; do not edit.\n#include <string_view>\n\n"
         "namespace barm::texts {\n\nstruct Text {\n  std::string_view name, text;\n};\n\n"
         "inline constexpr Text "
      << argv[2] << "[] = {\n";
  for (int i = 3; i < argc; ++i) {
    const std::string text = contents(argv[i]);
    if (text.empty() || text.find(")barm_text\"") != std::string::npos) {
      std::fprintf(stderr, "%s: is empty or cannot be written as a text\n", argv[i]);
      return 1;
    }
    out << "    {\"" << std::filesystem::path(argv[i]).filename().string()
        << "\",\n     R\"barm_text(" << text << ")barm_text\"},\n";
  }
  out << "};\n\n}  // namespace barm::texts\n";
  std::ofstream(argv[1], std::ios::binary) << out.str();
  return 0;
}
