// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/sitebook.h"

#include <QCoreApplication>

namespace ramplight {

SiteBook::SiteBook(Desk& desk, const Catalogue& file, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_file(file)
    , m_catalogue(file)
{
    connect(&desk, &Desk::siteChanged, this, &SiteBook::refresh);
}

void SiteBook::refresh()
{
    whenReady(m_desk.site(), this, [this](const tl::expected<SiteState, Failure>& site) {
        if (site) {
            take(*site);
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
    if (m_read && site.seq < m_site.seq)
        return;
    if (!m_read || site.seq != m_site.seq)
        m_catalogue = houseCatalogue(m_file, site);
    m_site = site;
    m_read = true;
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
