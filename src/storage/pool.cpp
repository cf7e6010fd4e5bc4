#include "storage/pool.h"

namespace barm::storage {

void Pool::Return::operator()(Daybook* daybook) const {
  std::unique_ptr<Daybook> owned(daybook);
  if (pool_ == nullptr) return;
  const std::scoped_lock lock(pool_->mutex_);
  pool_->saving_ = owned->saving().value_or(pool_->saving_);
  owned->forget_saving();
  if (!owned->may_write()) return;
  pool_->idle_.push_back(std::move(owned));
}

Result<Pool::Lease> Pool::lease() {
  {
    const std::scoped_lock lock(mutex_);
    if (!idle_.empty()) {
      std::unique_ptr<Daybook> daybook = std::move(idle_.back());
      idle_.pop_back();
      return Lease(daybook.release(), Return(this));
    }
  }
  auto opened = Daybook::open(path_, opening_);
  if (!opened) return failure(opened);
  return Lease(new Daybook(std::move(*opened)), Return(this));
}

Saving Pool::saving() const {
  const std::scoped_lock lock(mutex_);
  return saving_;
}

}  // namespace barm::storage
