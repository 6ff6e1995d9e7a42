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
    , m_keeper(std::move(keeper))
{
    connect(&phones, &PhoneCamera::changed, this, &PhoneAddress::changed);
}

void PhoneAddress::refresh()
{
    m_own = ownAddresses();
    emit changed();
}

QString PhoneAddress::take(const PhoneSettings& wanted)
{
    const PhoneSettings before = m_phones.settings();
    QString fault = m_phones.serve(wanted);
    if (fault.isEmpty() && m_keeper)
        fault = m_keeper(wanted);
    if (!fault.isEmpty())
        m_phones.serve(before);
    return fault;
}

void PhoneAddress::setAddress(const QString& address)
{
    PhoneSettings wanted = m_phones.settings();
    wanted.address = address.trimmed();
    if (wanted == m_phones.settings() && m_phones.fault().isEmpty())
        return;
    const QString what = QStringLiteral("phones");
    whenManager(m_session, m_book, m_ask, what, tr("to change this kiosk"), [this, what, wanted] {
        if (const QString fault = take(wanted); !fault.isEmpty()) {
            m_ask.refuse(what, QStringLiteral("address"), fault);
            return;
        }
        m_ask.dismiss();
    });
}

} // namespace ramplight
