// Rows of `counted` that an older program kept, filled with what the texts stored beside them still tell.
#pragma once

namespace soci {
class session;
}

namespace engine {

// Task, output mode, time, the class of the true rate, and which windows are judged and whose beats they
// hold. Never the decision: what it could rest on would have to be recomputed, and this program's truth is
// another. A text that cannot be read leaves its rows as they are (-1). Inside the caller's transaction.
void fill_older_rows(soci::session& sql);

}  // namespace engine
