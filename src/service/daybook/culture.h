#pragma once
// A culture's memory, asked and taught.
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/result.h"
#include "estimation/culture.h"
#include "service/bake/batch.h"

namespace barm::service {

struct CultureAnswer {
  estimation::Culture culture;
  std::vector<estimation::Difference> differences;
  estimation::LaterByAge by_age;  ///< of the levain
  std::string done;               ///< what was changed, in words; empty when nothing was
};

/// How a culture differs from a typical starter.
[[nodiscard]] CultureAnswer shown(estimation::Culture culture);

/// Errors: not_found, bad_input.
[[nodiscard]] Result<CultureAnswer> show_culture(const std::string& path);

/// What one batch teaches, and the same in words, such as "it copes with alcohol about as well as a
/// typical starter".
struct Taught {
  estimation::BatchLesson lesson;
  std::vector<std::string> words;
};

/// `name`: of the lesson. Errors: those of read(), bad_input when nothing was read.
[[nodiscard]] Result<Taught> taught(const Batch& batch,
                                    const std::string& name,
                                    const forecast::Options& options);

/// What one batch teaches, begun from a typical starter. `batch` is its name; empty: that of the
/// bake and its day. Errors: those of read(), bad_input when nothing was read.
[[nodiscard]] Result<estimation::BatchLesson> lesson(const std::string& bake_path,
                                                     const ReadBeside& beside,
                                                     const std::string& batch,
                                                     const forecast::Options& options);

/// The culture with one batch more, one less, or every batch learned anew from its own files.
/// Errors: those of the files, not_found for the batch, cancelled.
[[nodiscard]] Result<CultureAnswer> learn_culture(estimation::Culture culture,
                                                  const std::string& bake_path,
                                                  const ReadBeside& beside,
                                                  const std::string& batch,
                                                  const forecast::Options& options);
[[nodiscard]] Result<CultureAnswer> leave_out(const estimation::Culture& culture,
                                              const std::string& batch);
[[nodiscard]] Result<CultureAnswer> relearn(const estimation::Culture& culture,
                                            const forecast::Options& options,
                                            const std::function<void(double)>& progress);

/// `barm.culture/2`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const CultureAnswer& answer);

}  // namespace barm::service
