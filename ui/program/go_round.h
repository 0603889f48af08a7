// Which screen comes after which: door, bedside, debrief, and round again.
#pragma once

#include "engine/outcome.h"
#include "engine/store/journal.h"
#include "engine/store/store.h"
#include "ui/bedside/session.h"
#include "ui/door/door.h"
#include "ui/sound/device.h"
#include "ui/window/screen.h"

#include <functional>
#include <memory>

namespace ui {

// Shows one screen until it wants to leave; Leave::quit ends the round. Window::show, or a test's own driver.
using Show = std::function<Leave(Screen&)>;

void go_round(const Show& show, DoorWish wish, Shelf& shelf, SoundDevice& device, engine::Store& store,
              engine::Journal& journal);

// The attempt that was wished for at the door, begun or brought back.
engine::Outcome<std::unique_ptr<Session>> sit_down(const DoorWish& wish, SoundDevice& device,
                                                   engine::Store& store, engine::Journal& journal);

}  // namespace ui
