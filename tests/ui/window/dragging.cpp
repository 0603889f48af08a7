// Carrying an instrument or a hand from its card onto her.
#include "tests/ui/window/driver.h"

#include "ui/canvas/drawings.h"

namespace {

struct AtBedside {
    driver::Place place{"dragging"};
    ui::SoundDevice device{ui::SoundDevice::Without::device};
    std::unique_ptr<ui::Window> window = driver::window(1280, 800, 1.0);
    std::unique_ptr<ui::BedsideScreen> bedside;
    driver::Person person{*window, device};

    AtBedside() {
        ui::DoorWish wish;
        wish.person = "D-1";
        wish.protocol = ui::protocol_path("");
        wish.scenario = ui::scenario_path("c01");
        auto session = ui::sit_down(wish, device, *place.store, *place.journal);
        REQUIRE(session.ok());
        bedside = std::make_unique<ui::BedsideScreen>(std::move(session).value(), *place.store, false);
        person.at(*bedside);
        person.wait(1);
    }
    ui::Session& session() { return bedside->session(); }
    // A place on her skin, in pixels.
    ui::Point at(double x_cm, double y_cm) const {
        return ui::abdomen_in(window->where("belly").box()).to_page(x_cm, y_cm);
    }
    void drag_from(const std::string& id, double x_cm, double y_cm) {
        const ui::Area from = window->where(id);
        REQUIRE(from.w > 0);
        const ui::Point to = at(x_cm, y_cm);
        person.drag(from.middle_x(), from.middle_y(), static_cast<float>(to.x), static_cast<float>(to.y));
    }
};

}  // namespace

TEST_CASE("The Doppler dragged from its button to x 6, y -7 cm is taken and placed there", "[dragging]") {
    AtBedside she;
    she.drag_from("instrument:doppler", 6, -7);
    CHECK(she.session().hold().instrument == sim::Instrument::doppler);
    REQUIRE(she.session().hold().placed);
    CHECK(she.session().hold().x_cm == Approx(6).margin(0.15));  // a pixel is about 0.09 cm here
    CHECK(she.session().hold().y_cm == Approx(-7).margin(0.15));
    SECTION("dragged on the skin by 3 cm it is moved, not lifted") {
        const ui::Point from = she.at(6, -7), to = she.at(9, -7);
        she.person.drag(static_cast<float>(from.x), static_cast<float>(from.y), static_cast<float>(to.x),
                        static_cast<float>(to.y));
        CHECK(she.session().hold().placed);
        CHECK(she.session().hold().x_cm == Approx(9).margin(0.2));
    }
    SECTION("dragged from its button again it goes to the new place") {
        she.drag_from("instrument:doppler", -4, -5);
        CHECK(she.session().hold().instrument == sim::Instrument::doppler);
        CHECK(she.session().hold().x_cm == Approx(-4).margin(0.15));
    }
}

TEST_CASE("The left hand is dragged to her wrist, to her belly, and onto the instrument", "[dragging]") {
    AtBedside she;
    she.drag_from("hand:left", ui::wrist_x_cm, ui::wrist_y_cm);
    CHECK(she.session().hold().left == sim::On::wrist);
    she.drag_from("hand:left", -5, 6);
    CHECK(she.session().hold().left == sim::On::belly);
    she.drag_from("instrument:doppler", 6, -7);
    REQUIRE(she.session().hold().placed);
    const sim::Hand carrying = she.session().carrying().value_or(sim::Hand::right);
    const bool left_is_free = carrying == sim::Hand::right;
    she.drag_from(left_is_free ? "hand:left" : "hand:right", 6.5, -7);
    CHECK((left_is_free ? she.session().hold().left : she.session().hold().right) == sim::On::instrument);
}

TEST_CASE("A drag that ends beside her does nothing; a click on the card still does", "[dragging]") {
    AtBedside she;
    const ui::Area card = she.window->where("hand:left");
    she.person.drag(card.middle_x(), card.middle_y(), 640, 20);
    CHECK(she.session().hold().left == sim::On::none);
    she.person.click("hand:left");
    CHECK(she.session().hold().left == sim::On::wrist);
}
