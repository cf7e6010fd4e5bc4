#pragma once
// A test bake to be shown: pictures and one self-contained page.
#include <optional>
#include <string>
#include <vector>

#include "drawing/picture.h"
#include "service/testbake/testbake.h"

namespace barm::service {

/// The shape of a picture: 1600 x 900, 1080 x 1080 or 900 x 1600.
enum class Format { wide, square, tall };

/// One picture with a name for its file and words for who cannot see it.
struct Drawn {
  std::string name;   ///< "curves"
  std::string title;  ///< "How the doughs rose"
  drawing::Picture picture;
};

/// The curves of all doughs on one picture: readings as dots, the fitted course as lines.
[[nodiscard]] Drawn curves_picture(const TestBakeAfter& after, Format format);

/// The weight of each cause as bars.
[[nodiscard]] Drawn causes_picture(const TestBakeAfter& after, Format format);

/// Speed against dose with the fitted curve.
[[nodiscard]] Drawn dose_picture(const TestBakeAfter::DoseAnswer& dose, Format format);

/// The reach map with its lines of 1 in 4, 1 in 2 and 9 in 10.
[[nodiscard]] Drawn map_picture(const TestBakeMap& map, Format format);

/// The working as on a whiteboard: what is weighed for each dough and what it differs in.
[[nodiscard]] Drawn whiteboard_picture(const TestBakePlan& plan, Format format);

struct ShowRequest {
  bool remarks = false;  ///< show the private remark
  bool prices = false;   ///< show what the drinks cost
  std::optional<std::vector<testbakes::Watched>> observed = std::nullopt;  ///< of no file
};

/// A page that stands alone: no scripts, no pictures or styles from elsewhere, with schema.org
/// Recipe for each dough as JSON-LD. Without readings it shows the plan alone.
[[nodiscard]] std::string testbake_page(const TestBakePlan& plan,
                                        const std::optional<TestBakeAfter>& after,
                                        const std::optional<TestBakeMap>& map,
                                        const ShowRequest& request);

/// Everything `barm testbake show` writes: file names with their bytes.
struct ShownFile {
  std::string name;
  std::string bytes;
};

struct TestBakeShow {
  std::vector<ShownFile> files;  ///< page.html first
  std::string folder;            ///< where they were written; filled by whoever writes
};

/// Errors: as testbake_plan(), testbake_after() where the file names readings, testbake_map().
[[nodiscard]] Result<TestBakeShow> testbake_show(const testbakes::TestBake& test,
                                                 const ShowRequest& request,
                                                 const testbakes::VerdictOptions& options = {});

[[nodiscard]] nlohmann::json to_json(const TestBakeShow& answer);

}  // namespace barm::service
