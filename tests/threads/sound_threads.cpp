// Ten minutes of sound (or as many seconds as asked) with all controls moving, the window and the audio
// callback each on its own thread, as fast as they go. Run under ThreadSanitizer, which ends the program on
// the first race. Says what it did; 1 when a change was lost.
#include "tests/ui/sound/a_labour.h"
#include "ui/sound/callback.h"

#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <thread>
#include <vector>

int main(int arguments, char** words) {
    const int seconds = arguments > 1 ? std::atoi(words[1]) : 600;
    ui::Callback callback;
    std::atomic<bool> over{false};
    std::atomic<std::int64_t> blocks{0};
    std::thread audio([&] {
        std::vector<float> block(1024);
        for (std::int64_t n = 0; !over.load(std::memory_order_relaxed); ++n) {
            callback.fill(block.data(), 512, n * 10'666'667);
            blocks.store(n + 1, std::memory_order_relaxed);
        }
    });

    long sent = 0, back = 0, wrong = 0;
    std::int64_t sounded_us = 0, last_heard = 0;
    constexpr int labours = 4;
    for (int labour = 0; labour < labours; ++labour) {
        const auto listening = a_labour::listening(static_cast<std::uint64_t>(labour) + 1);
        callback.begin(*listening, a_labour::script(3));
        last_heard = 0;
        std::uint64_t next_ticket = 1, expected = 1;
        const auto take_back = [&] {
            while (const auto change = callback.applied()) {
                if (change->ticket != expected++) ++wrong;
                ++back;
            }
        };
        std::int64_t last_us = 0, sent_us = -1'000'000;
        const std::int64_t end_us = 1'000'000LL * seconds / labours;
        for (int n = 0; last_us < end_us; ++n) {
            const std::int64_t now_us = callback.rendered().us;
            if (now_us < last_us) ++wrong;
            last_us = now_us;
            if (now_us - sent_us >= 20'000) {
                sim::Change change = a_labour::anything(n, now_us);
                if (change.kind == sim::Change::Kind::skip) change.skip_to_us = now_us + 50'000;
                if (next_ticket == 1) change = a_labour::take(sim::Instrument::horn, 0);
                if (next_ticket == 2) change = a_labour::place(6, -7, 0);
                change.ticket = next_ticket;
                if (callback.send(change)) ++next_ticket, ++sent;
                sent_us = now_us;
            }
            const std::int64_t heard =
                callback.heard(blocks.load(std::memory_order_relaxed) * 10'666'667, 21'333).us;
            if (heard < last_heard) ++wrong;
            last_heard = heard;
            if (n % 1000 == 0) callback.set_volume(static_cast<float>(n / 1000 % 10) / 10);
            if (n % 50'000 == 25'000) callback.set_mode(static_cast<sim::OutputMode>(n / 50'000 % 3));
            if (n % 7'000 == 6'000) callback.hold_still(true);  // the device is gone
            if (n % 7'000 == 6'100) callback.hold_still(false);
            if (n % 5'000 == 4'000) callback.pause(true);
            if (n % 5'000 == 4'100) callback.pause(false);
            if (callback.displayed_bpm() < 0) ++wrong;
            // and on without yielding: on a busy machine each turn would cost a whole time slice
            take_back();
        }
        callback.pause(false);
        callback.hold_still(false);
        for (const std::int64_t from = blocks; expected < next_ticket && blocks < from + 10'000;) {
            take_back();
            std::this_thread::yield();
        }
        if (expected != next_ticket) ++wrong;
        sounded_us += callback.rendered().us;
        callback.stop();
    }
    over = true;
    audio.join();
    std::printf("%.0f s of sound in %lld blocks, %ld changes sent, %ld came back, %ld wrong\n",
                static_cast<double>(sounded_us) / 1e6, static_cast<long long>(blocks.load()), sent, back,
                wrong);
    return wrong == 0 && sent == back && sent > 0 ? 0 : 1;
}
