// A value, or everything that was wrong with what came from outside.
#pragma once

#include <cassert>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace engine {

// One thing wrong with a file, a typed answer or an event: where, what was found, what is allowed.
struct Fault {
    std::string file;     // as given by the person; empty for typed answers
    int line = 0;         // 1-based; 0 = no line
    std::string what;     // "baby.baseline", "events[3].bpm"
    std::string found;    // as written
    std::string allowed;  // "50 bpm to 240 bpm", "one of: horn, bell, ..." , "did you mean `baseline`?"
};

// "file:line: what, found ..., allowed ..." on one line.
std::string in_one_line(const Fault& fault);

template <typename T>
class [[nodiscard]] Outcome {
public:
    Outcome(T value) : value_(std::move(value)) {}
    Outcome(Fault fault) { faults_.push_back(std::move(fault)); }
    Outcome(std::vector<Fault> faults) : faults_(std::move(faults)) { assert(!faults_.empty()); }

    bool ok() const { return value_.has_value(); }
    explicit operator bool() const { return ok(); }
    const T& value() const& {
        assert(ok());
        return *value_;
    }
    T& value() & {
        assert(ok());
        return *value_;
    }
    T&& value() && {
        assert(ok());
        return std::move(*value_);
    }
    const T* operator->() const {
        assert(ok());
        return &*value_;
    }
    const T& operator*() const {
        assert(ok());
        return *value_;
    }
    const std::vector<Fault>& faults() const { return faults_; }

private:
    std::optional<T> value_;
    std::vector<Fault> faults_;
};

struct Done {};  // Outcome<Done>: nothing to give back but success

}  // namespace engine
