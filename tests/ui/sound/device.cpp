#include "ui/sound/device.h"

#include "tests/ui/sound/a_labour.h"

#include <catch2/catch.hpp>

#include <SDL.h>

#include <cmath>
#include <cstdint>
#include <algorithm>
#include <cstdio>
#include <cstring>
#include <fstream>

namespace {

// Waits for the device's own thread, at most 5 s.
template <typename Until>
bool within_5_s(Until until) {
    for (int n = 0; n < 500; ++n) {
        if (until()) return true;
        SDL_Delay(10);
    }
    return false;
}

void use_driver(const char* name) { SDL_setenv("SDL_AUDIODRIVER", name, 1); }

}  // namespace

TEST_CASE("without a sound device it says so, and labour time goes on in silence", "[device]") {
    use_driver("dummy");
    ui::SoundDevice device;
    CHECK(device.state() == ui::DeviceState::silent_stand_in);
    CHECK(device.state_words().rfind("no sound device: ", 0) == 0);
    CHECK(device.delay_s() == Approx(2.0 * 512 / 48000));
    device.begin(*a_labour::listening());
    CHECK(within_5_s([&] { return device.rendered().us > 100'000; }));
    CHECK(device.heard() <= device.rendered());
    device.pause(true);
    CHECK(device.paused());
    SDL_Delay(50);
    const auto stood = device.rendered();
    SDL_Delay(50);
    CHECK(device.rendered() == stood);
}

TEST_CASE("a driver that does not exist is named, and the silent one stands in", "[device]") {
    use_driver("nosuchdriver");
    ui::SoundDevice device;
    CHECK(device.state() == ui::DeviceState::silent_stand_in);
    CHECK(device.state_words().find("no sound device: ") == 0);
    CHECK(device.state_words().size() >
          std::string("no sound device: ; time goes on, nothing is heard").size());
    device.begin(*a_labour::listening());
    CHECK(within_5_s([&] { return device.rendered().us > 100'000; }));
    use_driver("dummy");
}

TEST_CASE("the device is pulled out: labour time stands still, nothing is lost, it goes on when one returns",
          "[device]") {
    use_driver("dummy");
    ui::SoundDevice device;
    device.begin(*a_labour::listening());
    REQUIRE(within_5_s([&] { return device.rendered().us > 50'000; }));
    SDL_Event gone{};
    gone.type = SDL_AUDIODEVICEREMOVED;
    gone.adevice.which = 2;
    REQUIRE(SDL_PushEvent(&gone) >= 0);
    CHECK(device.state() == ui::DeviceState::lost);
    CHECK(device.paused());
    CHECK(device.state_words().find("time stands still") != std::string::npos);
    SDL_Delay(50);
    const auto stood = device.rendered();
    sim::Change take = a_labour::take(sim::Instrument::horn, 0);
    take.ticket = 9;
    CHECK(device.send(take));
    CHECK(device.look_after());
    CHECK(device.state() == ui::DeviceState::lost);
    SDL_Delay(50);
    CHECK(device.rendered() == stood);
    CHECK(within_5_s([&] { return device.look_after(); }));
    CHECK(device.state() == ui::DeviceState::silent_stand_in);
    CHECK_FALSE(device.paused());
    CHECK(within_5_s([&] { return device.rendered().us > stood.us + 50'000; }));
    const auto back = device.applied();
    REQUIRE(back);
    CHECK(back->ticket == 9);
    CHECK(back->at_us >= stood.us - 2000);
}

TEST_CASE(
    "through SDL_mixer and the disk driver 20 s of a labour reach the file, sample for sample in both ears",
    "[device]") {
    const std::string path = std::string(FULLMINUTE_BINARY_DIR) + "/disk_driver_test.raw";
    use_driver("disk");
    SDL_setenv("SDL_DISKAUDIOFILE", path.c_str(), 1);
    SDL_setenv("SDL_DISKAUDIODELAY", "0", 1);
    {
        ui::SoundDevice device;
        CHECK(device.state() == ui::DeviceState::playing);
        CHECK(device.state_words().empty());
        device.set_volume(1);
        device.begin(*a_labour::listening(), a_labour::script(20));
        CHECK(within_5_s([&] { return device.rendered().us > 20'000'000; }));
    }
    use_driver("dummy");
    std::ifstream file(path, std::ios::binary);
    const std::string bytes(std::istreambuf_iterator<char>(file), {});
    std::remove(path.c_str());
    std::vector<float> got(bytes.size() / sizeof(float));
    std::memcpy(got.data(), bytes.data(), got.size() * sizeof(float));

    // The same labour, no device at all.
    ui::SoundDevice alone(ui::SoundDevice::Without::device);
    alone.set_volume(1);
    alone.begin(*a_labour::listening(), a_labour::script(20));
    std::vector<float> wanted(2 * 19 * 48'000);
    for (std::size_t at = 0; at < wanted.size(); at += 2 * 500) alone.fill(wanted.data() + at, 500);

    // Silent blocks before begin() reached the callback: the first sound tells where it starts.
    const auto sounds = [](float sample) { return sample != 0.0f; };
    const auto start = std::find_if(got.begin(), got.end(), sounds);
    const auto meant = std::find_if(wanted.begin(), wanted.end(), sounds);
    REQUIRE(start != got.end());
    REQUIRE(meant != wanted.end());
    const auto many = wanted.end() - meant;
    REQUIRE(got.end() - start >= many);
    const auto settled = 2 * 4800;  // the volume comes up while silent blocks were or were not played
    CHECK(std::equal(meant + settled, wanted.end(), start + settled));
}
