// The words of a note broken into lines: for the eye, never in the note.
#include "tests/ui/window/driver.h"

#include "ui/window/wrapped_text.h"

#include <random>

namespace {

float one_each(unsigned) { return 1; }

ui::WrappedText ten_wide(const std::string& text) { return {text, 10, one_each}; }

// The lines a person sees edited as the toolkit edits them.
struct Typist {
    std::string text;
    std::size_t cursor = 0;  // in what is shown

    void put(const std::string& what) {
        const ui::WrappedText before = ten_wide(text);
        std::string now = before.shown();
        now.insert(cursor, what);
        take(before, now, cursor + what.size());
    }
    void backspace() {
        if (cursor == 0) return;
        const ui::WrappedText before = ten_wide(text);
        std::string now = before.shown();
        now.erase(cursor - 1, 1);
        take(before, now, cursor - 1);
    }
    void remove() {
        const ui::WrappedText before = ten_wide(text);
        if (cursor >= before.shown().size()) return;
        std::string now = before.shown();
        now.erase(cursor, 1);
        take(before, now, cursor);
    }
    void take(const ui::WrappedText& before, const std::string& now, std::size_t at) {
        const auto made = before.edited(now, cursor, at, 200);
        text = made.text;
        cursor = ten_wide(text).in_shown(made.cursor);
    }
};

}  // namespace

TEST_CASE("Lines of ten: a blank becomes the break, a word of fourteen letters is broken after ten",
          "[wrapped]") {
    CHECK(ten_wide("heard it slow down").shown() == "heard it\nslow down");
    CHECK(ten_wide("heard it slow down").text() == "heard it slow down");
    CHECK(ten_wide("bbbbbbbbbbcccc").shown() == "bbbbbbbbbb\ncccc");
    CHECK(ten_wide("a bbbbbbbbbbcccc").shown() == "a\nbbbbbbbbbb\ncccc");
    CHECK(ten_wide("1234567890 next").shown() == "1234567890\nnext");
    CHECK(ten_wide("own\nbreak stays here").shown() == "own\nbreak\nstays here");
    CHECK(ten_wide("\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4")
              .shown() ==
          "\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\n\xC3\xA4");
    CHECK(ui::WrappedText("wide", 0.5f, one_each).shown() == "w\ni\nd\ne");  // at least one letter a line
    CHECK(ten_wide("").shown().empty());
}

TEST_CASE("Backspace at the start of a broken word's second line takes the letter before it", "[wrapped]") {
    Typist typist{"bbbbbbbbbbcccc", 11};
    typist.backspace();
    CHECK(typist.text == "bbbbbbbbbcccc");
    typist = {"bbbbbbbbbbcccc", 10};
    typist.remove();
    CHECK(typist.text == "bbbbbbbbbbccc");
    typist = {"heard it slow down", 9};  // behind the break that stands for a blank
    typist.backspace();
    CHECK(typist.text == "heard itslow down");
    CHECK(ten_wide("heard it slow down").between(6, 13) == "it slow");
}

TEST_CASE("More than the note may hold is cut short at a whole letter, and the end stays", "[wrapped]") {
    const ui::WrappedText before("ab", 10, one_each);
    const auto made = before.edited(
        "a\xC3\xA4\xC3\xA4"
        "b",
        1, 5, 5);
    CHECK(made.text ==
          "a\xC3\xA4"
          "b");
    CHECK(made.cursor == 3);
}

TEST_CASE("Twenty thousand random edits at random places leave the note as an editor without lines has it",
          "[wrapped]") {
    std::mt19937 dice(7);
    Typist typist;
    std::string plain;
    const std::string pieces[] = {"a", "word", " ", "\n", "long-word-of-twenty-x", "  ", "b c d"};
    for (int i = 0; i < 20000; ++i) {
        const ui::WrappedText lines = ten_wide(typist.text);
        REQUIRE(lines.text() == plain);
        std::size_t widest = 0, line = 0;
        for (const char c : lines.shown()) {
            line = c == '\n' ? 0 : line + 1;
            widest = std::max(widest, line);
        }
        REQUIRE(widest <= 10);
        typist.cursor = dice() % (lines.shown().size() + 1);
        const std::size_t at = lines.in_text(typist.cursor);
        REQUIRE(lines.in_text(lines.in_shown(at)) == at);
        const unsigned does = dice() % 4;
        if (does < 2 && plain.size() < 150) {
            const std::string& piece = pieces[dice() % 7];
            typist.put(piece);
            plain.insert(at, piece);
        } else if (does < 3) {
            typist.backspace();
            if (at > 0) plain.erase(at - 1, 1);
        } else {
            typist.remove();
            if (at < plain.size()) plain.erase(at, 1);
        }
    }
}

TEST_CASE("A long note typed into its box is broken on screen and kept without the breaks", "[wrapped]") {
    driver::AtHer her("wrapped");
    driver::Person& person = her.person;
    ui::BedsideScreen& bedside = *her.bedside;
    person.key('w');
    person.tab_to("write/note");
    const std::string says =
        "heart 98 after each of the three contractions, slow to come back; she lies on her left, "
        "Aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa h";
    for (std::size_t i = 0; i < says.size(); i += 10) person.type(says.substr(i, 10));
    her.window->screenshot(std::string(FULLMINUTE_BINARY_DIR) + "/screens/note-wrapped.png");
    person.key(SDLK_HOME);  // of the last line, which is "aa... h": the word was broken
    person.type("X");
    person.key(SDLK_BACKSPACE);
    person.key(SDLK_UP);
    person.key(SDLK_END);
    person.key(SDLK_RETURN);
    person.key(SDLK_BACKSPACE);
    person.use("write/keep_note");
    person.wait(1);
    std::string kept;
    for (const engine::Event& e : bedside.session().events())
        if (e.what == engine::Do::note) kept = e.text;
    CHECK(kept == says);
    CHECK(her.window->focused() == "write/keep_note");
    her.device.stop();
}
