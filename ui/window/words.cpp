#include "ui/window/words.h"

#include <libintl.h>

namespace ui {

const char* words(const char* english) {
    // gettext gives the catalogue's header for the empty string.
    return *english == '\0' ? english : dgettext("fullminute", english);
}

}  // namespace ui
