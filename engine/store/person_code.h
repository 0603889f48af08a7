// A person is a code, never a name: [A-Za-z0-9._-]{1,24}, the same person whatever the case.
#pragma once

#include "engine/outcome.h"

#include <optional>
#include <string>
#include <string_view>

namespace engine {

// None when the code may be used.
std::optional<Fault> wrong_person_code(std::string_view code);
// Lower case by bytes, the same in every locale: equal folded codes are one person.
std::string folded(std::string_view code);

}  // namespace engine
