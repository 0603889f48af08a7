// The command `progress`: figures and page of one person out of a store, as its user types it.
#include "tests/ui/progress/kept_counts.h"
#include "tests/ui/terminal/run_program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using nlohmann::json;

// [R] as in engine/competency's tests.
TEST_CASE("progress --json of eight counts: bias -1.25, sd 2.375470, limits absent below 10", "[progress]") {
    Folder folder;
    kept::put((folder / "s.db").string(), "A-014", kept::eight());
    const Run run = folder.run("progress --who a-014 --store s.db --json");
    INFO(run.err);
    REQUIRE(run.exit == 0);
    const json all = json::parse(run.out);
    CHECK(all["who"] == "A-014");
    CHECK(all["first_day"] == "2026-03-01");  // `date -u -d @1772389200`
    CHECK(all["last_day"] == "2026-03-08");
    CHECK(all["agreement"]["n"] == 8);
    CHECK(all["agreement"]["bias_bpm"].get<double>() == Approx(-1.25).margin(1e-6));
    CHECK(all["agreement"]["sd_bpm"].get<double>() == Approx(2.375469878).margin(1e-6));
    CHECK(all["agreement"]["bias_bpm_low"].get<double>() == Approx(-3.235942517).margin(1e-6));
    CHECK(all["agreement"]["limit_low_bpm"].is_null());
    CHECK(all["agreement"]["absent"]["limit_low_bpm"] == "limits are shown from 10 counts on");
    CHECK(all["by_rate"].size() == 6);
    CHECK(all["by_rate"][0]["absent"].contains("bias_bpm"));  // none below 110: 110 itself is normal
    CHECK(all["learning"]["series"] == "SSSSSSSS");           // all within 5 bpm
    CHECK(all["refresher"]["absent"]["months_after_the_last_day"] == "needs 10 first attempts");
    CHECK(all["practise_next"][0]["labours"].size() == 4);
}

TEST_CASE("progress in words names every part; figures that are not there say why", "[progress]") {
    Folder folder;
    kept::put((folder / "s.db").string(), "A-014", {{140, 139}});
    const Run run = folder.run("progress --who A-014 --store s.db");
    REQUIRE(run.exit == 0);
    for (const char* part : {"agreement", "by_rate", "by_method", "slow_normal_fast", "learning", "refresher",
                             "practise_next", "needs 10 counts"}) {
        INFO(part);
        CHECK(run.out.find(part) != std::string::npos);
    }
}

TEST_CASE("progress of somebody unknown, or of no store: exit 2 with one line", "[progress]") {
    Folder folder;
    kept::put((folder / "s.db").string(), "A-014", {});
    const Run unknown = folder.run("progress --who B-001 --store s.db");
    CHECK(unknown.exit == 2);
    CHECK(lines_of(unknown.err).size() == 1);
    CHECK(unknown.err.find("--who, found \"B-001\"") != std::string::npos);
    const Run no_store = folder.run("progress --who A-014 --store none.db");
    CHECK(no_store.exit == 2);
    CHECK(lines_of(no_store.err).size() == 1);
    CHECK_FALSE(std::filesystem::exists(folder / "none.db"));
    CHECK(folder.run("progress --who A-014 --store s.db --mode loud").exit == 2);
    CHECK(folder.run("progress --who A-014 --store s.db").exit == 0);  // known, nothing counted yet
}

TEST_CASE("the page of 40 counts says bias, mark, what to practise and that it certifies nothing",
          "[progress]") {
    Folder folder;
    kept::put((folder / "s.db").string(), "A-014", kept::many(40));
    const Run run = folder.run("progress --who A-014 --store s.db --out p.pdf");
    INFO(run.err);
    REQUIRE(run.exit == 0);
    CHECK(run.out.empty());
    for (const char* kind : {"p.svg", "p.png"})
        CHECK(folder.run(std::string("progress --who A-014 --store s.db --out ") + kind).exit == 0);
    CHECK(folder.run("progress --who A-014 --store s.db --out p.doc").exit == 2);
    const std::string once = text_of(folder / "p.pdf");
    CHECK(folder.run("progress --who A-014 --store s.db --out again.pdf").exit == 0);
    CHECK(text_of(folder / "again.pdf") == once);  // the same figures, the same bytes
    REQUIRE(std::system("command -v pdftotext > /dev/null 2>&1") == 0);  // of poppler-utils
    const std::string to_text =
        "pdftotext -layout '" + (folder / "p.pdf").string() + "' '" + (folder / "p.txt").string() + "'";
    REQUIRE(std::system(to_text.c_str()) == 0);
    const std::string text = text_of(folder / "p.txt");
    for (const char* says :
         {"Progress", "A-014", "A-014, 2026-03-01 to 2026-04-09", "How far off", "30 counts, on average",
          "Getting there", "the mark, for 100 labours", "What to practise next", "very fast, 180 on",
          "full minute", "Not here: 10 of another length", "a person certifies", "For learning only"}) {
        INFO(says);
        CHECK(text.find(says) != std::string::npos);
    }
}

// [R] as above; of the second person every count is 6 bpm high, beyond the 5 bpm that are right.
TEST_CASE("figures of a store compare two persons: bias -1.25 and 6, 8 and 0 of 8 right, no table typed",
          "[progress]") {
    Folder folder;
    kept::put((folder / "s.db").string(), "A-014", kept::eight());
    std::vector<kept::Count> high = kept::eight();
    for (kept::Count& c : high) c.written_bpm = static_cast<int>(c.truth_bpm) + 6;
    kept::put((folder / "s.db").string(), "B-201", high);
    const Run agreement = folder.run("figures s.db --of cohort --by who --json");
    INFO(agreement.err);
    REQUIRE(agreement.exit == 0);
    const json all = json::parse(agreement.out);
    INFO(all.dump(1));
    CHECK(all["n"] == 16);
    CHECK(all["by_who"][0]["name"] == "A-014");
    CHECK(all["by_who"][0]["bias_bpm"].get<double>() == Approx(-1.25).margin(1e-6));
    CHECK(all["by_who"][1]["bias_bpm"].get<double>() == Approx(6).margin(1e-6));
    const Run shares = folder.run("figures s.db --of shares --json");
    REQUIRE(shares.exit == 0);
    const json persons = json::parse(shares.out)["persons"];
    CHECK(persons[0]["right"] == 8);
    CHECK(persons[1]["right"] == 0);
    CHECK(persons[1]["of"] == 8);
    made_up::sql((folder / "other.db").string(), "CREATE TABLE t (a)");
    const Run other = folder.run("figures other.db --of shares");
    CHECK(other.exit == 2);
    CHECK(lines_of(other.err).size() == 1);
}
