#include "server/door/page_version.h"

#include <fmt/format.h>

#include "server/door/problem.h"

namespace barm::server {

std::string own_version() { return BARM_VERSION; }

std::optional<Reply> refuse_stale_page(const Request& request) {
  const std::string page = request.header(page_header);
  const bool only_asks = request.method == "GET" || request.method == "HEAD";
  if (page.empty() || page == own_version() || only_asks) return std::nullopt;
  return problem(Refusal::stale_page,
                 fmt::format("this page is of barm {}, and barm {} answers by now; nothing of this "
                             "was saved. Reload the page, then send it again",
                             page.substr(0, 40),
                             own_version()));
}

}  // namespace barm::server
