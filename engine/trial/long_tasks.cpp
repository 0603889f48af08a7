// Listening through contractions, once or again and again.
#include "engine/scoring/situations.h"
#include "engine/trial/tasks.h"

#include <algorithm>
#include <limits>
#include <set>

namespace engine {

namespace {

constexpr double no_time_s = std::numeric_limits<double>::infinity();
constexpr double pulse_felt_s = 16, whole_minute_s = 60, clear_s = 32, on_after_s = 3, soon_s = 25,
                 closing_s = 45;
constexpr double longest_wait_s = 360;  // for a contraction [practice]
// from one listening to the next once something is wrong [practice]
constexpr double again_in_trouble_s = 120;

class Through {
public:
    explicit Through(Attendant& a) : a_(a), answering_(a) {
        belief_.judges_around = true;
        belief_.misread = a.draws.misread(a.counter);
        answering_.routine_too(false);
    }

    void all() {
        bool first = true;
        do {
            begin(first);
            listen();
            end();
            first = false;
        } while (a_.scenario.task == Task::labour && wait_until_due());
        a_.act("explain_findings");
        if (trouble_) a_.hand_over();
    }

private:
    void begin(bool first) {
        from_ = a_.t;
        for (int tries = 0; tries < 2 && !a_.placed(); ++tries) {
            if (tries > 0) a_.act("off_her_back");  // the horn did not go with how she lay
            a_.place_at_heart(0);
        }
        a_.wrist();
        a_.until(a_.t + pulse_felt_s);
        a_.report_pulse();
        if (first)
            for (const char* act : {"check_bleeding", "look_for_cord", "check_waters", "take_temperature",
                                    "take_blood_pressure", "ask_what_was_given"})
                a_.act(act);
        for (int baby = 1; baby < a_.scenario.middle.babies.size; ++baby) {
            own(a_.count(whole_minute_s, 0));
            a_.record("between", "no", "the first", true);
            a_.lift();
            a_.place_at_heart(baby);
            baby_ = baby;
        }
        a_.belly();
    }

    void own(int bpm) {
        const BaselineIs now = class_of_count(a_.protocol, bpm);
        const bool worse_of_twins =
            baby_ > 0 && belief_.own_class && *belief_.own_class != BaselineIs::normal;
        if (!worse_of_twins) belief_.own_class = now;
    }

    double after_end_s() const { return a_.protocol.rule_for(a_.scenario.labour.stage).after_end.value; }

    int through() const {
        int n = 0;
        for (const Contraction& c : a_.far().contractions)
            n += c.ended && c.to.seconds() >= from_ && c.to.seconds() + after_end_s() <= a_.t;
        return n;
    }

    double next_through_s() const {
        for (const Contraction& c : a_.far().contractions)
            if (c.ended && c.to.seconds() + after_end_s() + on_after_s > a_.t)
                return c.to.seconds() + after_end_s() + on_after_s;
        return no_time_s;
    }

    // A minute clear of contractions, where there is one.
    double minute_from_s() const {
        const auto& womb = a_.far().contractions;
        double from = a_.t;
        for (const Contraction& c : womb) {
            if (c.to.seconds() + clear_s <= from) continue;
            if (c.from.seconds() >= from + whole_minute_s) break;
            from = c.to.seconds() + clear_s;
            if (from > a_.t + longest_wait_s) return a_.t;
        }
        return from + whole_minute_s + closing_s < a_.end_s() ? from : a_.t;
    }

    // Everything one can come to know who goes on listening like this.
    const std::vector<Known>& known_ahead() {
        if (ahead_of_ == a_.events.size()) return ahead_;
        const Played& far = a_.far();
        Listened listened;
        listened.heard = what_was_heard(far);
        listened.found = far.revealed;
        ahead_ = picture_of(a_.scenario, a_.protocol, far, listened, {0}, {far.end.us + 1}).known;
        ahead_of_ = a_.events.size();
        return ahead_;
    }

    // Known to one who goes on listening like this, and not answered yet.
    double next_known_s() {
        double next = no_time_s;
        for (const Known& k : known_ahead()) {
            if (!belief_.notices(k.situation)) continue;
            for (const auto& [what, at] :
                 {std::pair{k.situation, k.from},
                  std::pair{k.situation + " worse", k.worse_from.value_or(k.from)}}) {
                if (answered_.count(what)) continue;
                if (at.seconds() <= a_.t) fresh_.insert(what);
                next = std::min(next, at.seconds());
            }
        }
        return next;
    }

