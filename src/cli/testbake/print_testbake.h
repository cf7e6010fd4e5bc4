#pragma once
#include "cli/paper.h"
#include "service/testbake/show.h"
#include "service/testbake/testbake.h"

namespace barm::cli {

/// A plan with or without what tells which label is which dough.
struct PlanOnPaper {
  const service::TestBakePlan& plan;
  bool key = false;  ///< only the key to the labels
};

void print(Paper& paper, const PlanOnPaper& answer);

/// What can be said before baking, with the numbers underneath if wanted.
struct BeforeOnPaper {
  const service::TestBakeBefore& before;
  bool working = false;
};

void print(Paper& paper, const BeforeOnPaper& answer);

/// A tasting: what the answers say, who gets what, or the sheets the tasters fill in.
struct TasteOnPaper {
  const service::TasteAnswer& taste;
  bool sheets = false;
};

void print(Paper& paper, const TasteOnPaper& answer);

/// The verdict, with the numbers underneath if wanted.
struct AfterOnPaper {
  const service::TestBakeAfter& after;
  bool working = false;
};

void print(Paper& paper, const AfterOnPaper& answer);

/// What to bake next: so many of the candidates.
struct NextOnPaper {
  const service::TestBakeNext& next;
  int most = 8;
};

void print(Paper& paper, const NextOnPaper& answer);
void print(Paper& paper, const service::TestBakeMap& answer);
void print(Paper& paper, const service::TestBakeShow& answer);

}  // namespace barm::cli
