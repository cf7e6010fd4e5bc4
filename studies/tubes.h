#pragma once
// The measured rises of doughs in tubes, data/evidence/curves_landis2021.csv.
#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace barm {

/// Hours and rise [px] of one tube, from the start on.
using Tube = std::vector<std::pair<double, double>>;

/// All tubes that hold a starter, by name.
inline std::map<std::string, Tube> measured_tubes() {
  std::map<std::string, Tube> tubes;
  std::ifstream file(std::string(BARM_ROOT) + "/data/evidence/curves_landis2021.csv");
  for (std::string row; std::getline(file, row);) {
    if (row.starts_with('#') || row.starts_with("tube,")) continue;
    std::istringstream cells(row);
    std::string tube, starter, replicate, hours, rise;
    for (std::string* cell : {&tube, &starter, &replicate, &hours, &rise})
      std::getline(cells, *cell, ',');
    if (starter != "blank") tubes[tube].emplace_back(std::stod(hours), std::stod(rise));
  }
  return tubes;
}

/// Its highest rise [px].
inline double top(const Tube& tube) {
  double most = 0;
  for (const auto& [hours, rise] : tube) most = std::max(most, rise);
  return most;
}

/// Hour at which it first rises by so many px, on a line between two rows; 0 where it never does.
inline double reached(const Tube& tube, double rise) {
  for (std::size_t i = 1; i < tube.size(); ++i) {
    const auto& [t0, y0] = tube[i - 1];
    const auto& [t1, y1] = tube[i];
    if (y0 < rise && y1 >= rise) return t0 + (rise - y0) / (y1 - y0) * (t1 - t0);
  }
  return 0;
}

}  // namespace barm
