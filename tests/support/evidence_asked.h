#pragma once
// data/evidence/asked.toml read and checked: how each askable row is asked of the program.
#include <toml++/toml.h>

#include <map>
#include <string>
#include <vector>

#include "support/evidence_ask.h"
#include "support/evidence_rows.h"

namespace barm::test {

namespace evidence {

inline int line_of(const toml::node& node) { return static_cast<int>(node.source().begin.line); }

class AskedFile {
 public:
  AskedFile(std::string file, const EvidenceRows& rows) : file_(std::move(file)), rows_(rows) {}

  [[nodiscard]] Ask ask(const toml::table& table) const {
    known_keys(table,
               {"what",
                "kind",
                "source",
                "share",
                "celsius",
                "horizon",
                "bake",
                "drawn",
                "scaled",
                "track",
                "answer"});
    Ask ask;
    ask.line = line_of(table);
    ask.what = text(table, "what");
    ask.kind = text(table, "kind");
    ask.source = text(table, "source");
    ask.bake = text(table, "bake");
    ask.horizon = table["horizon"].value_or(72.0);
    ask.share = table["share"].value<double>();
    if (const auto* drawn = table["drawn"].as_table()) read_drawn(*drawn, ask);
    ask.celsius = warmth(table, ask);
    if (const auto* scaled = table["scaled"].as_table()) {
      for (const auto& [name, by] : *scaled)
        ask.scaled[std::string(name.str())] = by.value_or(std::string());
    }
    if (const auto* track = table["track"].as_array()) read_track(*track, ask);
    const auto* answers = table["answer"].as_array();
    if (answers == nullptr) stop_at(file_, ask.line, "an ask without answer");
    for (const auto& node : *answers) ask.answers.push_back(answer(*node.as_table(), ask));
    check_names(ask);
    return ask;
  }

 private:
  void known_keys(const toml::table& table, const std::vector<std::string_view>& known) const {
    for (const auto& [key, node] : table) {
      if (std::find(known.begin(), known.end(), key.str()) == known.end())
        stop_at(
            file_,
            line_of(node),
            fmt::format("unknown key '{}'; the keys are {}", key.str(), fmt::join(known, ", ")));
    }
  }

  [[nodiscard]] std::string text(const toml::table& table, std::string_view key) const {
    const auto found = table[key].value<std::string>();
    if (!found || found->empty()) stop_at(file_, line_of(table), fmt::format("{} is missing", key));
    return *found;
  }

  void read_drawn(const toml::table& table, Ask& ask) const {
    for (const auto& [name, node] : table) {
      const auto* row = node.as_table();
      if (row == nullptr) stop_at(file_, line_of(node), "what is drawn is a table");
      known_keys(*row, {"middle", "doubt", "doubt_ln", "low", "high", "one_of", "why"});
      Assumption one;
      one.name = std::string(name.str());
      one.why = text(*row, "why");
      const auto number = [&](const char* key) { return (*row)[key].value<double>(); };
      if (const auto* words = (*row)["one_of"].as_array()) {
        one.kind = Assumption::Kind::one_of;
        for (const auto& word : *words) one.words.push_back(word.value_or(std::string()));
      } else if (number("middle") && number("doubt")) {
        one.kind = Assumption::Kind::normal;
        one.first = *number("middle");
        one.second = *number("doubt");
      } else if (number("middle") && number("doubt_ln")) {
        one.kind = Assumption::Kind::log_normal;
        one.first = *number("middle");
        one.second = *number("doubt_ln");
      } else if (number("low") && number("high") && *number("low") < *number("high")) {
        one.kind = Assumption::Kind::alike;
        one.first = *number("low");
        one.second = *number("high");
      } else {
        stop_at(file_,
                line_of(node),
                "drawn by middle and doubt, middle and doubt_ln, low and high, or one_of");
      }
      ask.drawn.push_back(std::move(one));
    }
  }

  static double warmth(const toml::table& table, const Ask& ask) {
    if (const auto said = table["celsius"].value<double>()) return *said;
    for (const Assumption& one : ask.drawn) {
      if (one.name == "celsius") return one.middle();
    }
    return 24;
  }

  void read_track(const toml::array& track, Ask& ask) const {
    for (const auto& point : track) {
      const auto* pair = point.as_array();
      if (pair == nullptr || pair->size() != 2)
        stop_at(file_, line_of(point), "a point of the track is [hours, warmth]");
      ask.track.emplace_back((*pair)[0].value_or(0.0), (*pair)[1].value_or(std::string()));
    }
  }

