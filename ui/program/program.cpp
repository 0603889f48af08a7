#include "ui/program/program.h"

#include "ui/program/go_round.h"

#include "engine/store/journal.h"
#include "engine/store/store.h"
#include "ui/bedside/bedside.h"
#include "ui/debrief/debrief_screen.h"
#include "ui/door/door.h"
#include "ui/files.h"
#include "ui/library.h"
#include "ui/progress/progress_screen.h"
#include "ui/sound/device.h"
#include "ui/window/window.h"

#include <cstdio>
#include <cstdlib>

namespace ui {
namespace {

int refuse(const std::string& why) {
    std::fprintf(stderr, "fullminute: %s\n", why.c_str());
    return 2;
}

bool headless() {
    const char* driver = std::getenv("SDL_VIDEODRIVER");
    if (driver != nullptr && *driver != '\0') return false;
    return std::getenv("DISPLAY") == nullptr && std::getenv("WAYLAND_DISPLAY") == nullptr;
}

std::string mode_name(sim::OutputMode mode) {
    switch (mode) {
        case sim::OutputMode::assisted: return "assisted";
        case sim::OutputMode::shifted: return "shifted";
        default: return "true";
    }
}

}  // namespace

engine::Outcome<std::unique_ptr<Session>> sit_down(const DoorWish& wish, SoundDevice& device,
                                                   engine::Store& store, engine::Journal& journal) {
    if (wish.resume) return Session::resume(*wish.resume, device, journal);
    auto scenario = engine::read_scenario_file(wish.scenario);
    if (!scenario) return scenario.faults();
    auto protocol = engine::read_protocol_file(wish.protocol);
    if (!protocol) return protocol.faults();
    auto person = store.person(wish.person);
    if (!person) return person.faults();
    engine::AttemptHeader header;
    header.id = new_id();
    header.person = *person;
    header.scenario_id = scenario->id;
    header.scenario_sha256 = scenario->sha256;
    header.protocol_id = protocol->id;
    header.protocol_sha256 = protocol->sha256;
    header.seed = new_seed();
    header.program = program_version();
    header.output_mode = mode_name(wish.mode);
    header.device_delay_s = device.delay_s();
    auto session = std::make_unique<Session>(header, std::move(scenario).value(), std::move(protocol).value(),
                                             device, journal);
    session->start();
    return session;
}

namespace {

// Shows the progress of the person of the wish. `on`: a labour was chosen there and is now the wish's.
Leave show_progress(const Show& show, DoorWish& wish, engine::Store& store, std::string& said) {
    auto counts = store.counts(wish.person);
    if (!counts) {
        said = engine::in_one_line(counts.faults().front());
        return Leave::back;
    }
    ProgressScreen progress(wish.person, std::move(counts).value(), library_labours());
    const Leave leave = show(progress);
    if (leave == Leave::on) wish.scenario = progress.chosen_path();
    return leave;
}

}  // namespace

void go_round(const Show& show, DoorWish wish, Shelf& shelf, SoundDevice& device, engine::Store& store,
              engine::Journal& journal) {
    std::string said;
    bool at_door = true;
    for (;;) {
        if (at_door) {
            DoorScreen door(wish, shelf, device, journal);
            door.say(said);
            said.clear();
            const Leave from_door = show(door);
            wish = door.wish();
            if (from_door == Leave::progress) {
                if (show_progress(show, wish, store, said) == Leave::quit) return;
                continue;
            }
            if (from_door != Leave::on) return;
        }
        auto session = sit_down(wish, device, store, journal);
        at_door = true;
        if (!session) {
            said = engine::in_one_line(session.faults().front());
            wish.resume.reset();
            continue;
        }
        const bool resumed = wish.resume.has_value();
        const std::string sat_with = (*session)->header().scenario_id;
        BedsideScreen bedside(std::move(session).value(), store, resumed);
        wish.resume.reset();
        const Leave from_bedside = show(bedside);
        if (from_bedside == Leave::quit) {
            // The journal has every event: the door offers the attempt the next time.
            if (!bedside.judged()) journal.remark(bedside.session().header().id, "pause: window closed");
            device.stop();
            return;
        }
        if (!bedside.judged()) {
            device.stop();
            continue;
        }
        Leave from_debrief = Leave::stay;
        for (;;) {
            DebriefScreen debrief(*bedside.judged(), device);
            from_debrief = show(debrief);
            device.stop();
            if (from_debrief != Leave::progress) break;
            wish.person = bedside.judged()->attempt.header.person;
            from_debrief = show_progress(show, wish, store, said);
            if (from_debrief != Leave::back) break;
        }
        if (from_debrief == Leave::quit) return;
        if (from_debrief == Leave::same_again) {
            if (const std::string path = scenario_path(sat_with); !path.empty()) wish.scenario = path;
            at_door = wish.scenario.empty();
        }
        if (from_debrief == Leave::another) {
            wish.after = scenario_path(sat_with);
            wish.scenario.clear();
        }
    }
}

int run_window(const WindowOptions& options) {
    // SDL would try the console itself when it runs as root.
    if (headless()) return refuse("no screen to open a window on (DISPLAY is not set)");
    std::string fault;
    WindowLook look;
    look.width = options.width;
    look.height = options.height;
    look.fullscreen = options.fullscreen;
    look.text_size = options.text_size;
    const auto window = Window::open(look, fault);
    if (!window) return refuse(fault);
    const std::string where = store_path(options.store);
    auto store = engine::Store::open(where);
    if (!store) return refuse(engine::in_one_line(store.faults().front()));
    auto journal = engine::Journal::open(journal_path(where));
    if (!journal) return refuse(engine::in_one_line(journal.faults().front()));
    SoundDevice device;
    Shelf shelf(data_folder() + "/scenarios/library");

    DoorWish wish;
    wish.person = options.person;
    wish.protocol = protocol_path(options.protocol);
    if (wish.protocol.empty())
        return refuse("--protocol, found " + options.protocol + ", allowed: a protocol file, or an id from " +
                      data_folder() + "/scenarios/protocols");
    if (!options.scenario.empty()) {
        wish.scenario = scenario_path(options.scenario);
        if (wish.scenario.empty())
            return refuse("--scenario, found " + options.scenario +
                          ", allowed: a scenario file, or an id from " + data_folder() +
                          "/scenarios/library");
        if (shelf.read_now(wish.scenario, fault) < 0) return refuse(fault);
    }
    if (options.once) {
        DoorScreen door(wish, shelf, device, **journal);
        for (int i = 0; i < 40; ++i) window->step(door);
        if (!options.screenshot.empty() && !window->screenshot(options.screenshot))
            return refuse(options.screenshot + ": cannot be written");
        return 0;
    }
    go_round([&window](Screen& screen) { return window->show(screen); }, wish, shelf, device, **store,
             **journal);
    return 0;
}

}  // namespace ui
