// What was done: each expected act in time, late or not done, by the protocol's rules, the clock starting
// when this person's own listening could first show the trouble; and what was unsafe, not needed or not
// theirs to do.
#include "engine/scoring/action_answer.h"
#include "engine/scoring/acts_again.h"
#include "engine/scoring/acts_that_hold.h"
#include "engine/scoring/aspects.h"
#include "engine/scoring/over_calling.h"
#include "engine/scoring/which_count.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <set>

namespace engine {

namespace {

std::string joined(const std::vector<std::string>& acts, const char* between) {
    std::string s;
    for (const std::string& a : acts) s += (s.empty() ? "" : between) + a;
    return s;
}

class ActionJudge {
public:
    ActionJudge(const Evidence& e, ScoreSheet& sheet)
        : e_(e), sheet_(sheet), over_called_(over_called_acts(e)) {}

    AspectScore judge() {
        expected();
        again();
        done();
        AspectScore a{Aspect::action, Verdict::not_asked, {}, {}, {}};
        a.verdict = verdict_;
        a.figures["in_time"] = in_time_;
        a.figures["late"] = late_;
        a.figures["not_done"] = not_done_;
        a.figures["unsafe"] = unsafe_;
        a.figures["over_called"] = static_cast<double>(over_called_.size());
        if (verdict_ == Verdict::not_asked) {
            a.why = "No act was asked for.";
            return a;
        }
        const std::string faults = in_sentences();
        if (!faulty(a))
            a.why = fmt::format("{} of {} expected acts in time.{}", in_time_, in_time_ + late_ + not_done_,
                                not_clicked());
        if (!faults.empty()) a.why += (a.why.empty() ? "" : " ") + faults;
        if (faulty(a)) a.follows_from = cause();
        if (const std::string rest = left_unheard(e_); !rest.empty()) a.why += " " + rest;
        return a;
    }

private:
    void fault(Verdict v, std::vector<std::string>& list, const std::string& words,
               const std::string& situation) {
        verdict_ = worse(verdict_, v);
        list.push_back(words);
        situations_.insert(situation);
    }

    // What counted without having been chosen: seen from hands, ears and clock, or answered by another act.
    std::string not_clicked() const {
        std::string seen;
        int named = 0, more = 0;
        for (const ActScore& act : sheet_.acts) {
            if (act.verdict != "in_time" || act.by.empty() || !counted_.count(act.act)) continue;
            if (++named > 3) {
                ++more;
                continue;
            }
            seen += fmt::format("{}\"{}\" {}at {}", seen.empty() ? "" : ", ", words_of(act.act),
                                act.by == "seen" ? "" : "by \"" + words_of(act.by) + "\" ",
                                clock_time(act.done_s));
        }
        if (seen.empty()) return "";
        return " Taken from what you did: " + seen + (more > 0 ? fmt::format(" and {} more", more) : "") +
               ".";
    }

    // The gravest first, few enough to be read; every act has its own line on the sheet.
    std::string in_sentences() const {
        std::string all;
        const auto say = [&](const char* head, const std::vector<std::string>& list) {
            if (list.empty()) return;
            constexpr std::size_t most = 3;
            all += (all.empty() ? "" : " ") + std::string(head);
            for (std::size_t i = 0; i < std::min(most, list.size()); ++i)
                all += (i == 0 ? " \"" : ", \"") + list[i] + "\"";
            if (list.size() > most) all += fmt::format(" and {} more", list.size() - most);
            all += ".";
        };
        say("Unsafe here:", unsafe_words_);
        say("Not done, and must not be missed:", missed_words_);
        say("Too late:", late_words_);
        say("Not done:", left_words_);
        say("Done before anything was heard or had begun, which answers nothing:", too_soon_words_);
        say("Not yours to do here, call the one who may:", scope_words_);
        if (!again_says_.empty()) all += (all.empty() ? "" : " ") + again_says_;
        say("Not needed here:", needless_words_);
        return all;
    }

