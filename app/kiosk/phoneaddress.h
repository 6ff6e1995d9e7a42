// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/choices.h"
#include "kiosk/keeping.h"
#include "kiosk/phonecamera.h"

namespace ramplight {

using PhoneKeeper = Keeping<PhoneSettings>::Keeper;

/// At which address phones reach this kiosk, changed by somebody who may manage. What is set holds
/// at once, and is kept only when it can be served; what cannot be kept is taken back and told, and
/// can be tried again. GUI thread.
class PhoneAddress : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the settings")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(QString address READ address NOTIFY changed FINAL) ///< empty: phones are not served
    /// This machine's addresses; refresh() reads them.
    Q_PROPERTY(QStringList own READ own NOTIFY changed FINAL)

public:
    /// Takes over from the phones what is served. An empty keeper keeps nothing beyond this start.
    PhoneAddress(Session& session, SiteBook& book, PhoneCamera& phones, PhoneKeeper keeper,
                 QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] QString address() const { return m_phones.settings().address; }
    [[nodiscard]] QStringList own() const { return m_own; }

    Q_INVOKABLE void refresh();
    /// Empty: phones are no longer served.
    Q_INVOKABLE void setAddress(const QString& address);

signals:
    void changed();

private:
    void take(const PhoneSettings& wanted);

    Session& m_session;
    SiteBook& m_book;
    PhoneCamera& m_phones;
    Keeping<PhoneSettings> m_keeping;
    Ask m_ask;
    QStringList m_own;
};

} // namespace ramplight
