// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/phoneaddress.h"

#include "kiosk/siteasks.h"

namespace ramplight {

PhoneAddress::PhoneAddress(Session& session, SiteBook& book, PhoneCamera& phones,
                           PhoneKeeper keeper, QObject* parent)
    : QObject(parent)
    , m_session(session)
    , m_book(book)
    , m_phones(phones)
    , m_keeping(std::move(keeper))
{
    connect(&phones, &PhoneCamera::changed, this, &PhoneAddress::changed);
}

void PhoneAddress::refresh()
{
    m_own = ownAddresses();
    emit changed();
}

void PhoneAddress::setAddress(const QString& address)
{
    PhoneSettings wanted = m_phones.settings();
    wanted.address = address.trimmed();
    if (wanted == m_phones.settings() && m_phones.fault().isEmpty())
        return;
    whenManager(m_session, m_book, m_ask, QStringLiteral("phones"), tr("to change this kiosk"),
                [this, wanted] { take(wanted); });
}

void PhoneAddress::take(const PhoneSettings& wanted)
{
    if (!m_ask.begin(QStringLiteral("phones"), [this, wanted] { take(wanted); }))
        return;
    const PhoneSettings before = m_phones.settings();
    if (const QString fault = m_phones.serve(wanted); !fault.isEmpty()) {
        m_phones.serve(before);
        m_ask.fail(QStringLiteral("address"), fault, false);
        return;
    }
    whenReady(m_keeping.keep(wanted), this, [this, before](const QString& fault) {
        if (fault.isEmpty()) {
            m_ask.succeed();
            return;
        }
        m_phones.serve(before);
        m_ask.fail(QStringLiteral("store"), fault, true);
    });
}

} // namespace ramplight
