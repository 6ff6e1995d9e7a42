// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/sitebook.h"

#include <QCoreApplication>

#include <utility>

namespace ramplight {

SiteBook::SiteBook(Desk& desk, const Catalogue& file, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_file(file)
    , m_catalogue(file)
{
    connect(&desk, &Desk::siteChanged, this, &SiteBook::refresh);
    connect(&desk, &Desk::standingChanged, this, &SiteBook::followStore);
    m_away = desk.standing().away;
}

// It is read again then, as everything is.
void SiteBook::followStore()
{
    const bool away = m_desk.standing().away;
    if (std::exchange(m_away, away) == away)
        return;
    ++m_turn;
    m_anotherStore = m_read;
}

void SiteBook::refresh()
{
    const int turn = m_turn;
    whenReady(m_desk.site(), this, [this, turn](const tl::expected<SiteState, Failure>& site) {
        if (turn != m_turn)
            return;
        if (site) {
            if (m_anotherStore || isNews(*site))
                use(*site);
            return;
        }
        const auto* fault = std::get_if<StoreError>(&site.error());
        if (!m_read && fault != nullptr && fault->kind == StoreErrorKind::Damaged)
            emit damaged(fault->words);
        else
            emit m_desk.storeFault(words(site.error()));
    });
}

void SiteBook::take(const SiteState& site)
{
    // Of which store it is, nobody knows then.
    if (!m_anotherStore && isNews(site))
        use(site);
}

bool SiteBook::isNews(const SiteState& site) const
{
    return !m_read || site.seq >= m_site.seq;
}

void SiteBook::use(const SiteState& site)
{
    if (!m_read || m_anotherStore || site.seq != m_site.seq)
        m_catalogue = houseCatalogue(m_file, site);
    m_site = site;
    m_read = true;
    m_anotherStore = false;
    m_times = TimeWords(zoneOf(site.rules));
    emit changed();
}

QString SiteBook::nameOf(PersonId person) const
{
    if (person.isNull())
        return {};
    const Person* known = m_site.person(person);
    return known != nullptr && !known->name.isEmpty()
               ? known->name
               : QCoreApplication::translate("ramplight", "somebody who left");
}

QString SiteBook::bayOf(BayId bay) const
{
    const Bay* known = bay.isNull() ? nullptr : m_site.bay(bay);
    if (known == nullptr)
        return {};
    return known->name.isEmpty() ? QString::number(known->number)
                                 : QStringLiteral("%1 %2").arg(known->number).arg(known->name);
}

} // namespace ramplight
