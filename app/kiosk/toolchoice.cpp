// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/toolchoice.h"

#include <algorithm>

namespace ramplight {

ToolChoice::ToolChoice(const Session& session, const SiteBook& book, const Ticker& ticker)
    : m_session(session)
    , m_book(book)
    , m_ticker(ticker)
{
}

std::vector<const Tool*> ToolChoice::inDate(ToolKind kind) const
{
    const QDate today = m_book.times().dateOf(m_ticker.now());
    std::vector<const Tool*> tools = m_book.site().toolsOf(kind);
    std::erase_if(tools, [&](const Tool* tool) { return !tool->isInDate(today); });
    return tools;
}

ToolId ToolChoice::current(ToolKind kind) const
{
    const std::vector<const Tool*> usable = inDate(kind);
    if (usable.size() == 1)
        return usable.front()->id;
    if (usable.empty()) {
        const std::vector<const Tool*> all = m_book.site().toolsOf(kind);
        return all.empty() ? ToolId{} : all.front()->id;
    }
    const auto taken = m_taken.find({m_session.person(), kind});
    const bool still = taken != m_taken.end() && std::ranges::any_of(usable, [&](const Tool* tool) {
                           return tool->id == taken->second;
                       });
    return still ? taken->second : ToolId{};
}

void ToolChoice::take(ToolKind kind, ToolId tool)
{
    m_taken[{m_session.person(), kind}] = tool;
}

} // namespace ramplight
