#include "ui/terminal/wav.h"

#include "sim/random.h"
#include "ui/terminal/input_output.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <sndfile.h>
#include <vector>

namespace ui {
namespace {

// libsndfile's file calls, on a string: the file is then written whole or not at all.
struct Memory {
    std::string bytes;
    sf_count_t at = 0;
};

SF_VIRTUAL_IO in_memory() {
    SF_VIRTUAL_IO io{};
    io.get_filelen = [](void* m) { return static_cast<sf_count_t>(static_cast<Memory*>(m)->bytes.size()); };
    io.seek = [](sf_count_t offset, int whence, void* m) {
        auto& memory = *static_cast<Memory*>(m);
        const auto size = static_cast<sf_count_t>(memory.bytes.size());
        memory.at = offset + (whence == SEEK_SET ? 0 : whence == SEEK_CUR ? memory.at : size);
        return memory.at;
    };
    io.read = [](void* to, sf_count_t count, void* m) {
        auto& memory = *static_cast<Memory*>(m);
        const auto left = static_cast<sf_count_t>(memory.bytes.size()) - memory.at;
        const sf_count_t take = std::max<sf_count_t>(0, std::min(count, left));
        std::memcpy(to, memory.bytes.data() + memory.at, static_cast<std::size_t>(take));
        memory.at += take;
        return take;
    };
    io.write = [](const void* from, sf_count_t count, void* m) {
        auto& memory = *static_cast<Memory*>(m);
        if (memory.at + count > static_cast<sf_count_t>(memory.bytes.size()))
            memory.bytes.resize(static_cast<std::size_t>(memory.at + count));
        std::memcpy(memory.bytes.data() + memory.at, from, static_cast<std::size_t>(count));
        memory.at += count;
        return count;
    };
    io.tell = [](void* m) { return static_cast<Memory*>(m)->at; };
    return io;
}

}  // namespace

void write_wav(const std::string& path, std::span<const float> samples, bool float_samples, sim::Seed seed) {
    SF_INFO format{};
    format.samplerate = sim::sample_rate;
    format.channels = 1;
    format.format = SF_FORMAT_WAV | (float_samples ? SF_FORMAT_FLOAT : SF_FORMAT_PCM_16);
    Memory memory;
    SF_VIRTUAL_IO io = in_memory();
    SNDFILE* file = sf_open_virtual(&io, SFM_WRITE, &format, &memory);
    if (file == nullptr) refuse(path, sf_strerror(nullptr), "a WAV file that can be written");
    const auto count = static_cast<sf_count_t>(samples.size());
    sf_count_t written = 0;
    if (float_samples) {
        sf_command(file, SFC_SET_ADD_PEAK_CHUNK, nullptr, SF_FALSE);  // the chunk carries a date
        written = sf_write_float(file, samples.data(), count);
    } else {
        std::vector<std::int16_t> whole(samples.size());
        for (std::size_t i = 0; i < samples.size(); ++i) {
            const auto draw = sim::words(seed, sim::Stream::dither, i);
            const double dither =
                (static_cast<double>(draw[0]) - static_cast<double>(draw[1])) / 4294967296.0;
            const double level = static_cast<double>(samples[i]) * 32767.0 + dither;
            whole[i] = static_cast<std::int16_t>(std::lround(std::clamp(level, -32768.0, 32767.0)));
        }
        written = sf_write_short(file, whole.data(), count);
    }
    sf_close(file);
    if (written != count) refuse(path, "a short write", "room for the whole WAV file");
    write_out(path, memory.bytes);
}

}  // namespace ui
