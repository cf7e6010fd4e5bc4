#pragma once
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "storage/daybook.h"

namespace barm::storage {

/// Connections to one daybook, shared out to threads: each thread has one for as long as it holds
/// the lease. One that may only read is not kept, so that the next finds out whether that is still
/// so. May be called from any thread.
class Pool {
 public:
  Pool(std::string path, Opening opening) : path_(std::move(path)), opening_(opening) {}

  /// A connection that goes back to the pool when the pointer ends. Errors: as Daybook::open.
  class Return {
   public:
    explicit Return(Pool* pool = nullptr) : pool_(pool) {}

    void operator()(Daybook* daybook) const;

   private:
    Pool* pool_;
  };

  using Lease = std::unique_ptr<Daybook, Return>;

  [[nodiscard]] Result<Lease> lease();

  /// How the last attempt to save went, by whichever thread.
  [[nodiscard]] Saving saving() const;

 private:
  std::string path_;
  Opening opening_;
  mutable std::mutex mutex_;
  Saving saving_ = Saving::goes_on;
  std::vector<std::unique_ptr<Daybook>> idle_;
};

}  // namespace barm::storage
