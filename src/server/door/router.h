#pragma once
// Which handler answers which method and path.
#include <cstddef>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "server/wire/exchange.h"

namespace barm::server {

/// What stands in the braces of a route's path, by name.
using Parts = std::map<std::string, std::string>;

using Handler = std::function<Reply(const Request&, const Parts&)>;

/// One thing that may be asked.
struct Route {
  std::string method;
  std::string path;  ///< "/api/bakes/{id}/undo"
  Handler handler;
  bool open = false;                    ///< also for those who are not paired
  std::vector<std::string> takes = {};  ///< media types of the body; empty: no body
  std::size_t most_bytes = 1'000'000;   ///< of the body
  bool heavy = false;                   ///< its handler takes a turn, and may wait for it
  bool kept = true;  ///< of a GET: a browser may keep the answer for when the line is down
};

/// The routes. Filled before the server starts, then only read.
class Router {
 public:
  void add(Route route);

  [[nodiscard]] const std::vector<Route>& routes() const { return routes_; }

  struct Found {
    const Route* route = nullptr;  ///< none: see `methods`
    Parts parts;
    std::vector<std::string> methods;  ///< with which the path could be asked; empty: no such path
  };

  [[nodiscard]] Found find(std::string_view method, std::string_view path) const;

 private:
  std::vector<Route> routes_;
};

}  // namespace barm::server
