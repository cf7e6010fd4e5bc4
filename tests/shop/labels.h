#pragma once
// What the tests of the label start from.
#include <string>

#include "formula/read.h"
#include "shop/bakes.h"
#include "shop/label.h"

namespace barm::test {

/// The loaf as published: nothing fermented, a third of the alcohol kept.
inline shop::LoafDraw book_loaf(const formula::Bake& of) {
  shop::LoafDraw draw;
  draw.settled = formula::settle(of).value();
  draw.bowl = formula::in_the_bowl(of, draw.settled).value();
  draw.baked.loss = of.bake_loss;
  return draw;
}

inline shop::Label labelled(const std::string& text,
                            shop::Law law = shop::Law::eu,
                            Mass portion = Mass()) {
  const formula::Bake of = bake(text);
  return shop::label(of, book_loaf(of), {}, {law, portion, of.label});
}

/// Two loaves of 1000 g of white flour and these lines, a tenth lost in the oven.
inline std::string loaf(const std::string& name,
                        const std::string& lines,
                        const std::string& tables = "") {
  return "name = \"" + name +
         "\"\npieces = 2\nloss = { handling = \"0 %\", bake = \"10 %\" }\n[bowl]\n"
         "\"white bread flour\" = \"1000 g\"\n" +
         lines + tables;
}

inline std::string list_of(const shop::Label& label) {
  return shop::plain(label.ingredients.text, true);
}

inline const shop::LabelLine* line_of(const shop::Label& label, const std::string& field) {
  for (const shop::LabelLine& one : label.lines) {
    if (one.field == field) return &one;
  }
  return nullptr;
}

/// Every question, one a line: "fining: Was the …".
inline std::string questions_of(const shop::Label& label) {
  std::string all;
  for (const shop::LabelLine& one : label.questions)
    all += one.field + ": " + shop::plain(one.text) + "\n";
  return all;
}

}  // namespace barm::test
