#include "sim/instrument/chain.h"

namespace sim {

Chain chain_of(const Hold& hold) {
    switch (hold.instrument) {
        case Instrument::horn: return horn(hold);
        case Instrument::bell: return bell(hold);
        case Instrument::diaphragm: return diaphragm(hold);
        case Instrument::doppler: return doppler_speaker(hold);
        case Instrument::none: break;
    }
    Chain nothing;
    nothing.contact = 0;
    return nothing;
}

double amplitude_at(const Chain& chain, double f_hz) {
    double amplitude = 1;
    for (const FilterShape& stage : chain.stages) amplitude *= amplitude_at(stage, f_hz);
    return amplitude;
}

Hold held_well(Instrument instrument, double x_cm, double y_cm) {
    Hold hold;
    hold.instrument = instrument;
    hold.placed = true;
    hold.x_cm = x_cm;
    hold.y_cm = y_cm;
    hold.gel = true;
    return hold;
}

}  // namespace sim
