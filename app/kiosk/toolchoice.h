// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/session.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

#include <map>
#include <vector>

namespace ramplight {

/// Which tool a reading is taken with: the only one that is in date by itself, otherwise the one
/// that this person took last. GUI thread; what it is given outlives it.
class ToolChoice
{
public:
    ToolChoice(const Session& session, const SiteBook& book, const Ticker& ticker);

    /// The house's tools of a kind that may be used today.
    [[nodiscard]] std::vector<const Tool*> inDate(ToolKind kind) const;
    /// Null when there are several and this person has taken none of them yet, or when the house
    /// has none at all. Where all are overdue it is one of those: the refusal then names it.
    [[nodiscard]] ToolId current(ToolKind kind) const;
    void take(ToolKind kind, ToolId tool);

private:
    const Session& m_session;
    const SiteBook& m_book;
    const Ticker& m_ticker;
    std::map<std::pair<PersonId, ToolKind>, ToolId> m_taken;
};

} // namespace ramplight
