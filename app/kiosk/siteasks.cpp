// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/siteasks.h"

#include "domain/words.h"

namespace ramplight {

void whenManager(Session& session, const SiteBook& book, Ask& ask, const QString& what,
                 const QString& why, const std::function<void()>& then)
{
    session.whenPinAgain(why, [&book, &ask, what, then](PersonId id) {
        const Person* person = book.site().person(id);
        if (person == nullptr || !person->can(Right::Manage)) {
            const Refusal no{RefusalId::NotAllowed, {words(Right::Manage)}};
            ask.refuse(what, idText(no.id), words(no));
            return;
        }
        then();
    });
}

SiteAsks::SiteAsks(Desk& desk, Session& session, SiteBook& book, Ask& ask)
    : m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_ask(ask)
{
}

void SiteAsks::send(const QString& what, const QString& why, const SiteCommand& command,
                    const QString& personName, const Then& then, const Run& run)
{
    const SiteRequest request{newCommandId(), {}, command, personName};
    const auto go = [this, what, request, then, run](PersonId manager) {
        SiteRequest signedRequest = request;
        signedRequest.actor = manager;
        m_ask.send<SiteOutcome>(
            what,
            [this, signedRequest, run] {
                return run ? run(signedRequest) : m_desk.run(signedRequest);
            },
            [this, manager, then](const SiteOutcome& outcome) {
                m_book.take(outcome.site);
                if (then)
                    then(outcome, manager);
            });
    };
    m_session.whenPinAgain(why, go, request.id);
}

} // namespace ramplight
