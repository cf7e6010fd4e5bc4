#pragma once
#include <string_view>
#include <vector>

#include "formula/bottle.h"
#include "formula/document.h"

namespace barm::formula {

/// The ingredients a bake file can name: its own, then the larder's, each under its own label.
class Shelf {
 public:
  /// From the [ingredient], [bottle] and [prepared] tables; each may be nullptr.
  Shelf(const Node* ingredients, const Node* bottles, const Node* prepared = nullptr);

  /// The ingredient of that name with its label; stops with near names.
  [[nodiscard]] Labelled take(std::string_view words, const FilePlace& place);

  /// Stops at the first bottle or prepared drink that was never taken.
  void check_all_taken() const;

 private:
  /// A labelled thing of the file under its name.
  struct Bottle {
    Labelled labelled;
    std::string written;
    FilePlace place;
    bool taken = false;
  };

  [[nodiscard]] const larder::Ingredient& look_up(std::string_view words,
                                                  const FilePlace& place) const;
  [[nodiscard]] larder::Ingredient own_ingredient(const Entry& entry) const;

  [[nodiscard]] static Bottle* named(std::vector<Bottle>& among, std::string_view key);

  std::vector<larder::Ingredient> own_;
  std::vector<Bottle> bottles_;
  std::vector<Bottle> prepared_;
};

}  // namespace barm::formula
