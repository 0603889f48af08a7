// A rendered sound and its truth as files for a judge that shares no code with the program, and the judge's
// answer.
#pragma once

#include "sim/beats/beat_train.h"
#include "tests/sim/scene.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <cstdio>
#include <fstream>
#include <memory>
#include <string>
#include <vector>

namespace outside {

inline void put(std::ofstream& f, std::uint32_t v, int bytes) {
    for (int i = 0; i < bytes; ++i) f.put(static_cast<char>(v >> (8 * i) & 0xff));
}

// 16 bits, mono, 48 kHz.
inline void write_wav(const std::string& path, const std::vector<float>& x) {
    std::ofstream f(path, std::ios::binary);
    const auto bytes = static_cast<std::uint32_t>(2 * x.size());
    f << "RIFF";
    put(f, 36 + bytes, 4);
    f << "WAVEfmt ";
    put(f, 16, 4);
    put(f, 1, 2);
    put(f, 1, 2);
    put(f, 48'000, 4);
    put(f, 96'000, 4);
    put(f, 2, 2);
    put(f, 16, 2);
    f << "data";
    put(f, bytes, 4);
    for (float s : x) put(f, static_cast<std::uint32_t>(static_cast<std::int32_t>(s * 32767)), 2);
    REQUIRE(f.good());
}

inline std::string path_of(const std::string& name) {
    return std::string(FULLMINUTE_BINARY_DIR) + "/" + name;
}

// What a command prints, line by line; a command that fails or is not there fails the test, and says which.
inline std::vector<std::string> told_by(const std::string& command) {
    INFO("needs the packages named in .ci/packages: " << command);
    FILE* told = popen(command.c_str(), "r");
    REQUIRE(told != nullptr);
    std::vector<std::string> lines;
    char line[512];
    while (std::fgets(line, sizeof line, told) != nullptr) lines.emplace_back(line);
    REQUIRE(pclose(told) == 0);
    return lines;
}

// Seconds of a heart's beats that happened, within the first `seconds`.
inline std::vector<double> beats_of(const sim::Patient& p, sim::Seed seed, sim::Who who, double seconds) {
    std::vector<double> out;
    for (const sim::Beat& b : sim::beats_over(p, seed, who, sim::course_over(p, seed, {}, {seconds})))
        if (b.kind != sim::BeatKind::dropped) out.push_back(static_cast<double>(b.at_us) * 1e-6);
    return out;
}

// A line each: seconds, six digits.
inline void write_truth(const std::string& path, const std::vector<double>& beats) {
    std::ofstream f(path);
    f.setf(std::ios::fixed);
    f.precision(6);
    for (double t : beats) f << t << '\n';
    REQUIRE(f.good());
}

}  // namespace outside