  // Whatever stands in {} is drawn, and whatever is drawn stands somewhere.
  void check_names(const Ask& ask) const {
    Told told;
    for (const Assumption& one : ask.drawn) told[one.name] = "1";
    std::string all = ask.bake;
    for (const auto& [name, by] : ask.scaled) all += by;
    for (const auto& [at, celsius] : ask.track) all += celsius;
    for (const Asked& asked : ask.answers) all += asked.target;
    try {
      static_cast<void>(filled(all, told));
    } catch (const std::runtime_error& error) {
      stop_at(file_, ask.line, error.what());
    }
    for (const Assumption& one : ask.drawn) {
      if (all.find("{" + one.name) == std::string::npos)
        stop_at(file_, ask.line, one.name + " is drawn, but used nowhere");
    }
  }

  [[nodiscard]] Asked answer(const toml::table& table, const Ask& ask) const {
    known_keys(table, {"row", "all_of_source", "answer", "at", "from", "read", "why"});
    Asked asked;
    const std::string words = text(table, "answer");
    name_what(words, asked, line_of(table));
    asked.at = table["at"].value_or(0.0);
    asked.from = table["from"].value_or(0.0);
    asked.read = table["read"].value_or(0.0);
    if (!(asked.read > 0))
      stop_at(file_, line_of(table), "read, how far a reading strays, is missing");
    if (table["all_of_source"].value_or(false)) {
      for (const EvidenceRow& row : rows_) {
        if (row.use == Use::askable && row.source == ask.source) asked.rows.push_back(row.id);
      }
    } else {
      asked.rows.push_back(text(table, "row"));
    }
    for (const std::string& id : asked.rows) check_row(id, ask, asked, line_of(table));
    return asked;
  }

  void name_what(const std::string& words, Asked& asked, int line) const {
    using W = Asked::What;
    static const std::vector<std::pair<std::string, W>> known = {
        {"half of the highest rise", W::half_of_highest},
        {"hours to rise ", W::hours_to_rise},
        {"hours to highest", W::hours_to_highest},
        {"hours to pH ", W::hours_to_ph},
        {"rise", W::rise},
        {"pH", W::ph},
        {"bacteria", W::bacteria},
        {"yeast", W::yeast},
        {"lactic acid", W::lactic_acid},
        {"acetic acid", W::acetic_acid},
        {"generations", W::generations}};
    for (const auto& [name, what] : known) {
      const bool takes_target = name.back() == ' ';
      if (takes_target ? words.rfind(name, 0) == 0 : words == name) {
        asked.what = what;
        asked.target = takes_target ? words.substr(name.size()) : "";
        return;
      }
    }
    stop_at(file_, line, "nothing can be answered to '" + words + "'");
  }

  void check_row(const std::string& id, const Ask& ask, const Asked& asked, int line) const {
    const EvidenceRow* row = row_of(rows_, id);
    if (row == nullptr) stop_at(file_, line, "no row '" + id + "' in measured.csv");
    if (row->use != Use::askable) stop_at(file_, line, "row " + id + " is not askable");
    if (row->source != ask.source)
      stop_at(file_, line, "row " + id + " is of " + row->source + ", not of " + ask.source);
    if (asked.is_time() ? !row->hours : !row->value)
      stop_at(file_, line, "row " + id + " has no number to hold an answer against");
  }

  std::string file_;
  const EvidenceRows& rows_;
};

}  // namespace evidence

/// asked.toml against the rows of measured.csv: every askable row is asked once, no other.
inline std::vector<Ask> evidence_asks(std::string_view text,
                                      const std::string& file,
                                      const EvidenceRows& rows) {
  toml::table parsed;
  try {
    parsed = toml::parse(text, file);
  } catch (const toml::parse_error& error) {
    stop_at(file, static_cast<int>(error.source().begin.line), std::string(error.description()));
  }
  std::vector<Ask> asks;
  const evidence::AskedFile reader(file, rows);
  if (const auto* all = parsed["ask"].as_array()) {
    for (const auto& node : *all) asks.push_back(reader.ask(*node.as_table()));
  }
  std::map<std::string, int> times;
  for (const Ask& ask : asks) {
    for (const Asked& asked : ask.answers) {
      for (const std::string& id : asked.rows) {
        if (++times[id] > 1) stop_at(file, ask.line, "row " + id + " is asked twice");
      }
    }
  }
  for (const EvidenceRow& row : rows) {
    if (row.use == Use::askable && times[row.id] == 0)
      stop_at(file, 1, "row " + row.id + " is askable, but nothing here asks it");
  }
  return asks;
}

inline std::vector<Ask> evidence_asks(const std::string& folder, const EvidenceRows& rows) {
  return evidence_asks(evidence_text(folder, "asked.toml"), "asked.toml", rows);
}

}  // namespace barm::test
