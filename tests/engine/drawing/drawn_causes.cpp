// What lies behind a drawn trouble: by cause, and how many answer to nothing.
#include "tests/engine/drawing/drawn.h"

using namespace drawn;

TEST_CASE("A third or more of drawn troubles that move the rate answer to nothing", "[drawn]") {
    const auto drawn = drawn_from(
        quota_of("scenarios = 24\nnormal = \"25 %\"\n[tasks]\nlabour = \"75 %\"\npattern = \"25 %\"\n"
                 "[when_not_normal]\nlate = \"40 %\"\nvariable = \"20 %\"\nprolonged = \"40 %\"\n"),
        5);
    int movers = 0, to_nothing = 0;
    for (const DrawnScenario& one : drawn) {
        if (one.asked.what.is_normal()) continue;
        const Scenario s = read_scenario(one.text, one.id + ".toml").value();
        ++movers;
        if (s.middle.cause.answer == 0) ++to_nothing;
    }
    CHECK(movers == 18);
    CHECK(to_nothing * 3 >= movers);
    CHECK(to_nothing < movers);
}

TEST_CASE("Asked for by cause: of 12 fast ones 6 have fever, 3 a medicine, 3 nothing that is found",
          "[drawn]") {
    const auto drawn = drawn_from(
        quota_of("scenarios = 24\n[levels]\n3 = \"50 %\"\n4 = \"50 %\"\n[when_not_normal]\nfast = \"100 %\"\n"
                 "[causes]\nfever = \"50 %\"\nmothers_medicine = \"25 %\"\nnone_found = \"25 %\"\n"),
        6);
    std::map<std::string_view, int> asked;
    std::map<sim::Trouble, int> in_file;
    for (const DrawnScenario& one : drawn) {
        ++asked[one.asked.what.word(Axis::cause)];
        ++in_file[read_scenario(one.text, one.id + ".toml").value().middle.cause.trouble];
    }
    CHECK(asked["-"] == 12);
    CHECK(asked["fever"] == 6);
    CHECK(asked["mothers_medicine"] == 3);
    CHECK(asked["none_found"] == 3);
    CHECK(in_file[sim::Trouble::fever] == 6);
    CHECK(in_file[sim::Trouble::mothers_medicine] == 3);
    CHECK(in_file[sim::Trouble::none] == 15);
}

TEST_CASE("Every cause that can be asked is drawn, is in the file, and by the key what was asked",
          "[drawn]") {
    const std::pair<const char*, const char*> asked[] = {
        {"lying_flat", "late"},    {"cord_pressure", "variable"},   {"cord_prolapse", "prolonged"},
        {"bleeding", "prolonged"}, {"scar_gives_way", "prolonged"}, {"too_many_contractions", "late"},
        {"fever", "fast"},         {"mothers_medicine", "fast"},    {"none_found", "slow"}};
    std::uint64_t seed = 40;
    for (const auto& [why, what] : asked) {
        INFO(why);
        const auto drawn =
            drawn_from(quota_of("scenarios = 4\nnormal = \"0 %\"\n[levels]\n4 = \"100 %\"\n"
                                "[when_not_normal]\n" +
                                std::string(what) + " = \"100 %\"\n[causes]\n" + why + " = \"100 %\"\n"),
                       seed);
        all_of_them(drawn, seed);
        for (const DrawnScenario& one : drawn) CHECK(one.asked.what.word(Axis::cause) == why);
        ++seed;
    }
}

TEST_CASE("to_nothing: of 9 that move the rate 0 % are none, 50 % are 5, 100 % all; a third unasked is 3",
          "[drawn]") {
    for (const auto& [line, wanted] : {std::pair{"", 3},
                                       {"to_nothing = \"0 %\"\n", 0},
                                       {"to_nothing = \"50 %\"\n", 5},
                                       {"to_nothing = \"100 %\"\n", 9}}) {
        const auto drawn = drawn_from(
            quota_of(std::string("scenarios = 12\nnormal = \"25 %\"\n") + line +
                     "[tasks]\nlabour = \"75 %\"\npattern = \"25 %\"\n"
                     "[when_not_normal]\nlate = \"40 %\"\nvariable = \"20 %\"\nprolonged = \"40 %\"\n"
                     "[causes]\nlying_flat = \"40 %\"\ncord_pressure = \"20 %\"\ncord_prolapse = \"40 %\"\n"),
            5);
        int to_nothing = 0;
        for (const DrawnScenario& one : drawn)
            to_nothing += read_scenario(one.text, one.id + ".toml").value().middle.cause.answer == 0 ? 1 : 0;
        INFO(line);
        CHECK(to_nothing == wanted);
    }
}

TEST_CASE("A scar that gives way and a cause not found answer to nothing whatever is asked", "[drawn]") {
    // They have no row among the measures of the body.
    const auto drawn = drawn_from(
        quota_of("scenarios = 8\nnormal = \"0 %\"\nto_nothing = \"0 %\"\n[tasks]\nlabour = \"100 %\"\n"
                 "[levels]\n4 = \"100 %\"\n[when_not_normal]\nprolonged = \"100 %\"\n"
                 "[causes]\nscar_gives_way = \"25 %\"\nnone_found = \"25 %\"\nlying_flat = \"50 %\"\n"),
        5);
    for (const DrawnScenario& one : drawn) {
        const sim::Cause c = read_scenario(one.text, one.id + ".toml").value().middle.cause;
        CHECK((c.answer == 0) == (c.trouble != sim::Trouble::lying_flat));
    }
}
