// What a drawn scenario can be asked to be, one axis after another: its task, its level, what the heart does,
// with what and where it is heard, how the baby lies, and what else is the matter.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

enum class Axis : std::uint8_t {
    normal,    // yes, no
    boundary,  // no, yes: sits on a limit where protocols or hearts are hard to tell apart
    task,
    level,
    calm,     // what a normal heart does; "-" where it is not normal
    trouble,  // what a heart that is not normal does; "-" where it is
    cause,    // what is behind that; "-" where it is normal
    instrument,
    place,
    position,
    variant,
    count_
};
inline constexpr std::size_t axis_count = static_cast<std::size_t>(Axis::count_);

// Values of an axis are numbers in the order of its words.
namespace normal {
enum : int { yes, no };
}
namespace boundary {
enum : int { no, yes };
}
namespace task {
enum : int { count, quick, find, tell_apart, pattern, labour };
}
namespace calm {
enum : int { none, no_slowing, early };
}
namespace trouble {
enum : int { none, late, variable, prolonged, rising, fast, slow, irregular, twins, absent };
}
namespace cause {
enum : int {
    none,
    lying_flat,
    cord_pressure,
    cord_prolapse,
    too_many,
    fever,
    bleeding,
    medicine,
    scar,
    none_found
};
}
namespace instrument {
enum : int { horn, stethoscope, doppler, both };
}
namespace place {
enum : int { post, centre, hospital };
}
namespace position {
enum : int { back_front, back_side, back_behind, breech, across };
}
namespace variant {
enum : int {
    none,
    injection,
    high_pressure,
    preterm,
    thin_green,
    generator,
    in_water,
    interrupted,
    second_twin
};
}

// The section of a quota file ("" = one key at its top) and the words of each value; "-" is never written.
struct AxisWords {
    std::string_view section;
    std::vector<std::string_view> words;
};
const AxisWords& words_of(Axis axis);
inline int values_of(Axis axis) { return static_cast<int>(words_of(axis).words.size()); }

// One scenario as asked: a value for each axis.
struct Case {
    std::array<int, axis_count> value{};
    int& operator[](Axis axis) { return value[static_cast<std::size_t>(axis)]; }
    int operator[](Axis axis) const { return value[static_cast<std::size_t>(axis)]; }
    std::string_view word(Axis axis) const {
        return words_of(axis).words[static_cast<std::size_t>((*this)[axis])];
    }
    bool is_normal() const { return (*this)[Axis::normal] == normal::yes; }
    friend bool operator==(const Case&, const Case&) = default;
};

}  // namespace engine