    void expected() {
        const std::vector<Bound> all =
            bound_rules(e_.scenario, e_.protocol, e_.played, e_.picture, Grade::expected);
        std::vector<Bound> bound = all;
        std::erase_if(bound, [&](const Bound& b) { return lapsed(e_, b); });
        for (const Asked& asked : asked_once(bound)) {
            ActScore act;
            act.act = joined(asked.acts, " or ");
            act.situations = asked.situations();
            act.critical = asked.critical();
            act.source = joined(asked.sources(), ", ");
            act.conflict = asked.conflict();
            std::vector<Answer> answers;
            for (const Bound* b : asked.by) {
                sort_doings(*b, all);
                if (const Answer answer = answer_to(e_, *b, all); !answer.pending) answers.push_back(answer);
            }
            if (answers.empty()) {
                if (e_.played.finished) not_reached(std::move(act), *asked.by.front());
                continue;
            }
            // The worst answer is shown; of equals the one whose time ran out first.
            const Answer& shown =
                *std::min_element(answers.begin(), answers.end(), [](const Answer& a, const Answer& b) {
                    return a.verdict != b.verdict ? a.verdict > b.verdict : a.due() < b.due();
                });
            constexpr std::array<const char*, 3> words = {"in_time", "late", "not_done"};
            act.verdict = words[static_cast<std::size_t>(shown.verdict)];
            act.situation = shown.bound->rule->situation;
            act.known_from_s = shown.from.seconds();
            act.within_s = shown.bound->rule->within.value;
            act.done_s = shown.at.us >= 0 ? shown.at.seconds() : -1;
            act.by = shown.by;
            if (!std::all_of(asked.by.begin(), asked.by.end(),
                             [](const Bound* b) { return judged_elsewhere(*b); }))
                count(act, answers);
            sheet_.acts.push_back(std::move(act));
        }
    }

    void not_reached(ActScore act, const Bound& b) {
        act.verdict = "not_reached";
        act.situation = b.rule->situation;
        act.known_from_s = b.from.seconds();
        act.within_s = b.rule->within.value;
        sheet_.acts.push_back(std::move(act));
    }

    // Acts that answered a rule, and acts of such a rule done before there was anything to answer.
    void sort_doings(const Bound& b, const std::vector<Bound>& all) {
        for (const std::string& id : b.acts)
            for (const TimedAct& did : e_.played.acts) {
                if (did.id != id) continue;
                const sim::LabourTime until = did.seen && id == "feel_pulse" ? e_.played.end : did.done_at;
                const bool counts =
                    answers(e_, b, id, {did.at, did.done_at, until, did.seen ? "seen" : ""}, all);
                (counts ? answered_ : too_soon_).insert(&did);
            }
    }

    // What the protocol asks for again and again, as long as the labour lasts.
    void again() {
        for (NotAgain& missed : not_done_again(e_)) {
            const bool late = missed.act.verdict == "late";
            ++(late ? late_ : not_done_);
            if (missed.why.empty()) {
                fault(missed.verdict, late ? late_words_ : left_words_, words_of(missed.act.act), "always");
            } else {
                verdict_ = worse(verdict_, missed.verdict);
                situations_.insert("always");
                again_says_ += (again_says_.empty() ? "" : " ") + missed.why;
            }
            sheet_.acts.push_back(std::move(missed.act));
        }
    }

    void count(const ActScore& act, const std::vector<Answer>& answers) {
        counted_.insert(act.act);
        if (act.verdict == "in_time") {
            ++in_time_;
            verdict_ = worse(verdict_, Verdict::met);
            return;
        }
        const bool late = act.verdict == "late";
        ++(late ? late_ : not_done_);
        for (const Answer& a : answers)
            if (a.verdict != Answer::in_time) faulty_.insert(a.bound->acts.begin(), a.bound->acts.end());
        const auto critical = std::find_if(answers.begin(), answers.end(), [](const Answer& a) {
            return a.verdict != Answer::in_time && a.bound->rule->critical;
        });
        const std::string words = words_of(act.act);
        if (late)
            fault(Verdict::partly, late_words_, words, act.situation);
        else if (critical != answers.end())
            fault(Verdict::missed, missed_words_, words, act.situation);
        else
            fault(Verdict::partly, left_words_, words, act.situation);
        for (const Answer& a : answers)
            if (a.verdict != Answer::in_time) situations_.insert(a.bound->rule->situation);
        if (critical != answers.end())
            sheet_.critical_missed.push_back((late ? "too late: " : "not done: ") + words +
                                             situation_words(critical->bound->rule->situation));
    }

    std::string situation_words(const std::string& id) const {
        const Situation* s = e_.protocol.situation(id);
        return s && !s->words.empty() ? " (" + s->words + ")" : "";
    }

    std::string words_of(const std::string& act) const {
        const std::string first = act.substr(0, act.find(" or "));
        const ActWords* words = e_.protocol.act(first);
        std::string s = words && !words->words.empty() ? words->words : first;
        if (first.size() < act.size()) s += " (or the like)";
        return s;
    }

