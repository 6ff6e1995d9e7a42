// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QObject>
#include <QString>
#include <QtQmlIntegration>

namespace ramplight {

/// Whether an action can be done now, as the domain decides it for the person who is signed in (or,
/// when nobody is, for somebody who holds every right: sign-in then follows the touch).
/// In QML: enabled: op.start.can; hint text: op.start.why.
class Offer
{
    Q_GADGET
    QML_VALUE_TYPE(offer)
    Q_PROPERTY(bool can MEMBER can FINAL)
    /// Why not, in the words of the refusal; empty when it can.
    Q_PROPERTY(QString why MEMBER why FINAL)
    /// Whether the button belongs on the screen at all in the present state.
    Q_PROPERTY(bool shown MEMBER shown FINAL)

public:
    bool can = false;
    QString why;
    bool shown = false;

    friend bool operator==(const Offer&, const Offer&) = default;
};

} // namespace ramplight
