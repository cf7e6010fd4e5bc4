#pragma once
// The records of a daybook, all kinds alike: listed, saved, put into the trash and taken out again;
// and the pictures of photos.
#include <cstdint>
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <utility>

#include "server/door/router.h"
#include "storage/pool.h"

namespace barm::server {

/// What is told to who comes with a revision or a number of before a copy was put back.
[[nodiscard]] nlohmann::json restored_document(std::int64_t epoch);

/// Must outlive the router.
class RecordRoutes {
 public:
  /// `open` throws Refused where no daybook is open; `written` is told of every change.
  RecordRoutes(std::function<storage::Pool::Lease()> open,
               std::int64_t epoch,
               std::function<void()> written)
      : open_(std::move(open)), epoch_(epoch), written_(std::move(written)) {}

  void add_to(Router& router);

 private:
  void add_kind(Router& router, storage::Kind kind);
  void add_photos(Router& router);
  [[nodiscard]] Reply list(storage::Kind kind, const Request& request) const;
  [[nodiscard]] Reply save(storage::Kind kind,
                           const Request& request,
                           const std::string& id,
                           int status) const;
  [[nodiscard]] Reply remove(storage::Kind kind,
                             const Request& request,
                             const std::string& id) const;
  [[nodiscard]] Reply add_photo(const Request& request) const;
  [[nodiscard]] Reply changed(storage::Daybook& daybook,
                              const Result<storage::Change>& change) const;
  [[nodiscard]] Reply refuse(storage::Daybook& daybook,
                             storage::Kind kind,
                             const nlohmann::json& sent,
                             const Error& error) const;

  std::function<storage::Pool::Lease()> open_;
  std::int64_t epoch_;
  std::function<void()> written_;
};

}  // namespace barm::server