    void done() {
        const auto unsafe = bound_rules(e_.scenario, e_.protocol, e_.played, e_.picture, Grade::unsafe);
        const auto not_needed =
            bound_rules(e_.scenario, e_.protocol, e_.played, e_.picture, Grade::not_needed);
        const auto late_if =
            bound_rules(e_.scenario, e_.protocol, e_.played, e_.picture, Grade::late_if_before);
        // For a sound heart whenever it was done.
        const auto needless = [&](const TimedAct& did) -> const Bound* {
            const auto found = std::find_if(not_needed.begin(), not_needed.end(), [&](const Bound& b) {
                const bool named = std::find(b.acts.begin(), b.acts.end(), did.id) != b.acts.end();
                return named &&
                       (b.rule->situation == "normal" ? over_called_.count(&did) > 0 : b.from <= did.at);
            });
            return found == not_needed.end() ? nullptr : &*found;
        };
        for (const TimedAct& did : e_.played.acts) {
            const auto holds = [&](const Bound& b) {
                return std::find(b.acts.begin(), b.acts.end(), did.id) != b.acts.end() &&
                       (b.from <= did.at || b.rule->situation == "always");
            };
            const auto first = [&](const std::vector<Bound>& bounds) {
                const auto found = std::find_if(bounds.begin(), bounds.end(), holds);
                return found == bounds.end() ? nullptr : &*found;
            };
            ActScore act;
            act.act = did.id;
            act.done_s = did.at.seconds();
            const auto known_to_be = std::find_if(unsafe.begin(), unsafe.end(), [&](const Bound& b) {
                return holds(b) || (std::find(b.acts.begin(), b.acts.end(), did.id) != b.acts.end() &&
                                    unsafe_beforehand(e_, b, did));
            });
            const Bound* bound = known_to_be == unsafe.end() ? nullptr : &*known_to_be;
            if (bound)
                act.verdict = "unsafe";
            else if (answered_.count(&did) || (did.seen && too_soon_.count(&did)))
                continue;
            else if (!did.seen && !may_do(e_.scenario, e_.protocol, did.id))
                act.verdict = "out_of_scope";
            else if ((bound = first(late_if)))
                act.verdict = before_others(*bound, did) ? "late" : "allowed";
            else if ((bound = needless(did)))
                act.verdict = "not_needed";
            else if (did.seen)
                continue;
            else
                act.verdict = too_soon_.count(&did) && faulty_.count(did.id) ? "too_soon" : "allowed";
            if (bound) {
                act.situation = bound->rule->situation;
                act.situations = {act.situation};
                act.critical = bound->rule->critical;
                act.known_from_s = bound->from.seconds();
                act.source = joined(bound->rule->sources, ", ");
                act.conflict = bound->rule->conflict;
            }
            if (act.verdict == "unsafe") {
                ++unsafe_;
                fault(Verdict::missed, unsafe_words_, words_of(did.id), act.situation);
                if (act.critical)
                    sheet_.critical_missed.push_back("unsafe here: " + words_of(did.id) +
                                                     situation_words(act.situation));
            }
            if (act.verdict == "out_of_scope")
                fault(Verdict::partly, scope_words_, words_of(did.id), "always");
            if (act.verdict == "too_soon")
                too_soon_words_.push_back(fmt::format("{} at {}", words_of(did.id), clock_time(act.done_s)));
            if (act.verdict == "not_needed") needless_words_.push_back(words_of(did.id));
            sheet_.acts.push_back(std::move(act));
        }
    }

    // Oxygen and the like are no fault of their own; only the delay of what should come first is shown.
    bool before_others(const Bound& b, const TimedAct& did) const {
        return std::any_of(b.rule->before.begin(), b.rule->before.end(), [&](const std::string& act) {
            const sim::LabourTime t = e_.done_at(act);
            return t.us < 0 || t > did.at;
        });
    }

    // Acts left out because the trouble was never named follow from the decision or, if that only followed a
    // wrong number, from the number.
    std::optional<Aspect> cause() const {
        const auto said = [&](const std::string& s) {
            return std::find(e_.own_situations.begin(), e_.own_situations.end(), s) !=
                   e_.own_situations.end();
        };
        const bool named = std::any_of(situations_.begin(), situations_.end(), [&](const std::string& s) {
            return s == "always" || s == "normal" || said(s);
        });
        const bool normal_not_named = situations_.count("normal") > 0 && !said("normal");
        if (named && !normal_not_named) return std::nullopt;
        for (Aspect a : {Aspect::whose, Aspect::site, Aspect::window, Aspect::count, Aspect::arithmetic,
                         Aspect::decision})
            if (faulty(sheet_, a)) return a;
        return std::nullopt;
    }

    const Evidence& e_;
    ScoreSheet& sheet_;
    const std::set<const TimedAct*> over_called_;
    Verdict verdict_ = Verdict::not_asked;
    std::vector<std::string> unsafe_words_, missed_words_, late_words_, left_words_, scope_words_,
        needless_words_, too_soon_words_;
    std::string again_says_;
    std::set<std::string> situations_, counted_, faulty_;
    std::set<const TimedAct*> answered_, too_soon_;
    int in_time_ = 0, late_ = 0, not_done_ = 0, unsafe_ = 0;
};

}  // namespace

AspectScore judge_action(const Evidence& e, ScoreSheet& sheet) { return ActionJudge(e, sheet).judge(); }

}  // namespace engine