    double next_call_s() const {
        double next = no_time_s;
        for (const CallOut& call : a_.scenario.call_outs)
            if (call.kind != CallOut::Kind::interrupted && call.at.value > called_s_)
                next = std::min(next, call.at.value);
        return next;
    }

    void see_to_call(double at) {
        called_s_ = at;
        for (const char* act : {"look_for_cord", "check_bleeding", "check_waters"}) a_.act(act);
    }

    // Everything that is known by now; true when something was new.
    bool answer_known() {
        fresh_.clear();
        if (next_known_s() > a_.t) return false;
        answered_.insert(fresh_.begin(), fresh_.end());
        for (const std::string& s : fresh_)
            if (s.find(" worse") == std::string::npos && s != "twins" && s != "breech" &&
                s != "mothers_pulse")
                trouble_ = true;
        answering_.answer(belief_);
        return true;
    }

    void listen() {
        bool counted = false;
        while (a_.left_s() > closing_s) {
            if (answer_known()) continue;
            if (!a_.placed()) a_.place_at_heart(baby_);
            if (!a_.placed()) return;
            const bool three = a_.scenario.task == Task::pattern || trouble_;
            if (counted && (through() >= (three ? 3 : 1) || a_.t > from_ + 3 * longest_wait_s)) return;
            const double known = next_known_s(), call = next_call_s(), late = answering_.next_late_s();
            const double minute = counted ? no_time_s : minute_from_s();
            double goal = std::min({known, call, late});
            const bool time_for_it = a_.left_s() > whole_minute_s + closing_s / 2;
            if (!counted && minute <= a_.t + 0.5 && goal > a_.t + soon_s && time_for_it) {
                own(a_.count(whole_minute_s, baby_));
                counted = true;
                answering_.answer(belief_);
                continue;
            }
            if (!time_for_it) counted = true;
            goal = std::min({goal, counted ? next_through_s() : minute, a_.t + longest_wait_s,
                             a_.end_s() - closing_s + 1});
            a_.until(std::max(goal, a_.t + 0.25));
            if (call <= a_.t) see_to_call(call);
            if (late <= a_.t) answering_.do_late();
        }
    }

    void end() {
        const Decision said = belief_.said(a_);
        a_.decide(said);
        const bool slows = said.around != Around::no_slowing && said.around != Around::not_listened &&
                           said.around != Around::not_said;
        a_.record("after",
                  said.around == Around::not_listened ? "not_listened"
                  : slows                             ? "yes"
                                                      : "no",
                  trouble_ || slows ? "turned, looked, told" : "", said.source != SourceIs::not_found);
        answering_.routine_too(!trouble_);
        answering_.answer(belief_);
        answering_.routine_too(false);
        a_.lift();
    }

    // At hand until the next listening is due, she calls or something shows; false: the labour's time is
    // over.
    bool wait_until_due() {
        const ListeningRule& rule = a_.protocol.rule_for(a_.scenario.labour.stage);
        const double usual =
            std::min((rule.every_least.value + rule.every_most.value) / 2, rule.every_most.value - 40);
        const double due = a_.t + (trouble_ ? std::min(usual, again_in_trouble_s) : usual);
        const double enough_s = 2 * whole_minute_s + closing_s;
        while (a_.t < due && a_.left_s() > 1) {
            const double call = next_call_s(), known = next_known_s(), late = answering_.next_late_s();
            a_.until(std::max(a_.t + 0.25, std::min({due, call, known, late})));
            if (late <= a_.t) answering_.do_late();
            answer_known();
            if (call > a_.t) continue;
            see_to_call(call);
            if (a_.left_s() > enough_s) return true;
        }
        return a_.left_s() > enough_s;
    }

    Attendant& a_;
    Answering answering_;
    Belief belief_;
    double from_ = 0, called_s_ = 0;
    int baby_ = 0;
    bool trouble_ = false;
    std::set<std::string> answered_, fresh_;
    std::vector<Known> ahead_;
    std::size_t ahead_of_ = static_cast<std::size_t>(-1);
};

}  // namespace

void listen_through(Attendant& a) { Through(a).all(); }

}  // namespace engine
