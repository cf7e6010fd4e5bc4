#pragma once
// The equations themselves against tools/oracle/dough_model.py: written again in another language,
// from the same data, in other variables, and integrated by SciPy's implicit Radau method.
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <limits>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "support/command.h"
#include "truth/oracle_cases.h"

namespace barm::test {

// A file of this test's own that goes when the test does.
class OracleFile {
 public:
  explicit OracleFile(const std::string& text)
      : path_(std::filesystem::temp_directory_path() /
              ("barm_oracle_" + std::to_string(getpid()) + ".toml")) {
    std::ofstream(path_) << text;
  }

  OracleFile(const OracleFile&) = delete;
  OracleFile& operator=(const OracleFile&) = delete;

  ~OracleFile() { std::filesystem::remove(path_); }

  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

inline constexpr const char* acid_names[] = {
    "lactic", "acetic", "tartaric", "malic", "citric", "succinic", "gluconic", "carbonic"};
static_assert(std::size(acid_names) == chemistry::acid_count);

inline void write(std::ostream& out, const OracleCase& c) {
  const kinetics::Dough& d = c.dough;
  out << "[[case]]\nname = \"" << c.name << "\"\ncelsius = " << c.celsius
      << "\nhorizon = " << oracle_horizon << "\ntarget = " << oracle_target << "\n[case.dough]\n";
  const std::pair<const char*, double> entries[] = {
      {"water", d.water},
      {"water_phase", d.water_phase},
      {"ethanol", d.ethanol},
      {"salt", d.salt},
      {"flour", d.flour},
      {"added_hexose", d.added_hexose},
      {"added_maltose", d.added_maltose},
      {"lactate", d.lactate},
      {"acetate", d.acetate},
      {"buffering", d.buffering},
      {"flour_buffering", d.flour_buffering},
      {"ph", d.ph},
      {"free_sulphite", d.free_sulphite},
      {"sorbate", d.sorbate},
      {"iso_alpha_acids", d.iso_alpha_acids},
      {"carbon_dioxide", d.carbon_dioxide},
      {"wild_yeast", d.wild_yeast},
      {"bacteria", d.bacteria},
      {"bakers_yeast", d.bakers_yeast},
      {"lag", d.lag},
      {"strength", d.strength},
      {"rise_limit", d.rise_limit},
      {"hydration", d.hydration},
      {"pentosan_rise", d.pentosan_rise},
      {"protease", d.protease},
      {"slow_hexose", d.slow_hexose},
      {"slow_acid", d.slow_acid},
  };
  for (const auto& [key, value] : entries) out << key << " = " << value << '\n';
  for (std::size_t a = 0; a < chemistry::acid_count; ++a)
    out << "acid." << acid_names[a] << " = " << d.acid[a] << '\n';
  out << "[case.parameters]\n";
  for (const kinetics::Prior& prior : kinetics::priors()) {
    out << '"' << prior.name << "\" = " << c.parameters[prior.parameter] << '\n';
  }
}

inline std::string as_toml(const std::vector<OracleCase>& cases) {
  std::ostringstream out;
  out.precision(17);
  for (const OracleCase& c : cases) write(out, c);
  return out.str();
}

// Debian's own Python, the one that package python3-scipy belongs to.
inline std::map<std::string, Times> scipy_times(const std::vector<OracleCase>& cases) {
  const OracleFile file(as_toml(cases));
  const std::string root = BARM_ROOT;
  std::istringstream lines(output_of("/usr/bin/python3 '" + root +
                                     "/tools/oracle/dough_model.py' '" + file.path() + "' '" +
                                     root + "/data'"));
  const auto hours = [](const std::string& word) {
    return word == "nan" ? std::numeric_limits<double>::quiet_NaN() : std::stod(word);
  };
  std::map<std::string, Times> found;
  for (std::string name, fifth, ready, peak; lines >> name >> fifth >> ready >> peak;) {
    found[name] = {hours(fifth), hours(ready), hours(peak)};
  }
  return found;
}

/// Holds our run of each case against SciPy's; how far the two are apart at most.
inline Deviations compare_with_scipy(const std::vector<OracleCase>& cases) {
  const auto found = scipy_times(cases);
  Deviations worst;
  for (const OracleCase& c : cases) {
    if (!found.contains(c.name)) throw std::runtime_error("SciPy did not answer for " + c.name);
    const Times& theirs = found.at(c.name);
    EXPECT_FALSE(std::isnan(theirs.ready)) << c.name << " never gets there: it compares nothing";
    compare(c, theirs, worst);
  }
  return worst;
}

}  // namespace barm::test
