#include "sim/hold.h"

namespace sim {

void apply(const Change& change, Hold& hold) {
    switch (change.kind) {
        case Change::Kind::take:
            hold.instrument = change.instrument;
            hold.placed = false;
            hold.tilt_deg = 0;
            break;
        case Change::Kind::place:
            hold.press_n = static_cast<double>(change.press_n);
            hold.placed = true;
            [[fallthrough]];
        case Change::Kind::move:
            hold.x_cm = change.x_cm;
            hold.y_cm = change.y_cm;
            break;
        case Change::Kind::press: hold.press_n = static_cast<double>(change.press_n); break;
        case Change::Kind::tilt:
            hold.tilt_deg = static_cast<double>(change.tilt_deg);
            hold.tilt_towards_deg = static_cast<double>(change.tilt_towards_deg);
            break;
        case Change::Kind::gel: hold.gel = change.gel; break;
        case Change::Kind::lift: hold.placed = false; break;
        case Change::Kind::hand: (change.hand == Hand::left ? hold.left : hold.right) = change.on; break;
        case Change::Kind::position: hold.position = change.position; break;
        case Change::Kind::act:
            if (change.act == Act::off_her_back) hold.position = Position::left_side;
            if (change.act == Act::lay_flat) hold.position = Position::flat;
            if (change.act == Act::knees_chest_hips_up) hold.position = Position::knees_and_chest;
            break;
        case Change::Kind::mode:
        case Change::Kind::skip: break;
    }
}

}  // namespace sim
