#include "engine/store/older_rows.h"

#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"
#include "engine/store/counted.h"

#include <nlohmann/json.hpp>
#include <soci/soci.h>

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace engine {
namespace {

using soci::into;
using soci::use;

struct OlderAttempt {
    long long number = 0;
    std::string scenario_sha256, protocol_sha256, output_mode, finished_utc, json;
};

std::string text_of(soci::session& sql, const std::string& sha256) {
    std::string body;
    sql << "SELECT body FROM file_text WHERE sha256 = :sha", use(sha256), into(body);
    return body;
}

// Many attempts at few scenarios: each text is read once.
template <typename Read>
class ReadOnce {
public:
    template <typename Reader>
    const std::optional<Read>& of(soci::session& sql, const std::string& sha256, Reader reader) {
        const auto found = kept_.find(sha256);
        if (found != kept_.end()) return found->second;
        Outcome<Read> read = reader(text_of(sql, sha256), "");
        std::optional<Read> value;
        if (read) value.emplace(std::move(read).value());
        return kept_.emplace(sha256, std::move(value)).first->second;
    }

private:
    std::map<std::string, std::optional<Read>> kept_;
};

// The windows of the score: the cut texts are not in the way, the JSON is whole but for them.
nlohmann::json windows_of(const std::string& cut_json) {
    const std::size_t score = cut_json.rfind("\"score\":");
    if (score == std::string::npos) return {};
    std::string text = cut_json.substr(score + 8);
    text = text.substr(0, text.rfind('}'));
    const nlohmann::json read = nlohmann::json::parse(text, nullptr, false);
    if (!read.is_object() || !read.contains("windows") || !read["windows"].is_array()) return {};
    return read["windows"];
}

void fill(CountedRow& row, const nlohmann::json& window) {
    if (window.contains("judged") && window["judged"].is_boolean()) row.judged = window["judged"].get<bool>();
    if (window.contains("followed") && window["followed"].is_string())
        row.followed = number_of_heart(window["followed"].get<std::string>());
}

}  // namespace

void fill_older_rows(soci::session& sql) {
    std::vector<long long> numbers;
    {
        long long number = 0;
        soci::statement rows =
            (sql.prepare << "SELECT DISTINCT attempt FROM counted ORDER BY attempt", into(number));
        rows.execute();
        while (rows.fetch()) numbers.push_back(number);
    }
    ReadOnce<Scenario> scenarios;
    ReadOnce<Protocol> protocols;
    for (const long long number : numbers) {
        OlderAttempt a;
        sql << "SELECT scenario_sha256, protocol_sha256, output_mode, finished_utc, json FROM attempt"
               " WHERE number = :number",
            use(number), into(a.scenario_sha256), into(a.protocol_sha256), into(a.output_mode),
            into(a.finished_utc), into(a.json);
        if (!sql.got_data()) continue;
        const std::optional<Scenario>& scenario = scenarios.of(sql, a.scenario_sha256, read_scenario);
        const std::optional<Protocol>& protocol = protocols.of(sql, a.protocol_sha256, read_protocol);
        const nlohmann::json windows = windows_of(a.json);

        std::vector<CountedRow> rows;
        CountedRow one;
        {
            soci::statement all =
                (sql.prepare
                     << "SELECT method, true_mbpm FROM counted WHERE attempt = :number ORDER BY place",
                 use(number), into(one.method), into(one.true_mbpm));
            all.execute();
            while (all.fetch()) rows.push_back(one);
        }
        const long long finished_s = seconds_of_utc(a.finished_utc), mode = number_of_mode(a.output_mode);
        for (std::size_t at = 0; at < rows.size(); ++at) {
            CountedRow& row = rows[at];
            if (scenario) row.task = static_cast<long long>(scenario->task);
            if (protocol) put_class(row, *protocol, scenario && scenario->boundary);
            if (windows.size() == rows.size()) fill(row, windows[at]);
            const auto place = static_cast<long long>(at);
            sql << "UPDATE counted SET finished_s = :finished_s, task = :task, mode = :mode, judged = "
                   ":judged,"
                   " followed = :followed, boundary = :boundary, true_class = :true_class"
                   " WHERE attempt = :number AND place = :place",
                use(finished_s), use(row.task), use(mode), use(row.judged), use(row.followed),
                use(row.boundary), use(row.true_class), use(number), use(place);
        }
    }
}

}  // namespace engine
