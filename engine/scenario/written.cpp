#include "engine/scenario/written.h"

#include <toml++/toml.h>

#include <algorithm>
#include <fstream>
#include <sstream>

namespace engine {
namespace {

Written written_of(const toml::node& node);

Written table_of(const toml::table& table) {
    Written all;
    all.kind = Written::Kind::table;
    for (const auto& [key, node] : table) {
        Written part = written_of(node);
        part.key = std::string(key.str());
        if (key.source().begin.line > 0) part.line = static_cast<int>(key.source().begin.line);
        all.parts.push_back(std::move(part));
    }
    // The library sorts keys by name; people read by line.
    std::stable_sort(all.parts.begin(), all.parts.end(),
                     [](const Written& a, const Written& b) { return a.line < b.line; });
    return all;
}

Written written_of(const toml::node& node) {
    Written value;
    if (const auto* table = node.as_table()) {
        value = table_of(*table);
    } else if (const auto* array = node.as_array()) {
        value.kind = Written::Kind::list;
        for (const toml::node& element : *array) value.parts.push_back(written_of(element));
    } else if (const auto* text = node.as_string()) {
        value.kind = Written::Kind::text;
        value.text = text->get();
    } else if (const auto* whole = node.as_integer()) {
        value.kind = Written::Kind::whole;
        value.whole = whole->get();
        value.text = std::to_string(value.whole);
    } else if (const auto* truth = node.as_boolean()) {
        value.kind = Written::Kind::truth;
        value.truth = truth->get();
        value.text = value.truth ? "true" : "false";
    } else {
        value.kind = node.is_floating_point() ? Written::Kind::number : Written::Kind::other;
        std::ostringstream shown;
        node.visit([&shown](const auto& any) {
            if constexpr (toml::is_value<decltype(any)>) shown << any.get();
        });
        value.text = shown.str();
    }
    value.line = std::max(1, static_cast<int>(node.source().begin.line));
    return value;
}

}  // namespace

const Written* Written::part(std::string_view name) const {
    for (const Written& p : parts)
        if (p.key == name) return &p;
    return nullptr;
}

Outcome<Written> read_toml(std::string_view text, const std::string& file) {
    try {
        const toml::table table = toml::parse(text, std::string_view(file));
        Written all = table_of(table);
        all.line = 1;
        return all;
    } catch (const toml::parse_error& error) {
        return Fault{file, static_cast<int>(error.source().begin.line), "this is not TOML",
                     std::string(error.description()), "a file that follows toml.io version 1.0"};
    }
}

Outcome<std::string> bytes_of(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) return Fault{path, 0, "the file cannot be read", "", "a readable file"};
    std::ostringstream all;
    all << in.rdbuf();
    if (in.bad() || !all) return Fault{path, 0, "the file cannot be read to its end", "", "a readable file"};
    return std::move(all).str();
}

std::string stem_of(std::string_view path) {
    const std::size_t slash = path.find_last_of('/');
    if (slash != std::string_view::npos) path.remove_prefix(slash + 1);
    const std::size_t dot = path.find_last_of('.');
    return std::string(dot == std::string_view::npos ? path : path.substr(0, dot));
}

}  // namespace engine
