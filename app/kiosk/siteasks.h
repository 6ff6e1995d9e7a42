// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/desk.h"
#include "kiosk/session.h"
#include "kiosk/sitebook.h"

#include <functional>

namespace ramplight {

/// Calls then once somebody who may manage has entered the PIN again; anybody else is refused.
/// why: what the PIN is asked for. GUI thread; what it is given outlives it.
void whenManager(Session& session, const SiteBook& book, Ask& ask, const QString& what,
                 const QString& why, const std::function<void()>& then);

/// Sends changes of the site, each signed with the PIN of somebody who may manage. GUI thread; what
/// it is given outlives it.
class SiteAsks
{
public:
    using Then = std::function<void(const SiteOutcome&, PersonId manager)>;

    SiteAsks(Desk& desk, Session& session, SiteBook& book, Ask& ask);

    /// How it is carried out; null: by the desk's run().
    using Run = std::function<Answer<SiteOutcome>(const SiteRequest&)>;

    /// why: what the PIN is asked for, "to change tool T 7".
    void send(const QString& what, const QString& why, const SiteCommand& command,
              const QString& personName = {}, const Then& then = {}, const Run& run = {});

private:
    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    Ask& m_ask;
};

} // namespace ramplight
