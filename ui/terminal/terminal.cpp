#include "ui/terminal/terminal.h"

#include "ui/files.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/figures.h"
#include "ui/terminal/input_output.h"
#include "ui/terminal/option_checks.h"
#include "ui/terminal/passrule.h"

#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>
#include <fmt/format.h>
#include <functional>

namespace ui {
namespace {

// --help of each command ends with one line that can be typed as it stands.
// Numbers of every command must be such: "nan" and "inf" are read as numbers, and nothing can be done with
// them.
std::string not_a_number(const CLI::App& command) {
    for (const CLI::App* below : command.get_subcommands())
        if (std::string fault = not_a_number(*below); !fault.empty()) return fault;
    for (const CLI::Option* option : command.get_options())
        if (option->get_type_name().rfind("FLOAT", 0) == 0)
            for (const std::string& given : option->results())
                if (given.find_first_of("nN") != std::string::npos)
                    return option->get_name() + ", found " + given + ", allowed: a number";
    return "";
}

CLI::App* add(CLI::App& app, const char* name, const char* does, const char* example) {
    CLI::App* command = app.add_subcommand(name, does);
    command->footer(std::string("Example: fullminute ") + example);
    return command;
}

void on_scenario(CLI::App* command, ScenarioOptions& options, bool with_out = true) {
    command->add_option("SCENARIO", options.scenario, "a scenario file, or an id of the library such as c01")
        ->required();
    command->add_option("--seed", options.seed, "0 to 9007199254740991")
        ->check(a_seed())
        ->capture_default_str();
    if (with_out) command->add_option("--out", options.out, "file to write; - is stdout")->required();
}

void with_acts(CLI::App* command, ScenarioOptions& options) {
    command->add_option("--act", options.acts, "\"T NAME\": an act at T seconds; may be given again")
        ->allow_extra_args(false);
}

int run(CLI::App& app, int argc, const char* const* argv,
        const std::function<int(const WindowWords&)>& open_window,
        const std::function<std::vector<WindowFigure>()>& measure_window) {
    WindowWords window;
    app.add_option("--store", window.store, "the store file; default FULLMINUTE_STORE or the data folder");
    app.add_option("--scenario", window.scenario, "chosen beforehand: a file or a library id");
    app.add_option("--protocol", window.protocol, "chosen beforehand: a file or an id");
    app.add_option("--person", window.person, "code of who is here");
    app.add_option("--text-size", window.text_size, "percent")
        ->check(CLI::Range(100, 200))
        ->capture_default_str();
    app.add_option("--width", window.width, "pixels")->check(CLI::Range(1024, 7680))->capture_default_str();
    app.add_option("--height", window.height, "pixels")->check(CLI::Range(700, 4320))->capture_default_str();
    app.add_flag("--fullscreen", window.fullscreen, "fill the screen");
    app.add_option("--screenshot", window.screenshot, "draw the first screen into this PNG file and leave");
    LintOptions lint_options;
    CourseOptions course_options;
    BeatsOptions beats_options;
    SoundOptions sound_options;
    MapOptions map_options;
    KeyOptions key_options;
    AttemptOptions attempt_options;
    ReplayOptions replay_options;
    DebriefOptions debrief_options;
    ProgressOptions progress_options;
    DrawOptions draw_options;
    SheetOptions sheet_options;
    FiguresOptions figures_options;
    PassRuleOptions passrule_options;
    BenchOptions bench_options;
    bench_options.measure_window = measure_window;
    std::function<int()> chosen;

    CLI::App* c = add(app, "lint", "Check scenario and protocol files; every fault with its line",
                      "lint scenarios/library/*.toml scenarios/protocols/*.toml");
    c->add_option("FILE", lint_options.files, "files to check")->required();
    c->add_flag("--json", lint_options.json, "faults as JSON on stdout");
    c->callback([&] { chosen = [&] { return lint(lint_options); }; });

    c = add(app, "course", "The truth over time at 4 Hz: baby's rate, mother's pulse, womb pressure",
            "course p03 --seed 1 --act \"300 off_her_back\" --out course.csv");
    on_scenario(c, course_options);
    with_acts(c, course_options);
    c->callback([&] { chosen = [&] { return course(course_options); }; });

    c = add(app, "beats", "Every heart beat: the answer key of a count",
            "beats c01 --seed 1 --out beats.csv");
    on_scenario(c, beats_options);
    with_acts(c, beats_options);
    c->callback([&] { chosen = [&] { return beats(beats_options); }; });

    c = add(app, "sound", "What reaches the ear, as a WAV file (48 kHz, one channel)",
            "sound c01 --with doppler --at best --from 0 --for 60 --out c01.wav");
    on_scenario(c, sound_options);
    with_acts(c, sound_options);
    c->add_option("--with", sound_options.with, "horn, bell, diaphragm or doppler")->capture_default_str();
    c->add_option("--at", sound_options.at, "X,Y in centimetres from the navel, or best")
        ->capture_default_str();
    c->add_option("--press", sound_options.press_n, "newtons, 0 to 30")->capture_default_str();
    c->add_option("--from", sound_options.from_s, "seconds from the start")->capture_default_str();
    c->add_option("--for", sound_options.for_s, "seconds to write")->capture_default_str();
    c->add_option("--mode", sound_options.mode, "true, assisted or shifted")->capture_default_str();
    c->add_option("--events", sound_options.events,
                  "an events file: what was heard in that attempt, instead of --with, --at, --press");
    c->add_flag("--float", sound_options.float_samples, "32-bit float samples");
    c->add_flag("--json", sound_options.json, "place and level as JSON on stdout");
    c->callback([&] { chosen = [&] { return sound(sound_options); }; });

    c = add(app, "map", "Loudness of the baby over the abdomen, and the best spot",
            "map f03 --with doppler --out f03.png --json");
    on_scenario(c, map_options, false);
    with_acts(c, map_options);
    c->add_option("--with", map_options.with, "horn, bell, diaphragm or doppler")->capture_default_str();
    c->add_option("--from", map_options.from_s, "seconds from the start")->capture_default_str();
    c->add_option("--out", map_options.out, "a .csv or .png file; - is CSV on stdout");
    c->add_flag("--json", map_options.json, "the best spot as JSON on stdout");
    c->callback([&] { chosen = [&] { return map(map_options); }; });

    c = add(app, "key", "The computed answer: baseline, decision, expected acts, and why",
            "key p03 --protocol who-2018 --from 0 --for 300 --json");
    on_scenario(c, key_options, false);
    c->add_option("--protocol", key_options.protocol, "a protocol file or id; default who-2018");
    c->add_option("--from", key_options.from_s, "only what could be heard from here")
        ->check(seconds_long(true));
    c->add_option("--for", key_options.for_s, "... for so many seconds")->check(seconds_long(false));
    c->add_flag("--json", key_options.json, "as JSON");
    c->callback([&] { chosen = [&] { return key(key_options); }; });

    c = add(app, "attempt", "Play a list of timed events with no window, and judge it",
            "attempt p03 --events scenarios/walk.json --out attempt.json");
    on_scenario(c, attempt_options, false);
    c->add_option("--events", attempt_options.events, "a JSON array of events")->required();
    c->add_option("--protocol", attempt_options.protocol, "a protocol file or id; default who-2018");
    c->add_option("--person", attempt_options.person, "code of the trainee")->capture_default_str();
    c->add_option("--mode", attempt_options.mode, "true, assisted or shifted")->capture_default_str();
    c->add_option("--out", attempt_options.out, "the attempt with its score sheet; - is stdout");
    c->add_flag("--json", attempt_options.json, "score and hashes as JSON on stdout");
    c->callback([&] { chosen = [&] { return attempt(attempt_options); }; });

    c = add(app, "replay", "Recompute attempts; 1 when a score differs", "replay attempt.json");
    c->add_option("ATTEMPT", replay_options.files, "attempt files")->required();
    c->add_flag("--json", replay_options.json, "as JSON");
    c->callback([&] { chosen = [&] { return replay(replay_options); }; });

    c = add(app, "debrief", "The debrief of an attempt as a page", "debrief attempt.json --out debrief.pdf");
    c->add_option("ATTEMPT", debrief_options.attempt, "an attempt file")->required();
    c->add_option("--out", debrief_options.out, "a .pdf, .svg or .png file")->required();
    c->callback([&] { chosen = [&] { return debrief(debrief_options); }; });

    c = add(app, "progress", "How one person's counts stand: agreement, learning, what to practise next",
            "progress --who st-07 --out progress.pdf");
    c->add_option("--who", progress_options.who, "code of the person")->required();
    c->add_option("--store", progress_options.store,
                  "the store file; default FULLMINUTE_STORE or the data folder");
    c->add_option("--method", progress_options.method_s,
                  "counts over so many seconds; default: those there are most of")
        ->check(CLI::Range(1, 600));
    c->add_option("--mode", progress_options.mode, "true, assisted or shifted; default: the one used most");
    c->add_option("--out", progress_options.out, "the page: a .pdf, .svg or .png file");
    c->add_flag("--json", progress_options.json, "as JSON on stdout");
    c->callback([&] { chosen = [&] { return progress(progress_options); }; });

    CLI::App* scenarios =
        add(app, "scenario", "Draw new scenarios; see many at once", "scenario draw --help");
    scenarios->require_subcommand(1);
    c = add(*scenarios, "draw", "New scenarios from a quota file and a seed, each with its own answer key",
            "scenario draw --quota first-week --seed 7 --out drawn");
    c->add_option("--quota", draw_options.quota,
                  "a quota file, or an id of scenarios/quotas such as first-week")
        ->required();
    c->add_option("--seed", draw_options.seed, "0 to 9007199254740991")
        ->check(a_seed())
        ->capture_default_str();
    c->add_option("--out", draw_options.out, "folder for the files; made when it is missing")->required();
    c->add_option("--protocol", draw_options.protocol,
                  "whose limits and key; a file or id; default who-2018");
    c->add_flag("--json", draw_options.json, "what each one is, as JSON on stdout");
    c->callback([&] { chosen = [&] { return scenario_draw(draw_options); }; });

    c = add(*scenarios, "sheet",
            "Course, beats, sound and loudness of scenarios on one sheet: for authors, never trainees",
            "scenario sheet scenarios/library --seed 1 --out sheet.pdf");
    c->add_option("FILE", sheet_options.files, "scenario files or library ids; a folder: twelve of it")
        ->required();
    c->add_option("--seed", sheet_options.seed, "0 to 9007199254740991")
        ->check(a_seed())
        ->capture_default_str();
    c->add_option("--from", sheet_options.from_s,
                  "start of the minute shown, in seconds; default: where the rate differs most")
        ->check(seconds_long(true));
    c->add_option("--protocol", sheet_options.protocol,
                  "whose limits and key; a file or id; default who-2018");
    c->add_option("--out", sheet_options.out, "a .pdf, .svg or .png file")->required();
    c->add_flag("--json", sheet_options.json, "what was measured, as JSON on stdout");
    c->callback([&] { chosen = [&] { return scenario_sheet(sheet_options); }; });

    add_figures(app, figures_options, chosen);
    add_passrule(app, passrule_options, chosen);

    c = add(app, "bench", "Speed and memory against the budgets", "bench --json");
    c->add_flag("--json", bench_options.json, "as JSON");
    c->add_flag("--strict", bench_options.strict, "exit 1 when a budget is missed");
    c->add_flag("--quick", bench_options.quick, "a tenth of the work: rougher figures");
    c->callback([&] { chosen = [&] { return bench(bench_options); }; });

    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForHelp&) {
        fmt::print("{}", app.help());
        return fine;
    } catch (const CLI::CallForVersion&) {
        fmt::print("fullminute {}\n", program_version());
        return fine;
    } catch (const CLI::ParseError& error) {
        std::string one_line = error.what();
        for (char& letter : one_line)
            if (letter == '\n') letter = ' ';
        fmt::print(stderr, "fullminute: {} (fullminute --help lists the commands)\n", one_line);
        return bad_input;
    }
    for (const CLI::App* command : app.get_subcommands())
        if (const std::string fault = not_a_number(*command); !fault.empty()) {
            fmt::print(stderr, "{}\n", fault);
            return bad_input;
        }
    if (chosen) return chosen();
    if (open_window) return open_window(window);
    fmt::print(stderr, "fullminute: built without the window; allowed: a command (fullminute --help)\n");
    return bad_input;
}

}  // namespace

int run_terminal(int argc, const char* const* argv, const std::function<int(const WindowWords&)>& open_window,
                 const std::function<std::vector<WindowFigure>()>& measure_window) {
    CLI::App app(
        "Fullminute: practise counting the baby's heart by ear on labours whose truth is known.\n"
        "Without a command it opens the window. For learning only: local protocol decides.",
        "fullminute");
    app.set_version_flag("--version", "fullminute " + program_version());
    app.require_subcommand(0, 1);
    app.failure_message([](const CLI::App*, const CLI::Error& error) { return std::string(error.what()); });
    try {
        return run(app, argc, argv, open_window, measure_window);
    } catch (const Refused& refused) {
        print_faults(refused.faults);
        return bad_input;
    } catch (const std::exception& error) {  // a library's own complaint: still one line, never a crash
        fmt::print(stderr, "fullminute: {}\n", error.what());
        return bad_input;
    }
}

}  // namespace ui
