#include "cli/paper.h"

#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "base/visible.h"

namespace barm::cli {

int columns(std::string_view text) {
  int count = 0;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++count;
  }
  return count;
}

std::string padded(std::string_view text, int width) {
  std::string out(text);
  for (int i = columns(text); i < width; ++i) out += ' ';
  return out;
}

std::string fitted(std::string_view text, int width) {
  if (columns(text) <= width) return std::string(text);
  std::string out;
  int taken = 0;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++taken;
    if (taken >= width) break;
    out += c;
  }
  return out + "…";
}

std::string right(std::string_view text, int width) {
  std::string out;
  for (int i = columns(text); i < width; ++i) out += ' ';
  return out.append(text);
}

std::string bar(double length) {
  static constexpr const char* eighths[] = {"", "▏", "▎", "▍", "▌", "▋", "▊", "▉"};
  const int parts = static_cast<int>(std::lround(8 * length));
  if (parts <= 0) return "·";
  std::string out;
  for (int i = 0; i < parts / 8; ++i) out += "█";
  return out + eighths[parts % 8];
}

namespace {

constexpr std::string_view begin_strong = "\x1b[1m";
constexpr std::string_view end_strong = "\x1b[0m";

// Where the next of our own marks stands.
std::size_t next_mark(std::string_view text) {
  return std::min(text.find(begin_strong), text.find(end_strong));
}

}  // namespace

void Paper::line(std::string_view text) {
  if (!colour_) {
    text_ += visible(text) + '\n';
    return;
  }
  for (std::size_t mark = next_mark(text); mark < text.size(); mark = next_mark(text)) {
    text_ += visible(text.substr(0, mark));
    text_ += text.substr(mark, begin_strong.size());
    text.remove_prefix(mark + begin_strong.size());
  }
  text_ += visible(text) + '\n';
}

void Paper::heading(std::string_view text, std::string_view remark) {
  const int gap = sheet_width - columns(text) - columns(remark);
  if (remark.empty() || gap < 2) {
    line(strong(text));
    if (!remark.empty()) wrapped(remark);
    return;
  }
  line(strong(text) + std::string(static_cast<std::size_t>(gap), ' ') + std::string(remark));
}

void Paper::wrapped(std::string_view text, int indent) { item("", text, indent); }

void Paper::item(std::string_view label, std::string_view text, int indent) {
  std::string current = padded(label, indent);
  bool empty = true;
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t end = std::min(text.find(' ', begin), text.size());
    const std::string_view word = text.substr(begin, end - begin);
    begin = end + 1;
    if (!empty && columns(current) + 1 + columns(word) > sheet_width) {
      line(current);
      current = padded("", indent);
      empty = true;
    }
    if (!empty) current += ' ';
    current += word;
    empty = false;
  }
  line(current);
}

std::string Paper::strong(std::string_view text) const {
  if (!colour_) return std::string(text);
  return std::string(begin_strong) + visible(text) + std::string(end_strong);
}

bool colour_wanted() {
  const char* no_colour = std::getenv("NO_COLOR");
  return isatty(STDOUT_FILENO) != 0 && (no_colour == nullptr || *no_colour == '\0');
}

}  // namespace barm::cli
