// The one table of keys of a quota file. Reader and format page go through it.
#pragma once

#include "engine/drawing/quota.h"
#include "engine/scenario/fields.h"

#include <string>
#include <vector>

namespace engine {

struct QuotaLanding {
    Quota* quota = nullptr;
};

const std::vector<Field<QuotaLanding>>& quota_table();
// The tables of scenarios/FORMAT.md for quota files, one a section.
std::string quota_format_page();

}  // namespace engine
