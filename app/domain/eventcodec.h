// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "domain/siteevents.h"

#include <QByteArray>
#include <QJsonObject>
#include <QString>

#include <tl/expected.hpp>

// Events <-> what a ledger row holds. Reading passes older versions through their upcasters.
namespace ramplight {

struct EncodedEvent
{
    QString type;
    int version = 1;
    QByteArray body; ///< canonical JSON, as jsontext.h writes it
    friend bool operator==(const EncodedEvent&, const EncodedEvent&) = default;
};

/// Why a row could not be read, e.g. a type that only a newer program knows.
struct EventFault
{
    QString words;
};

/// A JSON object out of its text, e.g. an event's body; the fault says where it ends being one.
[[nodiscard]] tl::expected<QJsonObject, EventFault> bodyOf(const QByteArray& text);
[[nodiscard]] EncodedEvent encode(const CarEvent& event);
[[nodiscard]] EncodedEvent encode(const SiteEvent& event);
[[nodiscard]] tl::expected<CarEvent, EventFault> decodeCarEvent(const EncodedEvent& encoded);
[[nodiscard]] tl::expected<SiteEvent, EventFault> decodeSiteEvent(const EncodedEvent& encoded);

} // namespace ramplight
