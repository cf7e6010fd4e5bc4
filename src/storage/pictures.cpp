#include "storage/internal/columns.h"
#include "storage/internal/connection.h"
#include "storage/internal/epoch.h"
#include "storage/internal/picture.h"
#include "storage/internal/saving.h"
#include "storage/internal/trash.h"

namespace barm::storage {

using internal::refuse;

namespace {

std::string blob(Daybook::Connection& connection, const char* column, const std::string& photo) {
  SQLite::Statement& statement =
      connection.statement(std::string("SELECT ") + column + " FROM picture WHERE photo = ?");
  statement.bind(1, photo);
  if (!statement.executeStep())
    refuse(ErrorCode::not_found, "photo " + photo, "there is no such picture");
  const SQLite::Column bytes = statement.getColumn(0);
  std::string copy(static_cast<const char*>(bytes.getBlob()),
                   static_cast<std::size_t>(bytes.getBytes()));
  statement.reset();
  return copy;
}

// The picture of that id that is kept already; nothing when there is none. Errors: another one.
std::optional<Photo> sent_again(Daybook::Connection& connection,
                                const std::string& id,
                                const internal::Pictures& pictures) {
  auto stored = internal::find<Photo>(connection, id);
  if (stored && blob(connection, "picture", id) != pictures.picture)
    refuse(ErrorCode::conflict,
           "photo " + id,
           "is another picture; send this one under an id of its own");
  return stored;
}

Photo insert(Daybook::Connection& connection,
             Photo photo,
             const internal::Pictures& pictures,
             time::Instant now) {
  if (photo.id.empty()) photo.id = internal::new_id();
  const auto wrong = internal::wrong_with(photo);
  if (wrong) throw internal::LeaveTransaction{*wrong};
  if (auto kept = sent_again(connection, photo.id, pictures)) return *kept;
  photo.revision = internal::next_revision(connection, 0);
  photo.saved_at = now;
  photo.deleted_at.reset();
  internal::bring_owners_back(connection, photo, now);
  internal::write_new_revision(connection, photo);
  internal::write_picture(connection, photo.id, pictures.picture, pictures.thumbnail);
  return photo;
}

}  // namespace

namespace internal {

void write_picture(Daybook::Connection& connection,
                   const std::string& photo,
                   const std::string& picture,
                   const std::string& thumbnail) {
  SQLite::Statement& statement =
      connection.statement("INSERT INTO picture (photo, picture, thumbnail) VALUES (?, ?, ?)");
  statement.bind(1, photo);
  statement.bind(2, picture.data(), static_cast<int>(picture.size()));
  statement.bind(3, thumbnail.data(), static_cast<int>(thumbnail.size()));
  statement.exec();
}

}  // namespace internal

Result<Photo> Daybook::add_photo(Photo photo, const std::string& bytes, time::Instant now) {
  auto pictures = internal::make_pictures(bytes);
  if (!pictures) return failure(pictures);
  photo.width_px = pictures->width;
  photo.height_px = pictures->height;
  photo.size_bytes = static_cast<std::int64_t>(pictures->picture.size());
  return internal::written(*connection_,
                           [&] { return insert(*connection_, photo, *pictures, now); });
}

Result<std::string> Daybook::picture(const std::string& photo) {
  return internal::guarded(*connection_, [&] { return blob(*connection_, "picture", photo); });
}

Result<std::string> Daybook::thumbnail(const std::string& photo) {
  return internal::guarded(*connection_, [&] { return blob(*connection_, "thumbnail", photo); });
}

}  // namespace barm::storage
