// Every word a person reads on a screen passes through here, so that it can be translated.
#pragma once

#include <string>

namespace ui {

// The words in the language in force; English as written when there is no translation.
const char* words(const char* english);
inline std::string words(const std::string& english) { return words(english.c_str()); }

}  // namespace ui
