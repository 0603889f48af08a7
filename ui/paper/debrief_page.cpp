#include "ui/paper/debrief_page.h"

#include "ui/canvas/surface.h"

namespace ui {

engine::Outcome<engine::Done> write_debrief(const engine::JudgedAttempt& judged, const std::string& path) {
    PageMade made;
    made.title = "Debrief: " + judged.scenario.title;
    return write_pages(path, made, {[&](Canvas& canvas) {
                           canvas.text({40, 60}, made.title, {.size = TypeScale::title, .bold = true});
                       }});
}

}  // namespace ui
