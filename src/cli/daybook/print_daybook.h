#pragma once
#include "cli/paper.h"
#include "service/daybook/daybook.h"
#include "service/daybook/view.h"

namespace barm::cli {

void print(Paper& paper, const service::TodayAnswer& answer);
void print(Paper& paper, const service::BakesAnswer& answer);
void print(Paper& paper, const service::BakeView& view);
void print(Paper& paper, const service::EquipmentAnswer& answer);
void print(Paper& paper, const service::TrashAnswer& answer);
void print(Paper& paper, const service::Done& done);
void print(Paper& paper, const service::CheckAnswer& answer);

/// That an oven, a fridge or a mixer was kept; nothing where it was not.
void print_kept(Paper& paper, const std::optional<storage::Equipment>& kept);

}  // namespace barm::cli
