#include <filesystem>
#include <utility>

#include "formula/read.h"
#include "service/day/file.h"

namespace barm::service {

Result<DayFile> read_day(const std::string& path, const time::Zone& zone) {
  const auto text = formula::read_text(path);
  if (!text) return failure(text);
  return parse_day(*text, path, zone, [&](const std::string& name, const FilePlace&) {
    auto bake = formula::read_bake((std::filesystem::path(path).parent_path() / name).string());
    if (!bake) return Result<KnownBake>(failure(bake));
    auto batch = batch_of(*std::move(bake), {});
    if (!batch) return Result<KnownBake>(failure(batch));
    return Result<KnownBake>(KnownBake{*std::move(batch), ""});
  });
}

}  // namespace barm::service
